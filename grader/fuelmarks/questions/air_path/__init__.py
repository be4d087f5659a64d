"""The questions of unit 01: the air path."""
