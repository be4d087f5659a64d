"""Stops itself, to be waited for."""

import os
import signal
import time

child = os.fork()
if child == 0:
    time.sleep(3600)
os.kill(child, signal.SIGSTOP)
os.waitpid(child, 0)
