"""Tests of builder/intake."""
