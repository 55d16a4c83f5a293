"""How fast the program is, in one command: `python -m tests.bench`. It prints; it never fails a test."""
