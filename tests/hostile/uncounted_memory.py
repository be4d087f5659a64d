"""Takes memory that no file system and no process is charged for."""

import os

os.memfd_create("hoard")
print("SUCCEEDED")
