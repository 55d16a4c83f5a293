"""The archive as a whole: rates, and what goes with success."""
