"""The air-path bench: how deep a depression the engine's air makes in venturi and booster."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, ClassVar, NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.air_path.drawing import place
from fuelcircuits.benches.air_path.words import VELOCITY, drawn, gauges, plotted, readings, verdict
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    AIR_FLOW,
    ANGLE,
    LENGTH,
    PRESSURE,
    SHARE,
    SPEED,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.errors import CardError
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.engine.breathing import AirState, pressures, solve
from fuelcircuits.physics.engine.simple_carburettor import depression, throat_velocity
from fuelcircuits.physics.engine.venturi import booster_gain, venturi_area
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["AirPathBench", "Draught"]

Floats = NDArray[np.float64]

HEIGHT = measure("m", ("m", 0), ("foot", 0))
DAY = 288.15
"""Temperature of the air at every height [K], so that height changes the pressure alone."""
SOUND_NEAR = 200.0
"""Speed of the air above which the simple sums go far astray [m/s] (common practice)."""
COUNT = 61


class Draught(NamedTuple):
    """What the bench has worked out at one setting."""

    path: AirPath
    altitude: float  # m
    weather: Weather
    angle: float  # rad, throttle
    choke: float  # rad
    state: AirState
    booster: float  # Pa, pressure below the choke less that in the booster's throat
    venturi: float  # Pa, the same for the main venturi's throat
    plain: float  # Pa, the booster's were air incompressible
    velocity: float  # m/s in the booster's throat


class AirPathBench(Bench):
    """Booster depression against air flow, for the air path and the engine of a rig."""

    title = "Booster depression against air flow"
    picture = "air_path.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"throttle": 48, "venturi_bore": 8}

    throttle = Control("Throttle angle", ANGLE, 0.21, OPEN, steps=(1, 1), start=0.45)
    speed = Control("Engine speed", SPEED, 52.4, 481.7, steps=(50, 50), start=220)
    venturi_bore = Control(
        "Main venturi bore", LENGTH, 22e-3, 34e-3, steps=(0.25, 0.01), start=25.5e-3
    )
    cleaner_blocked = Control("Air cleaner blocked", SHARE, 0, 0.7, steps=(5, 5), start=0)
    choke_angle = Control("Choke plate angle", ANGLE, 0.44, OPEN, steps=(1, 1), start=OPEN)
    altitude = Control("Height above sea", HEIGHT, 0, 3000, steps=(100, 500), start=0)

    def __init__(self, rig: Rig) -> None:
        for name in ("air_path", "engine"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.card = rig
        super().__init__(venturi_bore=rig.air_path.venturi_bore)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return flows and depressions, with the curve over all air flows."""
        now = self._draught(values)
        return State(
            readings=readings(now),
            numbers=place(now, self.card.air_path),
            chart=self._chart(now),
            verdict=verdict(now, system),
            drawn=drawn(now, system),
            plotted=plotted(now, system),
            alarm=now.velocity > SOUND_NEAR,
            gauges=gauges(now),
        )

    def _draught(self, values: Mapping[str, Any]) -> Draught:
        """Return the balance of engine and air path."""
        card = self.card.air_path
        clear = 1 - values["cleaner_blocked"]
        path = replace(
            card, venturi_bore=values["venturi_bore"], cleaner_area=clear * card.cleaner_area
        )
        weather = Weather.at(values["altitude"], temperature=DAY)
        angle, choke = values["throttle"], values["choke_angle"]
        state = solve(self.card.engine, path, weather, values["speed"], angle, choke_angle=choke)
        above = state.choke_pressure
        return Draught(
            path,
            values["altitude"],
            weather,
            angle,
            choke,
            state,
            float(above - state.booster_pressure),
            float(above - state.venturi_pressure),
            float(_plain(path, weather, state.carburettor_flow)),
            float(throat_velocity(state.booster_pressure / above, DAY)),
        )

    def _chart(self, now: Draught) -> Chart:
        """Return depressions, and the air's speed, against air flow."""
        most, deepest = _ends(self.card)
        flow = np.linspace(0, most, COUNT)
        booster, venturi, velocity = _curves(now.path, now.altitude, now.choke, most)
        at = float(now.state.carburettor_flow)
        deep = Panel(
            y=Axis("Depression", PRESSURE, 0, deepest),
            curves=(
                Curve("lead", flow, booster, "booster"),
                Curve("other", flow, _plain(now.path, now.weather, flow), "if incompressible"),
                Curve("third", flow, venturi, "main venturi"),
            ),
            dot=Dot(at, now.booster),
            share=1.7,
        )
        fast = Panel(
            y=Axis("Air in booster", VELOCITY, 0, 200),
            curves=(Curve("lead", flow, velocity),),
            dot=Dot(at, now.velocity),
        )
        return Chart(Axis("Air flow", AIR_FLOW, 0, most), (deep, fast))


def _plain(path: AirPath, weather: Weather, flow: Any) -> Floats:
    """Return the booster's depression were the air incompressible [Pa]."""
    main = depression(flow, venturi_area(path), weather.density)
    return np.asarray(booster_gain(path) * main)


@lru_cache(maxsize=16)
def _ends(card: Rig) -> tuple[float, float]:
    """Return the air flow [kg/s] and the depression [Pa] at which the plot ends."""
    air = Weather.at(temperature=DAY)
    open_throttle = solve(card.engine, card.air_path, air, card.engine.highest_speed, OPEN)
    deep = float(open_throttle.choke_pressure - open_throttle.booster_pressure)
    return 1.1 * float(open_throttle.carburettor_flow), 1.4 * deep


@lru_cache(maxsize=64)
def _curves(
    path: AirPath, altitude: float, choke: float, most: float
) -> tuple[Floats, Floats, Floats]:
    """Return both depressions [Pa] and the booster's air speed [m/s] over all air flows."""
    weather = Weather.at(altitude, temperature=DAY)
    along = pressures(path, weather, np.linspace(0, most, COUNT), choke)
    velocity = throat_velocity(along.booster / along.choke, DAY)
    return along.choke - along.booster, along.choke - along.venturi, velocity
