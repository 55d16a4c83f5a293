"""The pieces: outcome, porosity, shrinkage, colour."""
