"""Where the parts of the accelerator pump's drawing stand, in the drawing's own units.

Bore and travel of the pump are to one scale; the film on the wall is drawn far too thick.
"""

from collections.abc import Mapping
from math import degrees

from fuelcircuits.benches.pump.found import Found, Move, Sizes

__all__ = ["TOP", "place", "scale"]

MIDDLE, TOP = 150.0, 98.0
"""Where the pump's axis stands across, and its plunger at rest upright."""
MARKS, CALM = 60_000.0, 6_000.0
"""Speed of the flow marks of pump and circuits, units a second for each kg/s."""
FILM, THINNEST, THICKEST = 22_000.0, 0.5, 44.0
"""Units a kilogram of film, and the least and most of them."""
PASSES = 2e-6
"""Flow that lifts the discharge check [kg/s]."""


def scale(sizes: Sizes) -> float:
    """Return the units a metre of the pump."""
    return min(84 / sizes.bore, 48 / sizes.stroke)


def place(move: Move, found: Found | None) -> Mapping[str, float | list[float]]:
    """Return the numbers that place every part; what moves is a list over the run.

    Before the run is marched, all but fuel, film and check, and rod, spring and plunger: these
    three hang together.
    """
    before = _still(move.sizes) | {"throttle": [degrees(angle) for angle in move.throttle]}
    return before if found is None else before | _marched(found)


def _still(sizes: Sizes) -> dict[str, float | list[float]]:
    """Return the places of what does not move in the run."""
    unit = scale(sizes)
    bore, plate, jet = (each / 2 * unit for each in (sizes.bore, sizes.plate, 1.6 * sizes.jet))
    cup = sizes.plate > 0.98 * sizes.bore
    return {
        "bore_left": MIDDLE - bore,
        "bore_right": MIDDLE + bore,
        "plate_left": MIDDLE - plate,
        "plate_right": MIDDLE + plate,
        "cup": float(cup),
        "diaphragm": float(not cup),
        "clamp": TOP + 6,
        "jet_top": 78 - jet,
        "jet_foot": 78 + jet,
        "air": 40.0,
    }


def _marched(found: Found) -> dict[str, float | list[float]]:
    """Return the places of fuel, film and check, and of rod, spring and plunger."""
    film = [min(max(FILM * each, THINNEST), THICKEST) for each in found.helped.film]
    moving: dict[str, float | list[float]] = {
        "outlet_ball": [150.0 - 7 * (flow > PASSES) for flow in found.shot],
        "shot": [MARKS * flow for flow in found.shot],
        "circuits": [CALM * flow for flow in found.circuits],
        "film": film,
        "film_right": [498 - wide for wide in film],
    }
    return moving | _plunger(found, scale(found.move.sizes))


def _plunger(found: Found, unit: float) -> dict[str, float | list[float]]:
    """Return the places of plunger and rod, and of the spring's turns between them."""
    top, rod = ([unit * each for each in row] for row in (found.plunger, found.move.rod))
    ends = [(TOP - 58 + high, TOP + low) for high, low in zip(rod, top, strict=True)]
    turns: dict[str, float | list[float]] = {
        f"coil_{i}": [high + (low - high) * i / 6 for high, low in ends] for i in range(7)
    }
    foot = [low + 13 for _, low in ends]
    return turns | {"rod": rod, "plunger": [low for _, low in ends], "plunger_foot": foot}
