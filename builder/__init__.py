"""Ashbook: a study group's archive of wood firings, from entries to a published site."""
