"""Ends its process at once."""

import os

os._exit(0)
