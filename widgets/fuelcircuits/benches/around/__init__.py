"""The bench of what is around the carburettor: its model, words and drawing."""
