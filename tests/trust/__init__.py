"""Trust, shown by trying: hostile entries and files, faults, privacy, sameness. `python -m tests.trust` goes on."""
