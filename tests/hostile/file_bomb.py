"""Makes files until no more can be made."""

from itertools import count
from pathlib import Path

for number in count():
    Path(f"{number}").touch()
