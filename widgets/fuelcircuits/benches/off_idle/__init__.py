"""The bench of the off-idle port and valve: its model, words and drawing."""
