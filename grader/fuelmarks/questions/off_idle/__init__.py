"""The questions of unit 05: the off-idle port and valve."""
