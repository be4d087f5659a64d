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

from dataclasses import dataclass
from typing import NamedTuple

from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.network.flows import Own, Shared, barrel_flows, shared_flows
from fuelcircuits.physics.network.posing import place, turning
from fuelcircuits.physics.network.pressures import EACH, SHARED, pressures
from fuelcircuits.physics.network.problem import Point, Problem
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["FLOOR", "PUSH", "SLACK", "VENTING", "Balance", "Closing", "Flowing", "Left"]

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


@dataclass(slots=True)
class Flowing:
    """The flows at some unknowns."""

    at: Point
    shared: Shared
    each: list[Own]  # of every barrel told apart
    parts: list[Row]  # what enters each part, and with a minus what leaves it


@dataclass(slots=True)
class Left:
    """What is left over at some unknowns."""

    level: Row  # kg/s, and what is off of what is wanted
    flowing: Flowing
    closing: Row  # what measures the last one, if something is wanted

    @property
    def measure(self) -> Row:
        """What each is measured by: the traffic.

        That is half of all that passes in and out, with `FLOOR` added; the bowl, which may stand
        still, is measured by what its vents pass at about 1 Pa.
        """
        traffic = [0.5 * sum(map(abs, part)) + FLOOR for part in self.flowing.parts]
        traffic[_BOWL] = FLOOR + VENTING * sum(self.flowing.at.vents)
        return traffic + self.closing


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
        self.closed = Row()
        self.names = [*SHARED, *EACH * len(of.barrels)]
        self.scale = [_SCALE.get(name, 2e-4) for name in self.names]
        if closing:
            self.names.append(closing.free)
            self.scale.append(_CLOSING[closing.wanted])
            self.closed = [_TORQUE if closing.wanted == "torque" else abs(closing.target)]
        self.reach = [_REACH.get(name, 5e3) for name in self.names]

    def left(self, unknowns: Row) -> Left:
        """Return all imbalances and what they are measured by.

        References
        ----------
        Conservation of mass; the list stands at the head of the module.
        """
        there = self._flowing(unknowns)
        return Left(self._level(unknowns, there), there, self.closed)

    def slopes(self, unknowns: Row, here: Left) -> list[Row]:
        """Return how each imbalance answers to each unknown, by small shifts.

        A pressure that only one barrel has moves only that barrel's flows.
        """
        columns = []
        for k, (name, value) in enumerate(zip(self.names, unknowns, strict=True)):
            shift = _SHIFT.get(name, 1e-6)
            moved = [*unknowns[:k], value + shift, *unknowns[k + 1 :]]
            exact = moved[k] - value
            if name in EACH:
                barrel = (k - len(SHARED)) // len(EACH)
                there = self._with_barrel(moved, here.flowing, barrel)
            else:
                there = self._flowing(moved)
            level = self._level(moved, there)
            columns.append([(level[i] - here.level[i]) / exact for i in range(len(level))])
        return [list(row) for row in zip(*columns, strict=True)]

    def _flowing(self, unknowns: Row) -> Flowing:
        """Return every flow."""
        of, at = self.of, self._placed(unknowns)
        shared = shared_flows(of, at, unknowns)
        each = [
            barrel_flows(of, at, pressures(of, unknowns, barrel), barrel)
            for barrel in range(len(of.barrels))
        ]
        return Flowing(at, shared, each, _parts(of, shared, each))

    def _with_barrel(self, unknowns: Row, here: Flowing, barrel: int) -> Flowing:
        """Return the flows where only one barrel's pressures have moved."""
        of, at, shared, each = self.of, here.at, here.shared, here.each
        met = pressures(of, unknowns, barrel)
        each = [*each[:barrel], barrel_flows(of, at, met, barrel), *each[barrel + 1 :]]
        return Flowing(at, shared, each, _parts(of, shared, each))

    def _placed(self, unknowns: Row) -> Point:
        """Return the operating point with the last unknown put where it belongs."""
        if not self.closing:
            return self.at
        if self.closing.free == "speed":
            return turning(self.of, self.at, unknowns[-1])
        return place(self.of, self.at.speed, min(max(unknowns[-1], 0.0), OPEN))

    def _level(self, unknowns: Row, there: Flowing) -> Row:
        """Return what is left over of each balance."""
        level, imposed = [sum(part) for part in there.parts], self.of.bowl_pressure
        if imposed is not None:
            level[_BOWL] = PUSH * (imposed - unknowns[_BOWL])
        for barrel, own in enumerate(self.of.barrels):
            if not own.bleed:
                well, tube = _WELL + len(EACH) * barrel, _TUBE + len(EACH) * barrel
                level[tube] -= SLACK * (unknowns[tube] - unknowns[well])
        if self.closing:
            off = self._shown(self.closing.wanted, unknowns, there) - self.closing.target
            level.append(off if self.closing.free == "speed" else -off)
        return level

    def _shown(self, wanted: str, unknowns: Row, there: Flowing) -> float:
        """Return what the last unknown is found for.

        References
        ----------
        Torque: `fuelcircuits.physics.engine.torque`, with the mixture that the network delivers.
        """
        of, air, manifold = self.of, there.shared.engine, unknowns[_MANIFOLD]
        if wanted != "torque":
            return air if wanted == "air flow" else manifold
        fuel = max(of.alike * sum(well[1] for _, well, *_ in there.each), FLOOR)
        factor = torque_factor(min(max(air / (fuel * of.stoichiometric), 0.0), 3.0))
        return brake_torque(
            of.engine, there.at.speed, air, manifold, of.pressure, mixture_factor=factor
        )


def _parts(of: Problem, shared: Shared, each: list[Own]) -> list[Row]:
    """Return what enters each part, and with a minus what leaves it, in the unknowns' order."""
    alike, (cleaner, past_choke, leak, inside_vent, outer_vents, engine) = of.alike, shared
    horn = [cleaner, -past_choke, -inside_vent]
    choke = [past_choke]
    manifold = [leak, -engine]
    bowl = [inside_vent, outer_vents]
    parts = [horn, choke, manifold, bowl]
    for barrel, own in zip(of.barrels, each, strict=True):
        (venturi, throttle, main_bleed), well, mixed, passed, _ = own
        bypass, idle_air, _ = mixed
        _, valve, below, screw = passed
        horn += [-alike * idle_air[0], -alike * main_bleed]
        above = choke if barrel.choked else horn
        above += [-alike * venturi, -alike * bypass[0], -alike * valve[0]]
        manifold += [alike * throttle, alike * below[0], alike * screw[0]]
        bowl.append(alike * well[2])
        parts += _barrel_parts(own)
    return parts


def _barrel_parts(own: Own) -> list[Row]:
    """Return the same of one barrel's parts: venturi, well, tube, mix, chamber."""
    (
        (venturi, throttle, main_bleed),
        (holes, main_jet, jet_air, (lifted_air, lifted), pull_over),
        ((bypass_air, bypass), (idle_air, spat), (fed_air, fed)),
        ((above_air, above), (valve_air, valve), (below_air, below), (screw_air, screw)),
        ((nozzle_air, nozzle), carried, bubbles, backflow, _),
    ) = own
    return [
        [venturi, nozzle_air, bubbles, -backflow, -above_air, -throttle],
        [main_jet, carried, backflow, -jet_air, -nozzle_air, -nozzle, -lifted_air, -lifted],
        [main_bleed, -holes],
        [lifted_air, lifted, bypass_air, bypass, idle_air, spat, -fed_air, -fed, -pull_over],
        [
            *(fed_air, fed, above_air, above, valve_air, valve),
            *(-below_air, -below, -screw_air, -screw),
        ],
    ]
