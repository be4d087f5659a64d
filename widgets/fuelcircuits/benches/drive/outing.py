"""What is settled before a drive: rig, weather, how warm the engine is, and what is wrong."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fuelcircuits.benches.frame.noise import drawn
from fuelcircuits.diagnosis.jobs import garage
from fuelcircuits.errors import RangeError, between
from fuelcircuits.faults import find, fitting
from fuelcircuits.physics.network.rig import Rig

__all__ = ["ENGINES", "HIDDEN", "Outing", "Wrong", "cars", "outing_in", "wrong_with"]

ENGINES: Mapping[str, str] = {
    "warm": "warm, running",
    "hot": "hot, stopped a quarter of an hour",
    "cold": "cold, as the air outside",
}
"""How the engine stands when a drive begins, with the words for it."""
HIDDEN = "hidden"
"""Stands for a fault that is drawn, and not told until it is asked for."""
CAR = "car-"
"""Before the number of a car of the yard, on which people practise: its fault is not told either.
"""
YARD = (*range(1, 10), *range(11, 23))
"""Numbers of these cars, those of units 12 and 14."""
LIMITS = {
    "altitude": (0.0, 3000.0, "m"),
    "outside": (253.15, 313.15, "K"),
    "severity": (0.0, 1.0, ""),
    "speed": (0.0, 500.0, "rad/s"),
    "pedal": (0.0, 1.0, ""),
}


class Outing(NamedTuple):
    """What is settled before a drive begins."""

    rig: str = ""  # its name
    altitude: float = 0.0  # m above the sea
    outside: float = 298.15  # K, temperature of the air
    engine: str = "warm"  # one of ENGINES
    fault: str = ""  # a name, HIDDEN, a car of the yard, or nothing
    severity: float = 1.0  # of the fault [1]
    draw: int = 0  # from which a hidden fault follows
    speed: float = 0.0  # rad/s at which a warm engine has run; nought is idle
    pedal: float = 0.0  # at which it has run [1]
    gear: str = "neutral"  # in which it has run

    @property
    def named(self) -> dict[str, Any]:
        """Return every entry by its name."""
        return self._asdict()

    @property
    def hidden(self) -> bool:
        """Whether what is wrong is not told."""
        return self.fault == HIDDEN or self.fault.startswith(CAR)


class Wrong(NamedTuple):
    """What is wrong with a car, by its name, and how badly [1]; no name if all is in order."""

    name: str = ""
    severity: float = 0.0


def outing_in(told: Mapping[str, Any]) -> Outing:
    """Return what a table says of an outing.

    Raises
    ------
    RangeError
        If it says anything else, or a value is none of those that there are.
    """
    for name in told:
        if name not in Outing._fields:
            raise RangeError(f"outing must say {', '.join(Outing._fields)} only, got {name}")
    found = Outing(**told)
    for name in ("rig", "engine", "fault", "gear"):
        if not isinstance(getattr(found, name), str):
            raise RangeError(f"{name} must be a word, got {getattr(found, name)!r}")
    for name, (low, high, unit) in LIMITS.items():
        between(name, _number(name, getattr(found, name)), low, high, unit)
    if found.engine not in ENGINES:
        raise RangeError(f"engine must be one of {', '.join(ENGINES)}, got {found.engine}")
    if not isinstance(found.draw, int) or isinstance(found.draw, bool):
        raise RangeError(f"draw must be a whole number, got {found.draw}")
    _check_fault(found.fault)
    return found


def _check_fault(name: str) -> None:
    """Raise `RangeError` unless there is such a fault, or such a car."""
    if name.startswith(CAR) and name not in _every_car():
        raise RangeError(f"car must be one of {', '.join(_every_car())}, got {name}")
    if name not in ("", HIDDEN, *_every_car()):
        find(name)


def _number(name: str, value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise RangeError(f"{name} must be a number, got {value!r}")
    return float(value)


def wrong_with(outing: Outing, rig: Rig) -> Wrong:
    """Return what is wrong with the car of an outing."""
    if outing.fault.startswith(CAR):
        return _of_car(_every_car()[outing.fault])
    if outing.fault != HIDDEN:
        return Wrong(outing.fault, outing.severity)
    names = fitting(rig, around=True)
    return Wrong(names[int(len(names) * next(drawn(outing.draw)))], outing.severity)


def cars(rig: Rig) -> dict[str, int]:
    """Return the cars of the yard by the names under which they are driven, if a rig can be one."""
    return {
        name: number
        for name, number in _every_car().items()
        if _of_car(number).name in fitting(rig, around=True)
    }


def _every_car() -> dict[str, int]:
    return {f"{CAR}{number}": number for number in YARD}


def _of_car(number: int) -> Wrong:
    """Return what is wrong with a car of the yard."""
    told = garage(number).told
    return Wrong(*told) if told else Wrong()
