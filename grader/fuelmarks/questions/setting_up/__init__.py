"""The questions of unit 11: setting up."""
