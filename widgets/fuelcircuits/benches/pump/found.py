"""A tip-in: the throttle opens with the speed held, and fuel reaches the cylinders in time."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import ceil
from operator import add, truediv
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.mixture_curve import fuel_density, held
from fuelcircuits.physics.circuits.pump import Pump, rod_position
from fuelcircuits.physics.circuits.wall_film import WallFilm, film_run
from fuelcircuits.physics.motion.pump_shot import PumpRun, pump_run
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["BEGIN", "END", "Found", "Reached", "Sizes", "whole"]

BEGIN, END = 0.5, 4.0
"""When the throttle begins to open and when the run ends [s]."""
BEFORE = 0.02
"""Throttle opening before the tip-in [1]."""
COARSE = 1000.0
"""Factor on the error that the pump's run allows; see `pump_run`."""
EVEN = 81
"""Points of the run that is shown [1]."""
CONDITIONS: Mapping[str, dict[str, float]] = {
    "good": {},
    "cup": {"cup_leak": 0.3e-6},
    "check": {"inlet_leak": 0.3e-6},
    "none": {"linkage_start": 1.2},
}
"""What each condition of the pump changes on the card."""
LEAST = 1e-9
"""Fuel that counts as a shot [m3]."""


class Opening(NamedTuple):
    """How the throttle moves: angles [rad] before and after, and the time it takes [s]."""

    before: float
    after: float
    duration: float

    @property
    def end(self) -> float:
        """When the throttle stands again [s]."""
        return BEGIN + self.duration

    def angle(self, now: float) -> float:
        """Return the throttle angle at a time [rad]."""
        return interpolate(now, (BEGIN, self.end), (self.before, self.after))


class Sizes(NamedTuple):
    """Sizes of the pump [m]; in a cup pump the plate is as wide as the bore."""

    bore: float
    stroke: float
    plate: float
    jet: float


class Reached(NamedTuple):
    """What comes of the fuel behind the carburettor, at each time."""

    film: list[float]  # kg on the wall
    fuel: list[float]  # kg/s at the cylinders
    mixture: list[float]  # lambda of that


class Found(NamedTuple):
    """One setting of the bench; every list runs over the times."""

    sizes: Sizes
    still: float  # s, when the throttle stands again
    over: float | None  # s, when the shot is over, if it ends within the run
    times: list[float]  # s
    throttle: list[float]  # rad
    rod: list[float]  # m
    plunger: list[float]  # m
    squeezed: list[float]  # m, of the duration spring
    delivered: list[float]  # m3
    shot: list[float]  # kg/s
    circuits: list[float]  # kg/s by the other circuits
    helped: Reached  # with the shot
    bare: Reached  # without
    most: float  # kg/s, a little more than the circuits give wide open

    @property
    def given(self) -> float:
        """The whole shot [m3]; nought if there is none worth the name."""
        return self.delivered[-1] if self.delivered[-1] > LEAST else 0.0


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the run from light throttle through the tip-in to its end."""
    pump, steady = _pump(card, values), _steady(card, values["speed"])
    opening = _opening(steady, values["opened"], values["duration"])
    rough, run = _pumped(pump, opening)
    times = _times(rough)
    plunger, delivered, shot = (
        [interpolate(now, rough, each) for now in times]
        for each in (run.plunger, run.delivered, run.fuel_flow)
    )
    throttle = [opening.angle(now) for now in times]
    rod = [rod_position(pump, angle) for angle in throttle]
    circuits, needed = (
        [interpolate(angle, steady.throttle, each) for angle in throttle]
        for each in (steady.fuel, steady.needed)
    )
    helped, bare = (
        _reached(card.wall_film, times, metered, needed, values["coolant"])
        for metered in (list(map(add, circuits, shot)), circuits)
    )
    found = Found(
        sizes=Sizes(pump.bore, pump.stroke, pump.plate_bore, pump.jet_bore),
        still=opening.end,
        over=None,
        times=times,
        throttle=throttle,
        rod=rod,
        plunger=plunger,
        squeezed=[max(down - follows, 0.0) for down, follows in zip(rod, plunger, strict=True)],
        delivered=delivered,
        shot=shot,
        circuits=circuits,
        helped=helped,
        bare=bare,
        most=1e-3 * ceil(1.2e3 * max(steady.fuel)),
    )
    return found._replace(over=_over(found))


def _pump(card: Rig, values: Mapping[str, Any]) -> Pump:
    """Return the card's pump as it has been changed."""
    changed = {
        "jet_bore": values["jet"],
        "spring_rate": values["spring"],
        "linkage_start": values["lost"],
    }
    return replace(card.pump, **changed | CONDITIONS[values["pump"]])


class _Steady(NamedTuple):
    """What the carburettor gives at a held speed, at each throttle angle [rad]."""

    throttle: list[float]
    fuel: list[float]  # kg/s
    needed: list[float]  # kg/s of fuel that the air would just burn


@lru_cache(maxsize=64)
def _steady(card: Rig, speed: float) -> _Steady:
    states = held(card, card, speed)
    return _Steady(
        [each.throttle_angle for each in states],
        [each.fuel_flow for each in states],
        [each.air_flow / each.stoichiometric for each in states],
    )


def _opening(steady: _Steady, opened: float, duration: float) -> Opening:
    """Return the movement from light throttle to a share of the way from stop to wide open."""
    stop = steady.throttle[0]
    before, after = (stop + (OPEN - stop) * share for share in (BEFORE, opened))
    return Opening(before, after, duration)


@lru_cache(maxsize=64)
def _pumped(pump: Pump, opening: Opening) -> tuple[list[float], PumpRun]:
    """Return the pump's own run, with points close together where it moves fast."""
    late = [opening.end + (END - opening.end) * share**1.6 for share in linspace(0.0, 1.0, 23)[1:]]
    times = [0.0, *linspace(BEGIN, opening.end, 9), *late]
    return times, pump_run(pump, times, opening.angle, density=fuel_density(), coarse=COARSE)


def _times(rough: list[float]) -> list[float]:
    """Return the times that are shown: even ones, and those at which the throttle moves."""
    times = sorted({round(each, 9) for each in (*linspace(0.0, END, EVEN - 10), *rough[1:11])})
    more = EVEN - len(times)
    between = [0.5 * (before + after) for before, after in pairwise(times)]
    return sorted([*times, *between[len(between) - more :]])


def _reached(
    film: WallFilm, times: list[float], metered: list[float], needed: list[float], coolant: float
) -> Reached:
    """Return film and mixture behind a metered flow."""
    run = film_run(film, times, metered, coolant)
    fuel = [max(each, 1e-9) for each in run.to_cylinder]
    return Reached(run.mass, fuel, list(map(truediv, needed, fuel)))


def _over(found: Found) -> float | None:
    """Return when the shot is over: the spring has hardly anything left to give."""
    if not found.given:
        return None
    slack = 0.02 * found.rod[-1] + 1e-5
    pairs = zip(found.times, found.rod, found.plunger, strict=True)
    return next((at for at, rod, down in pairs if at > found.still and rod - down < slack), None)
