"""The card as it would be of an engine that runs well, before any suspect is thought of.

A card with entries that nobody measured may describe an engine that could not run well. What
healthy engines read is known roughly, so the card is moved as little as its entries allow until
it reads like one; what may still be off is kept, and widens every later judgement.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, Warmed, warmed
from fuelcircuits.errors import CardError, ConvergenceError
from fuelcircuits.own_car.fitting import changed
from fuelcircuits.own_car.leeway import RUNNING, Dial, dials, turned
from fuelcircuits.own_car.settling import (
    Row,
    Rows,
    Settled,
    covariance,
    root_mean_square,
    settled,
    slopes,
)
from fuelcircuits.own_car.usual import USUAL, Usual
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.linear import dot

__all__ = ["Healthy", "healthy"]

LEVEL, LEVEL_SPREAD = "level-at-idle", 1e-3
"""The fuel stands where the card has it, within a millimetre [m]; common practice, no source."""
REMEMBERED = 0.5
"""Spread of what a car read when it ran well, of that of healthy engines [1]; common practice, no
source."""
NOTHING: Mapping[str, float] = MappingProxyType({})
_SEA_LEVEL, _PETROL = Weather.at(), Fuel()


@dataclass(frozen=True)
class Healthy:
    """A card that reads like a healthy engine, and how far it may still be off."""

    card: Rig
    """As it was entered."""
    usual: Mapping[str, Usual]
    """What a healthy car of this kind reads at sea level on petrol, by the check's name."""
    entered: Mapping[str, float]
    """What the card as entered would read at sea level on petrol, by the check's name [SI]."""
    home: Warmed
    """The card as entered, at sea level on petrol."""
    warmed: Warmed
    """The card once settled, in the weather and on the fuel of the readings."""
    free: Sequence[Dial]
    settled: Settled

    @property
    def strange(self) -> list[str]:
        """Return the checks at which the card as entered reads like no healthy engine."""
        return [
            name
            for name, usual in self.usual.items()
            if name != LEVEL and abs(self.entered[name] - usual.middle) > 2.0 * usual.spread
        ]

    @property
    def contradicted(self) -> bool:
        """Whether what was measured does not go together with a healthy engine."""
        pairs = zip(self.free, self.settled.turns, strict=True)
        moved = any(dial.measured and abs(by) >= 1.0 for dial, by in pairs)
        left = root_mean_square(self.settled.off)
        return bool(self.strange) and (moved or left > 1.0)

    @property
    def doubtful(self) -> list[int]:
        """Return where the dials stand among all that may be wrong, if the card is strange.

        Those are the ones that nobody measured, as long as these account for it.
        """
        every = enumerate(self.free)
        return [at for at, dial in every if self.contradicted or not dial.measured]

    def to_measure(self, checks: Sequence[Check], among: Collection[str]) -> list[str]:
        """Return entries not measured that these checks hang on most, the first most."""
        weight = {
            dial.entry: sum(
                (row[k] / check.uncertainty(0.0)) ** 2
                for row, check in zip(self.slope(checks), checks, strict=True)
            )
            for k, dial in enumerate(self.free)
            if not dial.measured and dial.entry in among
        }
        return sorted(weight, key=lambda entry: -weight[entry])

    def leeway(self, checks: Sequence[Check]) -> Rows:
        """Return the covariance of some checks by what the card may still be off [SI].

        That a healthy engine reads as usual narrows what the entries alone would leave open.
        """
        slope, left = self.left_open(checks)
        spread = [[dot(row, other) for other in left] for row in slope]
        return [[dot(row, other) for other in slope] for row in spread]

    def left_open(self, checks: Sequence[Check]) -> tuple[Rows, Rows]:
        """Return the slope of some checks, and the covariance of the dials [1].

        What healthy engines read narrows that.
        """
        usual = self.usual
        whole = self.slope([*map(find, usual), *checks])
        known = [
            [one / by.spread for one in row]
            for row, by in zip(whole[: len(usual)], usual.values(), strict=True)
        ]
        return whole[len(usual) :], covariance(known, len(self.free))

    def moved(self) -> list[tuple[Dial, float]]:
        """Return the doubtful entries that somebody could measure, with where they were moved [SI].

        The one moved most comes first, counted in its own uncertainties.
        """
        pairs = [(self.free[at], self.settled.turns[at]) for at in self.doubtful]
        most = sorted(pairs, key=lambda one: -abs(one[1]))
        return [(dial, dial.at(by)) for dial, by in most if not dial.of_model]

    def slope(self, checks: Sequence[Check]) -> Rows:
        """Return how each check answers to each dial [SI], a row a check."""
        wanted = {check.name: check for check in checks}
        missing = tuple(one for name, one in wanted.items() if name not in self._slopes)
        if missing:
            found = slopes(
                lambda turns: _read(changed(self.warmed, self.settled_dials, turns), missing),
                [0.0] * len(self.free),
                _read(Subject(self.warmed, self.warmed.rig), missing),
            )
            self._slopes.update(zip((check.name for check in missing), found, strict=True))
        return [self._slopes[check.name] for check in checks]

    @cached_property
    def settled_dials(self) -> list[Dial]:
        """Return the dials as they stand once settled."""
        pairs = zip(self.free, self.settled.turns, strict=True)
        return [dial._replace(value=dial.at(by)) for dial, by in pairs]

    @cached_property
    def _slopes(self) -> dict[str, Row]:
        return {}


