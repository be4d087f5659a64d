"""Lays a symbolic link to the gradebook in its own folder and reads that."""

import os
from pathlib import Path

link = Path("notes.txt")
link.symlink_to(os.environ["PLANTED_GRADEBOOK"])
print(link.read_text())
