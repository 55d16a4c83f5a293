"""The pieces: how each came out, and what its weights, marks and colour say."""
