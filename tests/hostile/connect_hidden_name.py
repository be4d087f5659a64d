"""Connects to a neighbour through a socket without a file."""

import os
import socket

with socket.socket(socket.AF_UNIX) as door:
    door.connect("\0" + os.environ["PLANTED_NAME"])
    print("SUCCEEDED")
