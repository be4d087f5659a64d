"""Where the parts of the choke's drawing stand, in the drawing's own units.

Horn, plate and the offset of its shaft are to one scale. The cam's steps are drawn larger.
"""

from collections.abc import Mapping
from typing import Any

import numpy as np

from fuelcircuits.benches.choke.warm_up import WarmUp
from fuelcircuits.physics.network.rig import Rig

__all__ = ["place", "scale"]

HORN = 160.0
"""Units of the horn's bore."""
BASE, STEP = 24.0, 4.2
"""Radius of the cam past its last step, and units for each degree of throttle."""


def scale(rig: Rig) -> float:
    """Return the units a metre of horn and plate."""
    return HORN / rig.air_path.horn_bore


def place(rig: Rig, run: WarmUp, heated: bool) -> Mapping[str, Any]:
    """Return the numbers that place every part; what moves is an array over the run."""
    path, choke, closed = rig.air_path, rig.choke, rig.air_path.choke_closed_angle
    half, offset = HORN / 2 / np.cos(closed), choke.plate_offset * scale(rig)
    shut = HORN / 2 / np.cos(path.throttle_closed_angle)
    pulled = (run.held - closed) / max(choke.pull_off_angle - closed, 1e-6)
    return _cam(rig) | {
        "plate": np.degrees(run.plate),
        "wing_left": -half + offset,
        "wing_right": half + offset,
        "coil": np.degrees(np.clip(run.rest, -1.0, 2.5)),
        "diaphragm": 448 + 30 * np.clip(pulled, 0.0, 1.0),
        "heat": 16.0 if heated else 0.0,
        "hot": float(heated),
        "cold": float(not heated),
        "cam": np.degrees(_turned(rig, run) - closed),
        "touch": 84 + BASE + STEP * np.degrees(run.cam),
        "throttle": np.degrees(run.throttle),
        "shut_left": -shut,
        "shut_right": shut,
        "air": 2_500.0 * np.asarray(run.state.air_flow),
        "fuel": 9_000.0 * np.maximum(run.state.fuel_flow, 0.0),
    }


def _turned(rig: Rig, run: WarmUp) -> Any:
    """Return how far the cam has turned [rad]: with the plate, but never off the step it is on."""
    choke, closed = rig.choke, rig.air_path.choke_closed_angle
    step = np.searchsorted(-np.asarray(choke.cam_openings), -run.cam)
    low, high = np.array([closed, *choke.cam_edges]), np.array([*choke.cam_edges, np.pi / 2])
    return np.clip(run.plate, low[step], high[step])


def _cam(rig: Rig) -> dict[str, float]:
    """Return the corners of the cam's three steps, drawn for the plate shut."""
    choke, closed = rig.choke, rig.air_path.choke_closed_angle
    edges = [closed - 0.15, *choke.cam_edges[:3]]
    openings = [*choke.cam_openings[:3]]
    while len(openings) < 3:
        edges.append(edges[-1])
        openings.append(0.0)
    numbers = {}
    for i, opening in enumerate(openings):
        radius = BASE + STEP * float(np.degrees(opening))
        numbers[f"r_{i}"] = radius
        for name, edge in (("a", edges[i]), ("b", edges[i + 1])):
            numbers[f"{name}x_{i}"] = radius * float(np.cos(edge - closed))
            numbers[f"{name}y_{i}"] = -radius * float(np.sin(edge - closed))
    last = edges[-1] - closed
    return numbers | {"cx": BASE * float(np.cos(last)), "cy": -BASE * float(np.sin(last))}
