"""The bench of cold start: its model, words and drawing."""
