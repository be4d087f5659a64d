"""The bench of the accelerator pump: its model, words and drawing."""
