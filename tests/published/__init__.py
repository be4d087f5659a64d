"""Check values from outside, each with its source and whether it was seen or recalled."""
