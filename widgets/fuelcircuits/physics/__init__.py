"""One module a noun; SI floats and NumPy arrays in and out; no drawing, no units library."""
