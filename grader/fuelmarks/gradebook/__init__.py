"""nbgrader's gradebook and hooks, and a submission on its way there."""
