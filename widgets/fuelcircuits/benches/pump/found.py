"""A tip-in: the throttle opens with the speed held, and fuel reaches the cylinders in time."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import ceil
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, air, card_state
from fuelcircuits.diagnosis.march import Kept, March, finished
from fuelcircuits.physics.circuits.pump import Pump, rod_position
from fuelcircuits.physics.motion.film import wetting
from fuelcircuits.physics.motion.linkage import pedalled
from fuelcircuits.physics.motion.manifold import Breath
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.pump_shot import pump_rest
from fuelcircuits.physics.motion.start import Start, begun
from fuelcircuits.physics.motion.step import stepped
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN

__all__ = [
    "BEGIN",
    "END",
    "HOT",
    "Found",
    "Move",
    "Reached",
    "Sizes",
    "Tip",
    "pieces",
    "point",
    "whole",
]

BEGIN, END = 0.5, 4.0
"""When the throttle begins to open and when the run ends [s]."""
BUSY = 1.0
"""Time after the movement in which much still happens [s]."""
CALM, MOVING, SHORT, LATE = 1, 28, 19, 8
"""Steps before the movement, in it, in the busy time after it, and until the end [1]."""
OPENING, WIDER, WIDEST = 1.8, 1.3, 1.6
"""Powers by which the steps of the movement, of the busy time, and after it grow longer [1]."""
HOT = 363.15
"""Coolant with which the tip-in without a shot is marched once, air and all [K]."""
CONDITIONS: Mapping[str, dict[str, float]] = {
    "good": {},
    "cup": {"cup_leak": 0.3e-6},
    "check": {"inlet_leak": 0.3e-6},
    "none": {"linkage_rate": 0.0},
}
"""What each condition of the pump changes on the card."""
LEAST = 1e-9
"""Fuel that counts as a shot [m3]."""


class Tip(NamedTuple):
    """A tip-in of the pedal at a held speed."""

    speed: float  # rad/s
    before: float  # share of the pedal's way [1]
    after: float  # likewise
    duration: float  # s
    altitude: float  # m

    @property
    def end(self) -> float:
        """When the pedal stands again [s]."""
        return BEGIN + self.duration

    def controls(self, now: float) -> Controls:
        """Return what the driver and the stand do at a time [s]."""
        share = min(max((now - BEGIN) / self.duration, 0.0), 1.0)
        return Controls(self.before + share * (self.after - self.before), self.speed)

    def times(self) -> list[float]:
        """Return the times of the run, close together where much happens [s]."""
        calm = self.end + BUSY
        return [
            *_apart(0.0, BEGIN, CALM),
            *_apart(BEGIN, self.end, MOVING, OPENING),
            *_apart(self.end, calm, SHORT, WIDER),
            *_apart(calm, END, LATE, WIDEST),
            END,
        ]


def _apart(begin: float, end: float, steps: int, power: float = 1.0) -> list[float]:
    """Return times from one on to before another, further apart the higher the power [s]."""
    return [begin + (end - begin) * each**power for each in linspace(0.0, 1.0, steps + 1)[:-1]]


class Sizes(NamedTuple):
    """Sizes of the pump [m]; in a cup pump the plate is as wide as the bore."""

    bore: float
    stroke: float
    plate: float
    jet: float


class Move(NamedTuple):
    """What pedal and rod do, which is known before anything is marched."""

    sizes: Sizes
    still: float  # s, when the throttle stands again
    times: list[float]  # s
    throttle: list[float]  # rad
    rod: list[float]  # m

    @property
    def closes(self) -> bool:
        """Whether the throttle does not open at all."""
        return self.throttle[-1] <= self.throttle[0]


class Reached(NamedTuple):
    """What comes of the fuel behind the carburettor, at each time."""

    film: list[float]  # kg on the wall
    fuel: list[float]  # kg/s at the cylinders
    mixture: list[float]  # lambda of that
    fires: list[float]  # share of the cycles that fire


class Found(NamedTuple):
    """One setting of the bench; every list runs over the times."""

    move: Move
    over: float | None  # s, when the shot is over, if it ends within the run
    vacuum: list[float]  # Pa, manifold
    lands: list[float]  # share of the fuel that lands on the wall
    plunger: list[float]  # m
    squeezed: list[float]  # m, of the duration spring
    delivered: list[float]  # m3
    shot: list[float]  # kg/s
    circuits: list[float]  # kg/s by the other circuits
    helped: Reached  # with the shot
    bare: Reached  # without
    most: float  # kg/s, a little more than the circuits give at the most

    @property
    def given(self) -> float:
        """The whole shot [m3]; nought if there is none worth the name."""
        return self.delivered[-1] if self.delivered[-1] > LEAST else 0.0


def point(card: Rig, values: Mapping[str, Any]) -> Move:
    """Return what pedal and rod do."""
    tip = _tip(values)
    return _move(_car(card, _pump(card, values), tip.altitude), tip)


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the run from light throttle through the tip-in to its end."""
    return finished(pieces(card, values))


