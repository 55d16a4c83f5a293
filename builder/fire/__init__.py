"""The fire's circumstances, and the advice that follows from them and from the heat."""
