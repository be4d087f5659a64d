"""The bench of the low-speed circuit: its model, words and drawing."""
