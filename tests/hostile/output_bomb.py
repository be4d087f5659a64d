"""Prints for ever."""

while True:
    print("x" * 10_000)
