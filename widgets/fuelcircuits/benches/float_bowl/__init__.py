"""The bench of the float bowl: its model, words and drawing."""
