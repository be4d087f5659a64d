"""Turns every clock it can find back to zero, then goes on for ever."""

import time

time.time = time.monotonic = time.perf_counter = lambda: 0.0
while True:
    pass
