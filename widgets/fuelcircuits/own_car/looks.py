"""Every yes-or-no test that a driveway has, as `looks.toml` says them, and what was answered."""

import tomllib
from collections.abc import Collection, Iterator, Mapping, Sequence
from difflib import get_close_matches
from importlib.resources import files
from math import log
from operator import add
from types import MappingProxyType

from fuelcircuits.diagnosis.check import ENGINE_RUNS, PETROL_OPEN
from fuelcircuits.diagnosis.table import SEVERITIES, Row
from fuelcircuits.errors import RangeError
from fuelcircuits.own_car.look import Look
from fuelcircuits.quantities.naming import names_in

__all__ = ["LOOKS", "answers_of", "left", "seen_likelihood"]

YES, NO = ("yes", "y", "ja", "true"), ("no", "n", "nein", "false")


def _written() -> Iterator[Look]:
    """Yield the looks in the order of their file."""
    text = (files(__package__) / "looks.toml").read_text("utf-8")
    for one in tomllib.loads(text)["look"]:
        care = one.pop("caution", "").format(runs=ENGINE_RUNS, petrol=PETROL_OPEN)
        yield Look(**one | {"caution": care, "answered_by": tuple(one.get("answered_by", ()))})


LOOKS: Mapping[str, Look] = MappingProxyType({look.name: look for look in _written()})
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
