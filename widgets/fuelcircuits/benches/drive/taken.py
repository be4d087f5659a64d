"""What a part's bench takes of a moment of a drive, by the names that parts.toml uses."""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from fuelcircuits.benches.carburettor.mixture_curve import speed_at
from fuelcircuits.benches.carburettor.running import card_state
from fuelcircuits.benches.drive.driven import STEP, Driven
from fuelcircuits.benches.drive.foot import Foot
from fuelcircuits.benches.drive.row import BREATH, Row
from fuelcircuits.benches.pump.found import BEGIN, END
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Seen", "Taken", "taken", "there"]

Taken = float | str | None
"""What a control takes, in SI or a word; nothing where the moment has none."""

FINE = 5
"""Digits to which a share of the throttle's way is told; a plate on its stop is shut."""
TIPS = 0.05
"""Share of the pedal's way from which on a pedal that goes down makes a tip-in [1]."""
SHUT, WIDE = 0.03, 0.9
"""Shares of the throttle's way up to which an engine idles, and from which on it pulls [1]."""
NEARLY = 0.7
"""Angle of a choke plate that counts as nearly shut [rad]."""


class Seen(NamedTuple):
    """The moment of a drive that is seen, and how it came to it."""

    driven: Driven
    row: Row
    feet: Sequence[Foot]  # step by step, up to this moment
    speeds: Sequence[float]  # rad/s of the engine, at the beginning and after every step

    @property
    def pedals(self) -> list[float]:
        """Where the pedal stood at the beginning and after every step."""
        return [self.driven.outing.pedal, *(foot.pedal for foot in self.feet)]

    @property
    def opening(self) -> float:
        """How far the throttle is open on its way from the idle stop [1]."""
        stop = self.driven.car.stop
        return round((self.row.throttle - stop) / (OPEN - stop), FINE)


class Tip(NamedTuple):
    """The last time that the pedal went down before a moment, in steps."""

    first: int
    last: int


def taken(name: str, seen: Seen) -> Taken:
    """Return what a control takes: one of `WAYS`, or an entry of the row or of the outing."""
    if name in WAYS:
        return WAYS[name](seen)
    home = seen.row if hasattr(seen.row, name) else seen.driven.outing
    return float(getattr(home, name))


def there(value: float | str, name: str, rig: Rig, seen: Seen) -> float:
    """Return what a bench has for something that it has no control for, in SI."""
    if not isinstance(value, str):
        return value
    return OPEN if value == "open" else STANDS[value](name, rig, seen)


def _mixture(seen: Seen) -> float | None:
    """Return lambda, where air moves."""
    return seen.row.mixture if seen.row.air > BREATH else None


def _way(seen: Seen) -> str:
    """Return how the engine runs."""
    if seen.opening < SHUT:
        return "idle"
    return "full" if seen.opening > WIDE else "cruise"


def _tip(seen: Seen) -> Tip | None:
    """Return the last tip-in, if the pump bench's run reaches from it to this moment."""
    rises = [after > before for before, after in pairwise(seen.pedals)]
    if True not in rises:
        return None
    last = len(rises) - rises[::-1].index(True)
    first = next((at for at in range(last, 0, -1) if not rises[at - 1]), 0)
    enough = seen.pedals[last] - seen.pedals[first] >= TIPS
    return Tip(first, last) if enough and STEP * (len(rises) - first) <= END - BEGIN else None


def _of_tip(find: Callable[[Seen, Tip], float], else_: Callable[[Seen], float | None]) -> "Way":
    """Return what takes something of the last tip-in, or of this moment if there was none."""

    def found(seen: Seen) -> float | None:
        tip = _tip(seen)
        return find(seen, tip) if tip else else_(seen)

    return found


def _since_start(seen: Seen) -> float | None:
    """Return for how long a cold engine has been started [s]."""
    if seen.driven.outing.engine != "cold":
        return None
    turned = next((at for at, foot in enumerate(seen.feet) if foot.starter), len(seen.feet))
    return STEP * (len(seen.feet) - turned)


def _of_way(name: str, rig: Rig, seen: Seen) -> float:
    """Return speed or throttle of the way in which the vents' bench has the engine run."""
    return _of(name, rig, _way(seen))


def _of(name: str, rig: Rig, way: str) -> float:
    state = card_state(rig, way)
    return state.speed if name == "speed" else state.throttle_angle


Way = Callable[[Seen], Taken]
WAYS: Mapping[str, Way] = {
    "opening": lambda seen: seen.opening,
    "mixture": _mixture,
    "way": _way,
    "plate": lambda seen: "shut" if seen.row.choke < NEARLY else "open",
    "tapped": lambda seen: "tapped" if any(foot.pedal for foot in seen.feet) else "left",
    "opened from": _of_tip(lambda seen, tip: seen.pedals[tip.first], lambda seen: seen.opening),
    "opened to": _of_tip(lambda seen, tip: seen.pedals[tip.last], lambda _: None),
    "opened in": _of_tip(lambda _, tip: STEP * (tip.last - tip.first), lambda _: None),
    "opened at": _of_tip(lambda seen, tip: seen.speeds[tip.first], lambda seen: seen.row.speed),
    "since it opened": _of_tip(
        lambda seen, tip: BEGIN + STEP * (len(seen.feet) - tip.first), lambda _: None
    ),
    "since the start": _since_start,
}
"""What is no plain entry of a row or an outing."""
STANDS: Mapping[str, Callable[[str, Rig, Seen], float]] = {
    "of its way": _of_way,
    "at idle": lambda name, rig, _: _of(name, rig, "idle"),
    "on the stand": lambda _, rig, seen: speed_at(rig, seen.row.throttle),
}
"""What a bench has for speed and throttle where these follow from something else."""
