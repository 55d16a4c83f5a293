"""Tests of the room that publishes."""
