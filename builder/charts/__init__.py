"""Figures to SVG; matplotlib lives here alone."""
