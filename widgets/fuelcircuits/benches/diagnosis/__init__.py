"""The bench of diagnosis: its model, words and drawing."""
