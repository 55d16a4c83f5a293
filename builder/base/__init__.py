"""What every part may use: problems, places in files, units, constants."""
