"""Figures to open data."""
