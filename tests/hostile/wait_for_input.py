"""Asks for a line of input that nobody types."""

input("How much is it? ")
