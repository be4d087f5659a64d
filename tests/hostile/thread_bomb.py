"""Starts threads without end."""

import threading
import time

while True:
    threading.Thread(target=time.sleep, args=(3600,)).start()
