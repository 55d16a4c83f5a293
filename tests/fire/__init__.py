"""The fire's circumstances and the advice that follows."""
