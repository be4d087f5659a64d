"""Talks a little all the time, and never comes to the end."""

import gc
import signal
import socket
import time

signal.signal(signal.SIGINT, signal.SIG_IGN)
(channel, *_) = [thing for thing in gc.get_objects() if isinstance(thing, socket.socket)]
while True:
    channel.send(b"x")
    time.sleep(0.02)
