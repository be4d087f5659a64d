"""Tests that a driveway has: seen, heard or smelt, answered by yes or no, without a gauge.

What each shows, how often it misleads and the minutes it takes are common practice, no source.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from math import log
from operator import add
from types import MappingProxyType

from fuelcircuits.diagnosis.check import ENGINE_RUNS, PETROL_OPEN
from fuelcircuits.diagnosis.ranking import Weighed
from fuelcircuits.diagnosis.table import SEVERITIES, Row
from fuelcircuits.errors import RangeError
from fuelcircuits.faults.second_barrel import PREFIX
from fuelcircuits.physics.numerics.linear import dot
from fuelcircuits.quantities.naming import names_in

__all__ = ["LOOKS", "Look", "answers_of", "left", "look_bits", "seen_likelihood"]

YES, NO = ("yes", "y", "ja", "true"), ("no", "n", "nein", "false")
_SLIGHT, _PLAIN = 0.1, 0.5
"""Severities up to which nobody sees it, and from which anybody does [1]."""


@dataclass(frozen=True)
class Look:
    """A yes-or-no test."""

    name: str
    """Words joined by hyphens."""
    label: str
    """The question, asked the way round in which people ask it."""
    how: str
    shows: Mapping[str, float] = field(repr=False)
    """Faults that make the answer `bad`, each with how surely a plain one does [1]."""
    misleads: float
    """How often it says so of a car that has none of these [1]."""
    minutes: float
    caution: str = ""
    needs: str = "nothing"
    """What one has to own for it."""
    bad: bool = True
    """The answer that a fault gives: yes, or no."""
    answered_by: tuple[str, ...] = ()
    """Readings that nobody could have taken had the answer been `bad`."""

    def yes(self, suspects: Sequence[str]) -> list[Row]:
        """Return how likely yes is for each suspect at each of `SEVERITIES` [1]."""
        bad = [min(max((one - _SLIGHT) / (_PLAIN - _SLIGHT), 0.0), 1.0) for one in SEVERITIES]
        sure = (self.shows.get(name.removeprefix(PREFIX), 0.0) for name in suspects)
        more = (max(one - self.misleads, 0.0) for one in sure)
        said = [[self.misleads + by * one for one in bad] for by in more]
        return said if self.bad else [[1.0 - one for one in row] for row in said]


def _looks(*looks: Look) -> Mapping[str, Look]:
    return MappingProxyType({look.name: look for look in looks})


_LEVEL_HIGH = {
    "dirt-in-needle-seat": 0.9,
    "worn-needle-seat": 0.6,
    "soaked-float": 0.7,
    "float-set-high": 0.6,
    "high-fuel-pressure": 0.5,
}
_LEAN = {
    "blocked-idle-jet": 0.85,
    "blocked-economizer": 0.85,
    "mixture-screw-in": 0.7,
    "manifold-air-leak": 0.85,
    "worn-throttle-shaft": 0.7,
    "bleed-valve-stuck-open": 0.6,
    "float-set-low": 0.5,
    "blocked-main-jet": 0.8,
    "main-jet-too-small": 0.5,
}
LOOKS: Mapping[str, Look] = _looks(
    Look(
        "covered-horn",
        "Does it run smoother or faster while the horn is partly covered?",
        "Warm, at about 1500 rpm, cleaner off, choke open: hold a hand flat over half of the horn "
        "for a second, fingers together, nothing loose near. Smoother means it was lean.",
        _LEAN,
        misleads=0.12,
        minutes=4,
        caution=f"{ENGINE_RUNS} A backfire burns: face away, never cover it all.",
    ),
    Look(
        "dies-at-idle",
        "Does it die at idle, however the idle speed screw is set?",
        "Warm, choke open; by ear, without any gauge.",
        {
            "blocked-idle-jet": 0.5,
            "blocked-main-jet": 0.5,
            "blocked-economizer": 0.5,
            "choke-stuck-shut": 0.5,
            "manifold-air-leak": 0.3,
            "dirt-in-needle-seat": 0.3,
        },
        misleads=0.05,
        minutes=2,
        caution=ENGINE_RUNS,
        answered_by=("idle-vacuum", "idle-mixture", "port-vacuum"),
    ),
    Look(
        "clamped-hose",
        "Does the idle change when one of the vacuum hoses is clamped?",
        "Clamp every hose at the manifold in turn, close to its nipple.",
        {"manifold-air-leak": 0.5},
        misleads=0.05,
        minutes=5,
        caution=ENGINE_RUNS,
        needs="hose clamp",
    ),
    Look(
        "water-at-flange",
        "Does the idle change when water is sprayed at flange and manifold?",
        "A fine mist of water from a flower sprayer along gasket and flange. Water, never brake "
        "cleaner or gas: these burn.",
        {"manifold-air-leak": 0.7},
        misleads=0.05,
        minutes=5,
        caution=f"{ENGINE_RUNS} Keep water off the ignition.",
        needs="flower sprayer",
    ),
    Look(
        "shaft-wiggle",
        "Does the throttle shaft move sideways, or the idle change when it is pressed?",
        "Take the lever between two fingers and push it up and down across the bore.",
        {"worn-throttle-shaft": 0.9},
        misleads=0.08,
        minutes=2,
        caution=ENGINE_RUNS,
    ),
    Look(
        "wet-nozzle",
        "Is a nozzle wet, or does it drip or smell, a minute after the engine was stopped?",
        "Hot engine off, cleaner off, choke held open: look down the horn with a torch.",
        _LEVEL_HIGH,
        misleads=0.06,
        minutes=3,
        caution=PETROL_OPEN,
        needs="torch",
    ),
    Look(
        "knocked-bowl",
        "Does the flooding stop when the bowl is knocked with a handle?",
        "Knock beside the inlet with a wooden handle while it floods.",
        {"dirt-in-needle-seat": 0.6},
        misleads=0.05,
        minutes=2,
        caution=f"{ENGINE_RUNS} {PETROL_OPEN} If petrol runs over the engine, stop it at once.",
    ),
    Look(
        "weak-shot",
        "Is the pump's jet weak, late or missing in a barrel when the throttle is opened?",
        "Engine off, cleaner off, choke held open, torch: open the throttle by hand and watch for "
        "a firm jet at once.",
        {
            "torn-pump-cup": 0.9,
            "leaking-pump-inlet-check": 0.85,
            "leaking-pump-discharge-check": 0.5,
            "blocked-pump-jet": 0.85,
            "pump-stroke-short": 0.6,
        },
        misleads=0.07,
        minutes=3,
        caution=PETROL_OPEN,
        needs="torch",
    ),
    Look(
        "screw-answers",
        "Does the idle change when the mixture screw is turned in by half a turn?",
        "Note where it stood, turn it in by half, listen, put it back. Sealed ones stay sealed.",
        {
            "blocked-idle-jet": 0.6,
            "blocked-economizer": 0.6,
            "dirt-in-needle-seat": 0.6,
            "soaked-float": 0.3,
            "choke-stuck-shut": 0.5,
        },
        misleads=0.1,
        minutes=3,
        caution=ENGINE_RUNS,
        needs="screwdriver",
        bad=False,
    ),
    Look(
        "choke-open-warm",
        "Is the choke plate wide open on the warm engine?",
        "Cleaner off, after ten minutes of running.",
        {
            "choke-stuck-shut": 0.95,
            "choke-heat-dead": 0.9,
            "choke-coil-tight": 0.5,
        },
        misleads=0.03,
        minutes=2,
        caution=ENGINE_RUNS,
        bad=False,
    ),
    Look(
        "choke-not-shut",
        "Does the choke plate stand open on the cold engine, after the pedal was pressed once?",
        "Below 15 °C, before the first start of the day.",
        {"choke-coil-slack": 0.9},
        misleads=0.06,
        minutes=2,
    ),
    Look(
        "choke-cracks-open",
        "Does the choke plate crack open as soon as the cold engine runs?",
        "Watch it while somebody starts the engine.",
        {"pull-off-torn": 0.9, "choke-stuck-shut": 0.5},
        misleads=0.05,
        minutes=3,
        caution=f"{ENGINE_RUNS} A backfire burns: keep your face off the horn.",
        bad=False,
    ),
    Look(
        "better-without-cleaner",
        "Does it pull better with the cleaner's element out?",
        "Two runs up the same hill, element in and out. Put it back: dust wears the engine.",
        {"restricted-air-cleaner": 0.8},
        misleads=0.05,
        minutes=15,
        caution="A backfire burns: put the lid back on without the element.",
    ),
    Look(
        "vent-clicks",
        "Does the vent's solenoid click when the ignition is switched on?",
        "Ear at the carburettor, engine off.",
        {"vent-solenoid-dead": 0.9, "vent-solenoid-stuck": 0.6},
        misleads=0.05,
        minutes=2,
        bad=False,
    ),
    Look(
        "rod-springs-back",
        "Does the metering rod's piston spring back when it is pressed down?",
        "Engine off, cleaner off: press it gently with a thin wooden stick.",
        {"power-rod-stuck-down": 0.85, "power-rod-stuck-up": 0.7},
        misleads=0.05,
        minutes=4,
        caution=PETROL_OPEN,
        bad=False,
    ),
)
"""Every look by its name."""


def answers_of(seen: Mapping[str, object]) -> dict[str, bool]:
    """Return what was seen, by the look's name; raise `RangeError` for what is no look or answer.

    A name may be written in other ways; an answer is yes or no.
    """
    found = {}
    for written, answer in seen.items():
        names = names_in(str(written), LOOKS)
        if len(names.known) != 1:
            near = get_close_matches(str(written).lower(), LOOKS, n=1, cutoff=0.6)
            listed = (
                f"on the list (did you mean {near[0]}?)" if near else f"one of {', '.join(LOOKS)}"
            )
            raise RangeError(f"look must be {listed}, got {written!r}")
        word = str(answer).strip().lower()
        if word not in (*YES, *NO):
            raise RangeError(f"{names.known[0]} must be yes or no, got {answer!r}")
        found[names.known[0]] = word in YES
    return found


def left(seen: Collection[str], read: Collection[str]) -> list[Look]:
    """Return the looks that could still tell something.

    Parameters
    ----------
    seen, read
        Names of the looks and of the readings that were taken.
    """
    return [
        one
        for name, one in LOOKS.items()
        if name not in seen and not any(reading in read for reading in one.answered_by)
    ]


def seen_likelihood(suspects: Sequence[str], seen: Mapping[str, bool]) -> list[Row]:
    """Return the logarithm of how likely these answers are, by suspect and severity."""
    total = [[0.0] * len(SEVERITIES) for _ in suspects]
    for name, answer in seen.items():
        for at, row in enumerate(LOOKS[name].yes(suspects)):
            told = (log(yes if answer else 1.0 - yes) for yes in row)
            total[at] = list(map(add, total[at], told))
    return total


def look_bits(weighed: Weighed, look: Look) -> float:
    r"""Return how much a look can be expected to tell [bit].

    .. math:: I = H(p) - \sum_s p_s H(p_{yes|s})

    References
    ----------
    C. E. Shannon, A mathematical theory of communication, 1948: mutual information.
    """
    shares, yes = weighed.shares, look.yes(weighed.table.suspects)
    both = list(map(dot, yes, weighed.likely))
    each = (one / max(share, 1e-300) for one, share in zip(both, shares, strict=True))
    return max(_entropy(sum(both)) - dot(shares, list(map(_entropy, each))), 0.0)


def _entropy(yes: float) -> float:
    """Return the entropy of a yes-or-no answer [bit]."""
    return sum(-part * log(part, 2) for part in (yes, 1.0 - yes) if part > 0)
