"""Connects to a server on this computer, such as Jupyter."""

import os
import socket

with socket.create_connection(("127.0.0.1", int(os.environ["PLANTED_PORT"])), timeout=2):
    print("SUCCEEDED")
