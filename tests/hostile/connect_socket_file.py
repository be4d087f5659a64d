"""Connects to a service of this computer through its socket file."""

import os
import socket

with socket.socket(socket.AF_UNIX) as door:
    door.connect(os.environ["PLANTED_SOCKET"])
    print("SUCCEEDED")
