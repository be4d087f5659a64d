"""Flow through openings: jets, gas, two phases, plates."""