def healthy(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    *,
    measured: Collection[str] | None = None,
    sections: Sequence[str] = RUNNING,
    ran_well: Mapping[str, float] = NOTHING,
) -> Healthy:
    """Return the card of a healthy engine that is nearest to `rig`.

    Parameters
    ----------
    rig
        The card as it was entered.
    weather, fuel
        What the car is read in and with.
    measured
        Entries that somebody has measured; all of them if not given.
    sections
        Sections whose entries may be off.
    ran_well
        What gauges showed when this very car ran well, by the check's name [SI].

    Raises
    ------
    CardError
        If the card lacks a section, or describes an engine that cannot idle at all.
    """
    try:
        home = warmed(rig, _SEA_LEVEL, _PETROL, by_vacuum=True)
    except ConvergenceError as error:
        raise CardError(
            f"{rig.name}: card must describe an engine that can idle; displacement, throttle bore "
            f"and venturi are the first to look at. The model says: {error}"
        ) from error
    usual = _usual(rig, ran_well)
    checks = [find(name) for name in usual]
    free = dials(rig, measured, sections)

    def off(turns: Row) -> Row:
        read = _read(changed(home, free, turns), checks)
        return [(one - by.middle) / by.spread for one, by in zip(read, usual.values(), strict=True)]

    found = settled(
        off,
        len(free),
        roughly=True,
        start=_richer(free),
    )
    entered = _read(Subject(home, rig), checks)
    now = turned(rig, free, found.turns)
    return Healthy(
        rig,
        usual,
        dict(zip((check.name for check in checks), entered, strict=True)),
        home,
        warmed(now, weather, fuel, near=home, by_vacuum=True),
        free,
        found,
    )


_RICHER: Mapping[str, float] = MappingProxyType(
    {
        "low_speed.jet_bore": 0.5,
        "low_speed.economizer_bore": 0.5,
        "low_speed.seat_bore": 0.5,
        "low_speed.bypass_bore": -0.5,
        "low_speed.air_bleed_bore": -0.5,
    }
)
"""Turns that make the idle richer [1]: a card whose idle is so lean that the throttle has to open
wide for it would else be mended where it is not wrong."""


def _richer(free: Sequence[Dial]) -> Row:
    return [_RICHER.get(dial.entry, 0.0) for dial in free]


def _usual(rig: Rig, ran_well: Mapping[str, float]) -> dict[str, Usual]:
    """Return what a healthy engine with this card reads, and this one did if that is known."""
    own = {name: Usual(value, USUAL[name].spread * REMEMBERED) for name, value in ran_well.items()}
    return {**USUAL, **own, LEVEL: Usual(rig.float_bowl.specified_level, LEVEL_SPREAD)}


def _read(car: Subject, checks: Sequence[Check]) -> Row:
    return [check.read(car) for check in checks]
