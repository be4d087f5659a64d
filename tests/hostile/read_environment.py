"""Reads the environment of another process of the marker's."""

import os
from pathlib import Path

print(Path(f"/proc/{os.environ['PLANTED_PROCESS']}/environ").read_text())
