"""Figures to HTML: what each page of the site says."""
