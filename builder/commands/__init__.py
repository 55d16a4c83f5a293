"""One command a file: the only place that prints, asks or exits."""
