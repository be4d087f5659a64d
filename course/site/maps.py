"""The table of both rigs' mixtures against the trade's bands: python -m course.site.maps.

The page `model.md` carries it as text; a test holds the text to what stands here.
"""

from collections.abc import Iterator
from math import pi
from pathlib import Path

from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle, solve, solve_for_angle
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["NAMES", "table"]

NAMES = ("plover", "dunlin")
RIGS = Path(__file__).parent.parent / "rigs"
AIR, PETROL = Weather.at(), Fuel()
RPM, INHG, INH2O = pi / 30, 3386.389, 249.08891
CRUISE, FULL = (1000, 1200, 1500, 1800, 2100, 2800), (1200, 1600, 2400, 3600)
LIGHT, FIRM = 1.2e5, 2.5e5
"""Mean pressures of a light and of a firmer cruise [Pa]."""


def table() -> list[str]:
    """Return the lines of the table, in Markdown."""
    rigs = [read_rig(RIGS / f"{name}.toml") for name in NAMES]
    head = ["| where | wanted | " + " | ".join(NAMES) + " |", "| --- | --- | --- | --- |"]
    columns = [list(_column(rig)) for rig in rigs]
    rows = [
        f"| {where} | {wanted} | " + " | ".join(f"{value:.1f}" for _, _, value in across) + " |"
        for across in zip(*columns, strict=True)
        for where, wanted, _ in across[:1]
    ]
    return [*head, *rows]


def _column(rig: Rig) -> Iterator[tuple[str, str, float]]:
    """Yield what each row says of a rig: where, the band, and the value."""
    idle = curb_idle(rig, AIR, PETROL)
    yield "idle, air to fuel", "13 to 14", idle.ratio
    yield "idle, vacuum in inHg", "16 to 20", idle.manifold_vacuum / INHG
    yield "idle, port chamber in inH2O", "3 to 4", idle.chamber_vacuum[0] / INH2O
    for name, pressure in (("light", LIGHT), ("firm", FIRM)):
        torque = pressure * rig.engine.displacement / (4 * pi)
        for speed in CRUISE:
            state = solve_for_angle(rig, AIR, PETROL, speed * RPM, torque=torque)
            yield f"{name} cruise, {speed} rpm", "15 to 16", state.ratio
    for speed in FULL:
        ratio = solve(rig, AIR, PETROL, speed * RPM, OPEN).ratio
        yield f"full throttle, {speed} rpm", "12.3 to 13", ratio


if __name__ == "__main__":
    print("\n".join(table()))
