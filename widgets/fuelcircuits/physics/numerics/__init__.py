"""Linear algebra, interpolation, roots, and motion in time, for floats and lists of them."""
