"""The questions of unit 12: diagnosis."""
