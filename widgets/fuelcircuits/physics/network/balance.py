"""The balance of the whole carburettor and its engine: unknowns and equations.

Unknowns, all absolute pressures [Pa]. Shared by the barrels: horn, choke (below its plate),
manifold, bowl. One for each barrel: venturi (main throat), well (at the height of the set fuel
level), tube (air behind the well's bleed holes), mix (where fuel and air of the low-speed
circuit meet), chamber (behind the idle ports). Where an angle or a speed is asked for, that is
the last unknown, and what it is found for the last equation.

Equations: mass in less mass out of each part [kg/s]. Each flow is computed once and stands in
the balances of both its ends; so what one part loses another gains.

Shared parts balance air: fuel that spits into the horn or the bore falls on into the engine.
"""

from typing import NamedTuple

from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.network.flows import Flows, Shared, barrel_flows, shared_flows
from fuelcircuits.physics.network.posing import place
from fuelcircuits.physics.network.pressures import EACH, SHARED, pressures
from fuelcircuits.physics.network.problem import Point, Problem
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["FLOOR", "PUSH", "SLACK", "VENTING", "Balance", "Closing", "Left"]

Row = list[float]

FLOOR = 1e-5
"""Added to the traffic that measures an imbalance [kg/s]: a twentieth of a barrel's idle fuel."""
VENTING = 1.5
"""What a vent passes at about 1 Pa [kg/(s m2)]: the bowl's measure."""
PUSH = 1e-6
"""Turns an imposed pressure's error into a flow [kg/(s Pa)]."""
SLACK = 1e-9
"""Holds the tube of a well without a bleed at the well's pressure [kg/(s Pa)]."""
_MANIFOLD, _BOWL, _WELL, _TUBE = 2, 3, 5, 6  # places among unknowns; the last two's first
_TORQUE = 100.0
"""What measures a torque [N m]."""
_SHIFT = {"angle": 1e-7, "speed": 1e-4}
_REACH = {"manifold pressure": 2e4, "angle": 0.15, "speed": 40.0}
_SCALE = {
    "horn pressure": 1e-2,
    "pressure below the choke": 1e-2,
    "manifold pressure": 1e-2,
    "venturi pressure": 5e-3,
    "tube pressure": 3e-5,
}
_CLOSING = {"air flow": 1e-2, "manifold pressure": 1e4, "torque": 1e2}


class Closing(NamedTuple):
    """A last unknown, and what it is found for."""

    free: str  # "angle" or "speed"
    wanted: str  # "air flow" [kg/s], "manifold pressure" [Pa] or brake "torque" [N m]
    target: float


class Left(NamedTuple):
    """What is left over at some unknowns, and the flows there."""

    level: Row  # kg/s, and what is off of what is wanted
    measure: Row  # what each is measured by
    at: Point
    shared: Shared
    each: list[Flows[float]]


