"""Find entries of a card that nobody could measure from readings that somebody could take."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from math import sqrt
from typing import NamedTuple, TypeAlias

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, Warmed, warmed
from fuelcircuits.errors import CircuitError, ConvergenceError, RangeError
from fuelcircuits.own_car.entry_text import entry_meaning, entry_text
from fuelcircuits.own_car.leeway import RUNNING, Dial, turned, value_of
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.linear import dot, inverse, solve

__all__ = [
    "PRIOR",
    "Fit",
    "Settled",
    "across",
    "changed",
    "corrected",
    "covariance",
    "fit",
    "plus",
    "root_mean_square",
    "settled",
    "slopes",
]

Row: TypeAlias = Sequence[float]
Rows: TypeAlias = Sequence[Row]

PRIOR = 0.3
"""How far an entry may be off the card before it counts as one uncertainty [1], in relation to
itself; common practice, no source."""
MISFIT = 2.0
"""Misfit beyond which something else is wrong [1]; common practice, no source."""
_STEP, _DONE, _ROUGH, _ROUNDS = 0.01, 3e-3, 0.05, 20
_MOST = 2.5
"""The most that an entry moves in one round, in uncertainties [1]."""


class Fit(NamedTuple):
    """A card whose unknown entries suit the readings as well as the model allows."""

    rig: Rig
    entries: dict[str, float]
    """Each entry fitted [SI]."""
    doubt: dict[str, float]
    """Its standard uncertainty [SI]."""
    misfit: float
    """Root mean square of (read less expected) over the standard uncertainty [1]."""

    def __repr__(self) -> str:
        """Return what was found as text."""
        return self._repr_markdown_()

    def _repr_markdown_(self) -> str:
        """Show what was found in a notebook."""
        lines = ["| entry | found | give or take |", "| --- | --- | --- |"]
        for name, value in self.entries.items():
            found, doubt = entry_text(name, value), entry_text(name, self.doubt[name], figures=1)
            lines.append(f"| {entry_meaning(name)} | {found} | {doubt} |")
        return "\n".join([*lines, "", self._fits()])

    def _fits(self) -> str:
        """Return how well the readings fit the card with these entries, in words."""
        far = f"{self.misfit:.1f} times their doubt off this card, on the average"
        if self.misfit <= MISFIT:
            return f"The readings fit: they are {far}."
        return (
            f"**The readings do not fit**: they are {far}. Some other number on the card, or a "
            "reading, must be wrong."
        )


class Settled(NamedTuple):
    """Where a search has come to, in uncertainties of what it moves."""

    turns: Row
    slope: Rows
    """How the residuals change with each turn, where the search ended [1]; a row a residual."""
    first: Rows
    """The same where it began [1]."""
    off: Row
    """What is left of the residuals [1]."""


def fit(
    rig: Rig,
    readings: Mapping[str, float],
    unknown: Sequence[str],
    weather: Weather,
    fuel: Fuel,
) -> Fit:
    r"""Return the card that suits the readings best without straying from what it said.

    .. math:: \min_x \sum_i \left(\frac{y_i - m_i(x)}{u_i}\right)^2
              + \sum_j \left(\frac{\ln x_j - \ln x_{0j}}{0.3}\right)^2

    Parameters
    ----------
    rig
        The card with a first guess for what is unknown.
    readings
        What was read on the car, by the check's name [SI].
    unknown
        Entries to find, such as ``"low_speed.jet_bore"``; each must be positive.
    weather, fuel
        What the car was read in and with.

    Returns
    -------
    Fit
        With the uncertainties that readings and card leave.

    Raises
    ------
    RangeError
        If a check or an entry is not known, or an entry is not positive.
    ConvergenceError
        If the search does not settle.

    References
    ----------
    Damped Gauss-Newton, K. Levenberg, Q. Appl. Math. 2, 1944; the prior makes it well posed.
    """
    checks = [find(name) for name in readings]
    start = [value_of(rig, entry) for entry in unknown]
    if not min(start, default=1.0) > 0:
        raise RangeError(f"entries to be found must be positive, got {start}")
    free = [Dial(entry, value, PRIOR) for entry, value in zip(unknown, start, strict=True)]
    home = warmed(rig, weather, fuel, by_vacuum=True)
    read = [
        (check, float(value), check.uncertainty(float(value)))
        for check, value in zip(checks, readings.values(), strict=True)
    ]

    def residual(turns: Row) -> Row:
        car = changed(home, free, turns)
        return [(value - check.read(car)) / doubt for check, value, doubt in read]

    found = settled(residual, len(free))
    entries = {dial.entry: dial.at(by) for dial, by in zip(free, found.turns, strict=True)}
    left = covariance(found.slope, len(free))
    spread = [PRIOR * sqrt(row[at]) for at, row in enumerate(left)]
    return Fit(
        turned(rig, free, found.turns),
        entries,
        {name: entries[name] * one for name, one in zip(entries, spread, strict=True)},
        root_mean_square(found.off),
    )


def changed(home: Warmed, free: Sequence[Dial], turns: Row) -> Subject:
    """Return a car much like `home`, each dial so many uncertainties up, its idle set anew."""
    rig = turned(home.rig, free, turns)
    if all(getattr(rig, name) == getattr(home.rig, name) for name in (*RUNNING, "second")):
        return Subject(replace(home, rig=rig), rig)
    return Subject(warmed(rig, home.weather, home.fuel, near=home, by_vacuum=True), rig)


def settled(
    residual: Callable[[Row], Row],
    count: int,
    *,
    roughly: bool = False,
    start: Row | None = None,
) -> Settled:
    """Return the turns that leave least of residuals and turns, each counted in uncertainties.

    The search begins at no turns, or at `start` where that leaves less.

    The slopes are worked out once, and corrected from what every step has shown; unless it is
    done `roughly`, once more where the search ends.

    Raises
    ------
    ConvergenceError
        If the search does not settle.

    References
    ----------
    C. G. Broyden, A class of methods for solving nonlinear simultaneous equations, 1965.
    """
    turns: Row = [0.0] * count
    now = residual(turns)
    there = None if start is None else _tried(residual, start)
    if start is not None and there is not None and _cost(there, start) < _cost(now, turns):
        turns, now = start, there
    first = slope = slopes(residual, turns, now)
    fresh = True
    for _ in range(_ROUNDS):
        step, then = _better(residual, turns, now, slope)
        moved = max(map(abs, step), default=0.0)
        end = then is None or moved < (_ROUGH if roughly else _DONE)
        if end and (fresh or roughly):
            return Settled(turns, slope, first, now)
        if end:
            slope, fresh = slopes(residual, turns, now), True
            continue
        assert then is not None
        slope = corrected(slope, step, now, then)
        turns, now, fresh = plus(turns, step), then, False
    raise ConvergenceError(f"fit must settle within {_ROUNDS} rounds, still moves by {step}")


def _better(
    residual: Callable[[Row], Row], turns: Row, now: Row, slope: Rows
) -> tuple[Row, Row | None]:
    """Return a step that leaves less, and the residuals there; no step if none does."""
    columns = across(slope, len(turns))
    own = [1.0 + dot(column, column) for column in columns]
    push = [-dot(column, now) - turn for column, turn in zip(columns, turns, strict=True)]
    damping = 1e-3
    while damping < 1e5:
        step = _ridged(slope, [1.0 + damping * one for one in own], push)
        step = [min(max(one, -_MOST), _MOST) for one in step]
        there = plus(turns, step)
        then = _tried(residual, there)
        if then is not None and _cost(then, there) <= _cost(now, turns):
            return step, then
        damping *= 10
    return [0.0] * len(turns), None


def slopes(residual: Callable[[Row], Row], turns: Row, now: Row) -> Rows:
    """Return how the residuals change with each turn; not at all where nothing balances."""
    columns = []
    for at in range(len(turns)):
        there = _tried(residual, [*turns[:at], turns[at] + _STEP, *turns[at + 1 :]])
        columns.append(
            [
                0.0 if there is None else (b - a) / _STEP
                for a, b in zip(now, there or now, strict=True)
            ]
        )
    return across(columns, len(now))


def corrected(slope: Rows, step: Row, now: Row, then: Row) -> Rows:
    """Return the slopes with what a step has shown of them; Broyden's rule."""
    length = dot(step, step)
    missed = [(b - a - dot(row, step)) / length for row, a, b in zip(slope, now, then, strict=True)]
    return [
        [one + miss * by for one, by in zip(row, step, strict=True)]
        for row, miss in zip(slope, missed, strict=True)
    ]


