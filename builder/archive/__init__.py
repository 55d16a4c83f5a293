"""What all the firings say together."""
