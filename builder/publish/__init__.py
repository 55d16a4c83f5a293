"""Finished pages to a site: mkdocs, cleaning, pictures, the swap. Knows nothing of firings."""
