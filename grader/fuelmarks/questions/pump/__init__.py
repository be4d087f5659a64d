"""The questions of unit 08: the accelerator pump."""
