"""The questions of unit 00: shop arithmetic."""
