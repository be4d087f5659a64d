"""The bench of the air path: its model, words and drawing."""
