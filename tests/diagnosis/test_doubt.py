"""Ranking where readings are in doubt by unlike amounts, against scipy's normal distribution."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from fuelcircuits.diagnosis.checks import CHECKS
from fuelcircuits.diagnosis.ranking import Suspicion, rank, weigh
from fuelcircuits.diagnosis.table import SEVERITIES, SOLVED, Table, spread
from scipy.stats import norm

FLOOR, SHARE = 1.0, 0.5
MADE_UP = tuple(
    replace(CHECKS[0], name=name, floor=FLOOR, share=SHARE) for name in ("short", "long", "dull")
)


def table(*means: tuple[float, ...]) -> Table:
    """Return suspects that show the same at every severity, doubted more the more they show."""
    names = [f"suspect {number}" for number in range(len(means))]
    solved: Any = [[list(mean) for _ in SOLVED] for mean in means]
    return spread(MADE_UP[: len(means[0])], names, solved)


def ranked(table: Table, readings: dict[str, float]) -> list[Suspicion]:
    return rank(weigh(table, readings))


def by_suspect(table: Table, readings: dict[str, float]) -> list[float]:
    return weigh(table, readings).shares


def density(reading: float, mean: float) -> float:
    return float(norm.pdf(reading, mean, np.hypot(FLOOR, SHARE * mean)))


@pytest.mark.parametrize("reading", [-2.0, 1.0, 3.0, 5.0, 40.0])
def test_a_suspect_in_more_doubt_gains_far_away_and_loses_close_by(reading: float) -> None:
    dense = np.array([density(reading, 0.0), density(reading, 4.0)])
    found = by_suspect(table((0.0,), (4.0,)), {"short": reading})
    assert found == pytest.approx(dense / dense.sum(), rel=1e-9)


def test_every_reading_brings_its_own_doubt() -> None:
    means, readings = ((0.0, 6.0), (4.0, 1.0)), {"short": 2.0, "long": 3.0}
    dense = np.array([density(2.0, short) * density(3.0, long) for short, long in means])
    assert by_suspect(table(*means), readings) == pytest.approx(dense / dense.sum(), rel=1e-9)


def test_readings_that_fit_nobody_are_still_weighed() -> None:
    first, second = by_suspect(table((0.0,), (-0.1,)), {"short": 60.0})
    wide = np.hypot(FLOOR, SHARE * 0.1)
    ratio = np.exp(-(60.0**2) / 2 + (60.1 / wide) ** 2 / 2) * wide
    assert first / second == pytest.approx(ratio, rel=1e-9)


def test_severity_is_what_the_readings_make_likely() -> None:
    solved: Any = [[[8.0 * severity] for severity in SOLVED], [[30.0]] * len(SOLVED)]
    first = ranked(spread(MADE_UP[:1], ["a", "b"], solved), {"short": 3.0})[0]
    dense = np.array([density(3.0, 8.0 * severity) for severity in SEVERITIES])
    other = len(SEVERITIES) * density(3.0, 30.0)
    assert first.name == "a"
    assert first.probability == pytest.approx(dense.sum() / (dense.sum() + other), rel=1e-9)
    assert first.severity == pytest.approx(dense @ np.array(SEVERITIES) / dense.sum(), rel=1e-9)


def test_severity_of_an_unlikely_suspect_is_its_own() -> None:
    _, second = ranked(table((0.0,), (30.0,)), {"short": 0.0})
    assert second.severity == pytest.approx(np.mean(SEVERITIES))


def test_misfit_is_the_root_mean_square_over_the_readings() -> None:
    first = ranked(table((0.0, 4.0, 0.0), (900.0,) * 3), {"short": 1.0, "long": -4.0, "dull": 0.5})[
        0
    ]
    off = np.array([1.0, 8.0 / np.hypot(FLOOR, SHARE * 4.0), 0.5])
    assert first.misfit == pytest.approx(np.sqrt(np.mean(off**2)))


def test_without_readings_nothing_is_off() -> None:
    assert [one.misfit for one in ranked(table((0.0,), (9.0,)), {})] == [0.0, 0.0]


def test_what_cannot_be_read_is_off_by_any_amount() -> None:
    assert [one.misfit for one in ranked(table((0.0,), (np.nan,)), {"short": 0.0})] == [0.0, np.inf]


def test_alike_suspects_keep_the_order_of_the_table() -> None:
    made = table(*((0.0,) for _ in range(40)))
    assert [one.name for one in ranked(made, {"short": 0.0})] == list(made.suspects)
