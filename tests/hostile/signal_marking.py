"""Reaches for the process that marks with a signal."""

import os

os.kill(int(os.environ["PLANTED_PROCESS"]), 0)
print("SUCCEEDED")
