"""Reads the instructor's gradebook."""

import os
from pathlib import Path

print(Path(os.environ["PLANTED_GRADEBOOK"]).read_text())
