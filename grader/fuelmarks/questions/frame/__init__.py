"""What a question is made of: givens, formula, slips, choices; and the sheet drawn from a seed."""
