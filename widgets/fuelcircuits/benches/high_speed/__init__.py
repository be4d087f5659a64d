"""The bench of the high-speed circuit: its model, words and drawing."""
