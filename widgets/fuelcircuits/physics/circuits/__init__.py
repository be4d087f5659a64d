"""The carburettor's circuits, one module a noun, and the card entries each has."""
