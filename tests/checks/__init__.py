"""The checks of an entry: every mistake found, with its place and the way out."""
