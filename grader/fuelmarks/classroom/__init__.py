"""A class at work: hand out, collect, and mark."""
