"""The figures of one firing against published values, curves worked by hand, and properties that must hold."""
