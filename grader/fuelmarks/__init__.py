"""Build, hand out, run, mark and report the course's exercises."""
