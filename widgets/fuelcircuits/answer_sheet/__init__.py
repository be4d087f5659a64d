"""The answer sheet in a notebook: what a trainee wrote, as a plain record."""
