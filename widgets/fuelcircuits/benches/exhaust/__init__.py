"""The bench of mixture and exhaust gas: its model, words and drawing."""
