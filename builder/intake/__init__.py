"""What is handed over: zip files of single firings and tables of old notes, to entries in content/firings/."""
