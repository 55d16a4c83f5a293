"""Entry files to parsed values with their places, and the one definition of the fields."""