class Balance:
    """The equations of one network at one operating point.

    Parameters
    ----------
    of, at
        The network and its point; a first guess of that where something is free.
    closing
        The last unknown, if there is one.
    """

    def __init__(self, of: Problem, at: Point, closing: Closing | None = None) -> None:
        self.of, self.at, self.closing = of, at, closing
        free = [closing.free] if closing else []
        self.names = [*SHARED, *EACH * len(of.barrels), *free]
        self.reach = [_REACH.get(name, 5e3) for name in self.names]
        self.scale = [_SCALE.get(name, 2e-4) for name in self.names]
        if closing:
            self.scale[-1] = _CLOSING[closing.wanted]

    def left(self, unknowns: Row) -> Left:
        """Return all imbalances and what they are measured by.

        An imbalance is measured by the traffic: half of all that passes in and out, with `FLOOR`
        added; the bowl, which may stand still, by what its vents pass at about 1 Pa.

        References
        ----------
        Conservation of mass; the list stands at the head of the module.
        """
        at = self._placed(unknowns)
        shared = shared_flows(self.of, at, unknowns)
        each = [self._flows(unknowns, at, shared, k) for k in range(len(self.of.barrels))]
        parts = _parts(self.of.alike, shared, each)
        measure = [0.5 * sum(map(abs, part)) + FLOOR for part in parts]
        measure[_BOWL] = FLOOR + VENTING * sum(at.vents)
        if self.closing:
            by_itself = self.closing.wanted != "torque"
            measure.append(abs(self.closing.target) if by_itself else _TORQUE)
        level = self._level(unknowns, at, shared, each, parts)
        return Left(level, measure, at, shared, each)

    def slopes(self, unknowns: Row, here: Left) -> list[Row]:
        """Return how each imbalance answers to each unknown, by small shifts.

        A pressure that only one barrel has moves only that barrel's flows.
        """
        columns = []
        for k, (name, value) in enumerate(zip(self.names, unknowns, strict=True)):
            shift = _SHIFT.get(name, 1e-4)
            moved = [*unknowns[:k], value + shift, *unknowns[k + 1 :]]
            at, shared, each = here.at, here.shared, here.each.copy()
            if name in EACH:
                barrels = [(k - len(SHARED)) // len(EACH)]
            else:
                at = self._placed(moved) if k >= len(self.names) - 1 else at
                shared, barrels = shared_flows(self.of, at, moved), list(range(len(each)))
            for barrel in barrels:
                each[barrel] = self._flows(moved, at, shared, barrel)
            parts = _parts(self.of.alike, shared, each)
            there = self._level(moved, at, shared, each, parts)
            columns.append([(b - a) / shift for a, b in zip(here.level, there, strict=True)])
        return [list(row) for row in zip(*columns, strict=True)]

    def _placed(self, unknowns: Row) -> Point:
        """Return the operating point with the last unknown put where it belongs."""
        if not self.closing:
            return self.at
        if self.closing.free == "speed":
            return place(self.of, unknowns[-1], self.at.angle)
        return place(self.of, self.at.speed, min(max(unknowns[-1], 0.0), OPEN))

    def _flows(self, unknowns: Row, at: Point, shared: Shared, barrel: int) -> Flows[float]:
        """Return the flows of one barrel."""
        p = pressures(self.of, unknowns, barrel)
        return barrel_flows(self.of, self.of.barrels[barrel], at.slots[barrel], at, shared, p)

    def _level(
        self, unknowns: Row, at: Point, shared: Shared, each: list[Flows[float]], parts: list[Row]
    ) -> Row:
        """Return what is left over of each balance."""
        level, imposed = [sum(part) for part in parts], self.of.bowl_pressure
        if imposed is not None:
            level[_BOWL] = PUSH * (imposed - unknowns[_BOWL])
        for k, barrel in enumerate(self.of.barrels):
            if not barrel.bleed:
                well, tube = _WELL + len(EACH) * k, _TUBE + len(EACH) * k
                level[tube] -= SLACK * (unknowns[tube] - unknowns[well])
        if self.closing:
            level.append(self._off(unknowns, at, shared, each))
        return level

    def _off(self, unknowns: Row, at: Point, shared: Shared, each: list[Flows[float]]) -> float:
        """Return how far what is wanted is off, falling as the last unknown rises.

        References
        ----------
        Torque: `fuelcircuits.physics.engine.torque`, with the mixture that the network delivers.
        """
        free, wanted, target = self.closing
        manifold = unknowns[_MANIFOLD]
        if wanted == "torque":
            fuel = max(self.of.alike * sum(flows.main_jet for flows in each), FLOOR)
            mixture = shared.engine / (fuel * self.of.stoichiometric)
            shown = brake_torque(
                self.of.engine,
                at.speed,
                shared.engine,
                manifold,
                self.of.pressure,
                mixture_factor=torque_factor(min(max(mixture, 0.0), 3.0)),
            )
        else:
            shown = shared.engine if wanted == "air flow" else manifold
        return shown - target if free == "speed" else target - shown


def _parts(alike: float, shared: Shared, each: list[Flows[float]]) -> list[Row]:
    """Return what enters each part, and with a minus what leaves it, in the unknowns' order."""
    horn = [shared.cleaner, -shared.choke, -shared.inside_vent]
    choke = [shared.choke]
    manifold = [shared.leak, -shared.engine]
    bowl = [shared.inside_vent, shared.outer_vents]
    parts = [horn, choke, manifold, bowl]
    for f in each:
        horn += [-alike * f.idle_air.air, -alike * f.main_bleed]
        choke += [-alike * f.venturi, -alike * f.bypass.air, -alike * f.valve.air]
        manifold += [alike * f.throttle, alike * f.slot_below.air, alike * f.screw.air]
        bowl.append(alike * f.jet_air)
        parts += _barrel_parts(f)
    return parts


def _barrel_parts(f: Flows[float]) -> list[Row]:
    """Return the same of one barrel's parts: venturi, well, tube, mix, chamber."""
    nozzle, jet, economizer = f.nozzle, f.idle_jet, f.economizer
    above, valve, below, screw = f.slot_above, f.valve, f.slot_below, f.screw
    return [
        [f.venturi, nozzle.air, f.bubbles, -f.backflow, -above.air, -f.throttle],
        [f.main_jet, f.carried, f.backflow, -f.jet_air]
        + [-nozzle.air, -nozzle.fuel, -jet.air, -jet.fuel],
        [f.main_bleed, -f.holes],
        [*jet, *f.bypass, *f.idle_air, -economizer.air, -economizer.fuel, -f.pull_over],
        [*economizer, *above, *valve, -below.air, -below.fuel, -screw.air, -screw.fuel],
    ]
