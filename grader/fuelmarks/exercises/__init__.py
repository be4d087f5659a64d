"""One module a unit: givens, reference functions and slips."""
