"""One written question across the class on one page, the rubric as ticks, keys first."""
