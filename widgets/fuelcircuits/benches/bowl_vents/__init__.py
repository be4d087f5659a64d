"""The bench of the bowl's vents: its model, words and drawing."""
