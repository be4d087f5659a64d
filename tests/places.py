"""Where things lie in this checkout."""

from pathlib import Path

__all__ = ["COURSE_FOLDER", "RIGS", "TOP"]

TOP = Path(__file__).parents[1]
COURSE_FOLDER = TOP / "course"
RIGS = COURSE_FOLDER / "rigs"
