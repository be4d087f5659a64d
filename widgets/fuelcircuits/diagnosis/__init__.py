"""Diagnosis: from readings at a real or a simulated car to a ranked list of suspects.

CHECKS            what can be read, with its cost and how well it can be read
Subject           a carburettor as it stands, which every check can be read on
predict           what each suspect would show at each check
weigh, rank       how likely each suspect is after some readings, and whether any explains them
worth             how much each further check can be expected to tell
cheapest          the cheapest set of checks that tells one suspect from the others
"""
