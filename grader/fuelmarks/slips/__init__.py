"""Slips that nobody wrote down: one change to a formula, told in words where an answer fits it."""
