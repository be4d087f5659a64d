"""The questions of unit 03: the bowl's vents."""
