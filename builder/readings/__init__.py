"""What was written down at the fire, to a curve with its uncertainty."""
