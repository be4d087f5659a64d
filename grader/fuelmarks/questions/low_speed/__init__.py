"""The questions of unit 04: the low-speed circuit."""
