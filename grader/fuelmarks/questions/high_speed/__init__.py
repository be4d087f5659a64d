"""The questions of unit 06: the high-speed circuit."""
