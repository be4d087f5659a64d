"""The bench of reading gauges: its model, words and drawing."""
