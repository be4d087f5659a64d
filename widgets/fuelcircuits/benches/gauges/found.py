"""What the gauge bench works out at one setting."""

from collections.abc import Mapping
from math import pi
from typing import Any, NamedTuple

from fuelcircuits.quantities.drills import diameter_of

__all__ = ["Found", "whole"]


class Found(NamedTuple):
    """One setting of the bench, SI."""

    vacuum: float  # Pa, in the manifold, below the air outside
    barometer: float  # Pa, of the air outside
    absolute: float  # Pa, in the manifold; below nought where no engine can go
    fuel_pressure: float  # Pa, above the air outside
    port: float  # Pa, vacuum at the idle port
    temperature: float  # K
    bore: float  # m, of the drill
    area: float  # m2, of the drill
    plot: str  # what the plot converts
    plotted: float  # that quantity, SI


def whole(values: Mapping[str, Any]) -> Found:
    """Return what the controls give."""
    bore = diameter_of(round(values["drill"]))
    return Found(
        vacuum=values["vacuum"],
        barometer=values["barometer"],
        absolute=values["barometer"] - values["vacuum"],
        fuel_pressure=values["fuel_pressure"],
        port=values["port"],
        temperature=values["temperature"],
        bore=bore,
        area=pi / 4 * bore**2,
        plot=values["converted"],
        plotted=values[values["converted"]],
    )
