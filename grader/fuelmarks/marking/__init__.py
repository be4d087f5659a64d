"""From records to marks and comments: pure functions."""
