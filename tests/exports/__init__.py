"""The open data, read back as a stranger would."""
