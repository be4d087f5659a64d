"""The bench of a hot engine standing: its model, words and drawing."""
