"""Sketches of what a question is about, drawn with the reader's own numbers."""
