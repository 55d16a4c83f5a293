"""Thermometers and readings: what was written down, to a curve with its uncertainty."""
