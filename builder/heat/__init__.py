"""One firing's figures, worked out from its curves."""
