"""Sends a reply that has no end."""

import gc
import socket

for channel in [thing for thing in gc.get_objects() if isinstance(thing, socket.socket)]:
    while True:
        channel.send(b"x" * 65536)
