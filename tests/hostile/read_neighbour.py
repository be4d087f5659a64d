"""Reads another trainee's submission and takes the answer from it."""

import os
from pathlib import Path

print(Path(os.environ["PLANTED_NEIGHBOUR"]).read_text())
