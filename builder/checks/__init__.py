"""Parsed to checked: after this a Firing is sound and frozen."""