def covariance(slope: Rows, count: int) -> list[list[float]]:
    """Return what readings with these slopes leave open of so many turns, each of spread 1."""
    columns = across(slope, count)
    return inverse(
        [
            [dot(column, other) + (1.0 if i == k else 0.0) for k, other in enumerate(columns)]
            for i, column in enumerate(columns)
        ]
    )


def across(rows: Rows, count: int) -> list[Row]:
    """Return the columns of a matrix of so many, as rows."""
    return [[row[at] for row in rows] for at in range(count)]


def plus(turns: Row, step: Row) -> list[float]:
    """Return the sum of two rows, number by number."""
    return [a + b for a, b in zip(turns, step, strict=True)]


def root_mean_square(row: Row) -> float:
    """Return the root of the mean of the squares."""
    return sqrt(dot(row, row) / len(row))


def _ridged(slope: Rows, ridge: Row, push: Row) -> list[float]:
    """Return x so that ``(slope.T slope + diag(ridge)) x`` is `push`.

    There are few readings and many dials, so the equations are put as one a reading.

    References
    ----------
    M. A. Woodbury, Inverting modified matrices, 1950.
    """
    thin = [[one / by for one, by in zip(row, ridge, strict=True)] for row in slope]
    small = [
        [dot(row, other) + (1.0 if i == k else 0.0) for k, other in enumerate(slope)]
        for i, row in enumerate(thin)
    ]
    share = solve(small, [dot(row, push) for row in thin])
    return [
        one / by - dot(column, share)
        for one, by, column in zip(push, ridge, across(thin, len(push)), strict=True)
    ]


def _tried(residual: Callable[[Row], Row], turns: Row) -> Row | None:
    """Return the residuals, or nothing where the card leaves its range or nothing balances."""
    try:
        return residual(turns)
    except CircuitError:
        return None


def _cost(off: Row, turns: Row) -> float:
    return dot(off, off) + dot(turns, turns)
