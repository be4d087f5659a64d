"""The questions of unit 02: the float bowl."""
