"""Learning alone: the comment at once, progress kept, and what to do next."""
