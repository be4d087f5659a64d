"""Ends its process by a fault."""

import os

os.abort()
