"""Prints one line of a hundred million characters."""

print("x" * 100_000_000)
