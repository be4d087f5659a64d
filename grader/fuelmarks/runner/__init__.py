"""Run a trainee's notebook apart from everything else and bring back values only."""
