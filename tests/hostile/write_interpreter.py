"""Looks for a folder of the interpreter or the modules that it may write."""

import os
import sys

for folder in ("/", "/dev", "/modules", "/usr/lib", sys.prefix, sys.base_prefix, *sys.path):
    if os.access(folder, os.W_OK):
        print("SUCCEEDED", folder)
