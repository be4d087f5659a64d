"""The bench of setting up: its model, words and drawing."""
