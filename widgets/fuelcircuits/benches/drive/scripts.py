"""The browser's part of the driven carburettor: modules that stand behind those of every bench."""

from importlib.resources import files

__all__ = ["DRIVE", "DRIVE_STATIC", "DRIVE_STYLE"]

DRIVE_STATIC = files(__package__) / "static"
DRIVE = ("pace.js", "pedal.js", "strip.js", "sound.js", "outset.js", "drive.js")
"""The modules, each after those that it imports."""
DRIVE_STYLE = DRIVE_STATIC / "drive.css"
