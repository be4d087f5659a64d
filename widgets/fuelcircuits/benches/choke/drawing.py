"""Where the parts of the choke's drawing stand, in the drawing's own units.

Horn, plate and the offset of its shaft are to one scale. The cam's steps are drawn larger.
"""

from collections.abc import Mapping
from math import cos, degrees, pi, sin

from fuelcircuits.benches.choke.found import Found, Sizes, Warming

__all__ = ["BASE", "STEP", "place", "scale"]

SHAFT, ARM, LEAD = (270.0, 92.0), 44.0, 1.35
"""The choke's shaft, the length of its lever, and how far that stands ahead of the plate [rad]."""
HORN = 160.0
"""Units of the horn's bore."""
BASE, STEP = 24.0, 4.2
"""Radius of the cam past its last step, and units for each degree of throttle."""
STEPS = 3
"""Steps of the cam that are drawn."""
MARKS, CALM = 9_000.0, 2_500.0
"""Speed of the flow marks of fuel and of air, units a second for each kg/s."""


def scale(sizes: Sizes) -> float:
    """Return the units a metre of horn and plate."""
    return HORN / sizes.horn


def place(warming: Warming, found: Found | None) -> Mapping[str, float | list[float]]:
    """Return the numbers that place every part; what moves is a list over the run.

    Before the run is marched, only what stands still, and the coil.
    """
    coil = [degrees(_within(angle, -1.0, 2.5)) for angle in warming.rest]
    before = _cam(warming.sizes) | _still(warming) | {"coil": coil}
    return before if found is None else before | _marched(found)


def _still(warming: Warming) -> dict[str, float | list[float]]:
    """Return the places of what does not move in the run."""
    sizes = warming.sizes
    half, offset = HORN / 2 / cos(sizes.closed), sizes.offset * scale(sizes)
    shut = HORN / 2 / cos(sizes.throttle)
    return {
        "wing_left": -half + offset,
        "wing_right": half + offset,
        "heat": 16.0 if warming.heated else 0.0,
        "hot": float(warming.heated),
        "cold": float(not warming.heated),
        "shut_left": -shut,
        "shut_right": shut,
    }


def _marched(found: Found) -> dict[str, float | list[float]]:
    """Return the places of plates, pull-off and cam, and the speeds of the flow marks."""
    sizes = found.warming.sizes
    travel = max(sizes.pulled - sizes.closed, 1e-6)
    pulled = [30 * _within((angle - sizes.closed) / travel, 0.0, 1.0) for angle in found.held]
    return {
        "plate": [degrees(angle) for angle in found.plate],
        "pin_x": [SHAFT[0] + ARM * cos(angle - LEAD) for angle in found.plate],
        "pin_y": [SHAFT[1] + ARM * sin(angle - LEAD) for angle in found.plate],
        "rod": [374 + each for each in pulled],
        "diaphragm": [448 + each for each in pulled],
        "cam": [degrees(angle - sizes.closed) for angle in _turned(found)],
        "touch": [84 + BASE + STEP * degrees(angle) for angle in found.cam],
        "throttle": [degrees(angle) for angle in found.throttle],
        "air": [CALM * flow for flow in found.air],
        "fuel": [MARKS * max(flow, 0.0) for flow in found.fuel],
    }


def _within(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def _turned(found: Found) -> list[float]:
    """Return how far the cam has turned [rad]: with the plate, but never off the step it is on."""
    sizes = found.warming.sizes
    ends = (sizes.closed, *sizes.edges, pi / 2)
    return [
        _within(angle, ends[step], ends[step + 1])
        for angle, step in zip(found.plate, found.step, strict=True)
    ]


def _cam(sizes: Sizes) -> dict[str, float | list[float]]:
    """Return the corners of the cam's three steps, drawn for the plate shut."""
    edges = [sizes.closed - 0.15, *sizes.edges[:STEPS]]
    openings = [*sizes.openings[:STEPS]]
    while len(openings) < STEPS:
        edges.append(edges[-1])
        openings.append(0.0)
    numbers: dict[str, float | list[float]] = {}
    for i, opening in enumerate(openings):
        radius = BASE + STEP * degrees(opening)
        numbers[f"r_{i}"] = radius
        for name, edge in (("a", edges[i]), ("b", edges[i + 1])):
            numbers[f"{name}x_{i}"] = radius * cos(edge - sizes.closed)
            numbers[f"{name}y_{i}"] = -radius * sin(edge - sizes.closed)
    last = edges[-1] - sizes.closed
    return numbers | {"cx": BASE * cos(last), "cy": -BASE * sin(last)}
