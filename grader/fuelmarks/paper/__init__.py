"""The course on paper: handout, job sheet, key, and the instructor's pack."""
