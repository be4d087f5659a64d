"""Where everything stands in a section [mm].

Places count across from the bore's axis, and down from the joint between bowl and cover. Heights
are the card's: fuel level, lip, lift of the idle tube, fall to the idle port, depth of the bowl.
Distances to the side, which no card holds, follow one another as the section needs them.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt, tan

from fuelcircuits.physics.network.rig import Rig

__all__ = ["COVER", "NECK", "WALL", "Layout", "layout"]

MM = 1e3
COVER, WALL, NECK = 12.0, 5.0, 10.0
"""Thickness of the cover, of castings' walls, and of the throttle body left of the bore."""
HORN = 30.0
"""Height of the air horn above the cover."""
ROOM = {
    "valve": 9.0,
    "down": 8.0,
    "main": 10.0,
    "idle": 9.0,
    "shot": 9.0,
    "jet": 14.0,
    "piston": 19.0,
    "pump": 26.0,
}
"""Width that each thing takes between the bore and the bowl's far end."""
COLUMN = ("valve", "down", "main", "idle", "shot")
"""What stands in the casting between bore and bowl, from the bore on."""


@dataclass(frozen=True)
class Layout:
    """Places of a rig's parts; `x` holds the middle of what stands left of the bore, by name."""

    x: dict[str, float]
    bore: float
    """Half the throttle bore."""
    venturi: float
    """Half the main venturi's throat."""
    horn: float
    """Half the air horn, where the section cuts it."""
    choke: float
    """Height of the choke shaft."""
    throat: float
    """Height of the main venturi's throat."""
    level: float
    lip: float
    shaft: float
    """Height of the throttle shaft."""
    flange: float
    floor: float
    """Height of the bowl's floor."""
    well: float
    """Height of the main well's foot."""
    column: float
    """Right inner wall of the bowl."""
    far: float
    """Left inner wall of the bowl."""

    @property
    def top(self) -> float:
        """Height of the air horn's rim."""
        return -COVER - HORN

    @property
    def joint(self) -> float:
        """Height of the joint between body and throttle body."""
        return self.shaft - 11.0

    @property
    def wall(self) -> float:
        """Left wall of the bore."""
        return -self.bore


PORT = ("valve", "down")
"""What of it stands in the throttle body."""


def layout(rig: Rig, there: Iterable[str], bowl: float) -> Layout:
    """Return where things stand, with only those `there`, and `bowl` mm more of the bowl."""
    path, idle, main = rig.air_path, rig.low_speed, rig.high_speed
    level = rig.float_bowl.specified_level * MM
    bore = path.throttle_bore * MM / 2
    lip = level - main.lip * MM
    shaft = level + (idle.fall - idle.lift) * MM + 2.0
    floor = rig.float_bowl.depth * MM
    x, column, far = _across(bore, set(there), bowl)
    offset, half = bore + 2.5, path.horn_bore * MM / 2
    return Layout(
        x=x,
        bore=bore,
        venturi=path.venturi_bore * MM / 2,
        horn=sqrt(half**2 - offset**2),
        choke=-COVER - HORN / 2,
        throat=lip + 8.0,
        level=level,
        lip=lip,
        shaft=shaft,
        flange=shaft + bore * (0.55 + tan(path.throttle_closed_angle)),
        floor=floor,
        well=max(floor + 5.5, level + main.well_depth * MM + 1.0),
        column=column,
        far=far,
    )


def _across(bore: float, there: set[str], bowl: float) -> tuple[dict[str, float], float, float]:
    """Return the middle of each thing, and the bowl's right and left inner wall."""
    x: dict[str, float] = {}
    edge = -bore - 1.0
    for name in COLUMN:
        if name not in PORT:
            edge = min(edge, -bore - NECK)
        if name in there:
            x[name] = edge - ROOM[name] / 2
            edge -= ROOM[name]
    edge -= WALL
    column = edge
    for name in ("pump", "jet", "piston"):
        if name in there:
            x[name] = edge - ROOM[name] / 2
            edge -= ROOM[name]
    return x, column, edge - bowl