def pieces(card: Rig, values: Mapping[str, Any]) -> March[Found]:
    """Work the same out, in three runs: air alone, without a shot, and with it."""
    pump, tip, warm = _pump(card, values), _tip(values), values["coolant"]
    alone = yield from _third(0, _alone(card, tip))
    bare = yield from _third(1, _bare(card, tip, warm))
    helped = yield from _third(2, _run(card, pump, tip, warm, [each.air for each in alone]))
    car = _car(card, pump, tip.altitude)
    move = _move(car, tip)
    circuits = [each.metered - each.shot for each in helped]
    found = Found(
        move=move,
        over=None,
        vacuum=[each.vacuum for each in helped],
        lands=[_lands(car, each) for each in helped],
        plunger=[each.pump.travel for each in helped],
        squeezed=[
            max(down - each.pump.travel, 0.0) for down, each in zip(move.rod, helped, strict=True)
        ],
        delivered=[each.pump.given for each in helped],
        shot=[each.shot for each in helped],
        circuits=circuits,
        helped=_reached(helped),
        bare=_reached(bare),
        most=1e-3 * ceil(1.2e3 * max(circuits)),
    )
    return found._replace(over=_over(found))


def _tip(values: Mapping[str, Any]) -> Tip:
    names = ("speed", "opened_from", "opened", "duration", "altitude")
    return Tip(*(values[name] for name in names))


def _move(car: Car, tip: Tip) -> Move:
    """Return what pedal and rod do; the engine is off its choke, so no cam holds the throttle."""
    pump, times = car.rig.pump, tip.times()
    lifted = (pedalled(car, tip.controls(now).pedal) for now in times)
    throttle = [min(car.stop + each, OPEN) for each in lifted]
    return Move(
        sizes=Sizes(pump.bore, pump.stroke, pump.plate_bore, pump.jet_bore),
        still=tip.end,
        times=times,
        throttle=throttle,
        rod=[rod_position(pump, angle) for angle in throttle],
    )


def _pump(card: Rig, values: Mapping[str, Any]) -> Pump:
    """Return the card's pump as it has been changed."""
    changed = {
        "jet_bore": values["jet"],
        "spring_rate": values["spring"],
        "linkage_start": values["lost"],
    }
    return replace(card.pump, **changed | CONDITIONS[values["pump"]])


def _idle(pump: Pump) -> Pump:
    """Return a pump that is disconnected."""
    return replace(pump, **CONDITIONS["none"])


def _car(card: Rig, pump: Pump, altitude: float) -> Car:
    """Return the car on the stand."""
    stop = card_state(card, "idle").throttle_angle
    return Car(replace(card, pump=pump), air(altitude), PETROL, stop)


def _third(done: int, march: March[list[Motion]]) -> March[list[Motion]]:
    """Go through one of three marches, told as a third of the whole."""
    while True:
        try:
            share = next(march)
        except StopIteration as end:
            run: list[Motion] = end.value
            return run
        yield (done + share) / 3


@Kept
def _alone(card: Rig, tip: Tip) -> March[list[Motion]]:
    """Work out the tip-in of a hot engine without any shot.

    What the air does in it serves whatever pump and coolant give.
    """
    return _run(card, _idle(card.pump), tip, HOT)


@Kept
def _bare(card: Rig, tip: Tip, coolant: float) -> March[list[Motion]]:
    """Work out the tip-in without any shot."""
    alone = yield from _alone(card, tip)
    if coolant == HOT:
        return alone
    air = [each.air for each in alone]
    return (yield from _run(card, _idle(card.pump), tip, coolant, air))


@lru_cache(maxsize=64)
def _begun(card: Rig, coolant: float, controls: Controls, altitude: float) -> Motion:
    """Return the car before the tip-in, whatever its pump."""
    car = _car(card, card.pump, altitude)
    warm = Start.warm(card, car.weather)
    return begun(car, warm._replace(coolant=coolant, near=card_state(card, "idle")), controls)


def _run(
    card: Rig, pump: Pump, tip: Tip, coolant: float, air: list[Breath] | None = None
) -> March[list[Motion]]:
    """Work out the tip-in, moment by moment; the air is that of a like one, if one is known."""
    car, times = _car(card, pump, tip.altitude), tip.times()
    before = _begun(card, coolant, tip.controls(0.0), tip.altitude)
    run = [before._replace(pump=pump_rest(pump, before.throttle))]
    for step, (last, now) in enumerate(pairwise(times), 1):
        known = air[step] if air else None
        run.append(stepped(car, run[-1], tip.controls(now), now - last, air=known, drawn=True))
        yield step / (len(times) - 1)
    return run


def _lands(car: Car, now: Motion) -> float:
    """Return the share of the fuel that lands on the wall [1]."""
    rig = car.rig
    air = now.air
    return wetting(rig.wall_film, rig.engine.displacement, air.pressure, air.taken, now.coolant)[0]


def _reached(run: list[Motion]) -> Reached:
    """Return what comes of the fuel in a run."""
    burnt = [each.burning for each in run]
    return Reached(
        [each.film for each in run],
        [each.fuel for each in burnt],
        [each.mixture for each in burnt],
        [each.fires for each in burnt],
    )


def _over(found: Found) -> float | None:
    """Return when the shot is over: the jets give hardly anything more."""
    if not found.given:
        return None
    faint, still = 0.02 * max(found.shot), found.move.still
    steps = pairwise(zip(found.move.times, found.shot, strict=True))
    ends = (_fell(faint, *step) for step in steps if step[1][0] > still and step[1][1] < faint)
    return next(ends, None)


def _fell(faint: float, before: tuple[float, float], after: tuple[float, float]) -> float:
    """Return when a flow fell below a faint one, between two times or at the second [s]."""
    (start, more), (end, less) = before, after
    return end if more <= faint else end - (end - start) * (faint - less) / (more - less)
