"""Starts more processes than any exercise needs and lets them wait."""

import os
import signal

for _ in range(150):
    if os.fork() == 0:
        signal.pause()
print("SUCCEEDED")
