"""Reads the accounts of the computer."""

from pathlib import Path

if "root:" in Path("/etc/passwd").read_text():
    print("SUCCEEDED")
