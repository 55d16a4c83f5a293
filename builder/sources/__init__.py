"""Other groups' published data, made a part of this archive: opened, read, and its firings taken over."""
