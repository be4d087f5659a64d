"""Lists every process of the computer with its command line."""

import os
from pathlib import Path

for path in Path("/proc").glob("[0-9]*/cmdline"):
    if path.parent.name not in ("1", str(os.getpid())):
        print("SUCCEEDED", path.read_text(errors="replace"))
