"""The bench of power enrichment: its model, words and drawing."""
