"""Fills the disk."""

from itertools import count
from pathlib import Path

for number in count():
    with Path(f"{number}").open("wb") as hoard:
        hoard.write(bytes(16 << 20))
