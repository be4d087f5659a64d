"""Reads the instructor's version of the course, with the rubrics."""

import os
from pathlib import Path

for path in Path(os.environ["PLANTED_CHECKOUT"], "course").iterdir():
    print("SUCCEEDED", path)
