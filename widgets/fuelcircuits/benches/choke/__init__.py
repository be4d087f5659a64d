"""The bench of the choke and cold start: its model, words and drawing."""
