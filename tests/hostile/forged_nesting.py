"""Sends a reply that is nested deeper than any reader can follow."""

import gc
import socket

for channel in [thing for thing in gc.get_objects() if isinstance(thing, socket.socket)]:
    channel.sendall(b"[" * 100_000 + b"\n")
