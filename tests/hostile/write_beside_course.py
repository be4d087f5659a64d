"""Leaves a module where the instructor's Python would import it."""

import os
from pathlib import Path

Path(os.environ["PLANTED_FOLDER"], "sitecustomize.py").write_text("import antigravity")
print("SUCCEEDED")
