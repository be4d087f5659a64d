"""Throws away standard output and the display hook."""

import sys

for name in ("stdout", "stderr", "displayhook", "excepthook"):
    setattr(sys, name, None)
