"""The browser's part of the driven carburettor: modules that stand behind those of every bench."""

from importlib.resources import files

from fuelcircuits.benches.frame.scripts import SCRIPTS

__all__ = ["BEHIND", "DRIVE", "DRIVE_STATIC", "DRIVE_STYLE", "NOTEBOOK"]

DRIVE_STATIC = files(__package__) / "static"
DRIVE = (
    "pace.js",
    "pedal.js",
    "feet.js",
    "levers.js",
    "strip.js",
    "scene.js",
    "sound.js",
    "outset.js",
    "seen.js",
    "travel.js",
    "drives.js",
    "cockpit.js",
    "drive.js",
)
"""The modules, each after those that it imports."""
BEHIND = tuple(name for name in SCRIPTS if name not in ("player.js", "bench.js"))
"""The modules of every bench that these stand behind in a notebook."""
NOTEBOOK = "notebook.js"
"""What asks the kernel."""
DRIVE_STYLE = DRIVE_STATIC / "drive.css"
