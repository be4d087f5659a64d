"""Ranking and worth against scipy's normal distribution and quadrature, on tables made up."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.diagnosis.checks import CHECKS
from fuelcircuits.diagnosis.plan import cheapest, left
from fuelcircuits.diagnosis.ranking import Suspicion, rank, weigh
from fuelcircuits.diagnosis.table import SEVERITIES, Table
from fuelcircuits.diagnosis.worth import Worth, worth
from fuelcircuits.errors import ConvergenceError, RangeError
from scipy.integrate import quad
from scipy.stats import norm

MADE_UP = tuple(
    replace(CHECKS[0], name=name, minutes=minutes, floor=1.0, share=0.0)
    for name, minutes in (("short", 3.0), ("long", 30.0), ("dull", 5.0))
)


def table(*means: tuple[float, ...]) -> Table:
    """Return suspects a, b, c… that show the same at every severity."""
    names = tuple("abcdef"[: len(means)])
    expected = [[list(mean) for _ in SEVERITIES] for mean in means]
    return Table(MADE_UP[: len(means[0])], names, expected)


def ranked(table: Table, readings: dict[str, float]) -> list[Suspicion]:
    return rank(weigh(table, readings))


def by_suspect(table: Table, readings: dict[str, float]) -> list[float]:
    return weigh(table, readings).shares


def told(table: Table, readings: dict[str, float]) -> list[Worth]:
    return worth(weigh(table, readings))


def mutual_information(means: list[float]) -> float:
    """Return that of a suspect and a reading of unit doubt [bit], by quadrature."""

    def told_at(place: float) -> float:
        parts = [norm.pdf(place, mean) / len(means) for mean in means]
        whole = sum(parts)
        return float(sum(p * np.log2(p * len(means) / whole) for p in parts if p > 0))

    return float(quad(told_at, min(means) - 9, max(means) + 9, limit=400)[0])


@pytest.mark.parametrize("reading", [-1.0, 0.3, 2.0, 7.0])
def test_probabilities_are_those_of_bayes_rule(reading: float) -> None:
    means = (0.0, 1.5, 4.0)
    density = norm.pdf(reading, np.array(means))
    found = by_suspect(table(*((mean,) for mean in means)), {"short": reading})
    assert found == pytest.approx(density / density.sum(), rel=1e-9)


def test_two_readings_multiply() -> None:
    both = by_suspect(table((0.0, 0.0), (1.0, 2.0)), {"short": 0.4, "long": 0.9})
    density = norm.pdf(0.4, [0.0, 1.0]) * norm.pdf(0.9, [0.0, 2.0])
    assert both == pytest.approx(density / density.sum(), rel=1e-9)


def test_without_readings_all_are_alike() -> None:
    assert by_suspect(table((0.0,), (9.0,)), {}) == pytest.approx([0.5, 0.5])


def test_the_likeliest_comes_first_with_its_misfit() -> None:
    first, second = ranked(table((0.0,), (3.0,)), {"short": 2.5})
    assert (first.name, second.name) == ("b", "a")
    assert (first.misfit, second.misfit) == pytest.approx((0.5, 2.5))


def test_a_state_that_cannot_be_read_is_ruled_out() -> None:
    made = table((0.0,), (np.nan,))
    assert by_suspect(made, {"short": 0.0}) == pytest.approx([1.0, 0.0])
    assert left(made, {"short": 0.0}) == ("a",)


def test_a_suspect_that_can_be_read_at_one_severity_only_is_ranked_by_it() -> None:
    made = table((0.0,), (1.0,))
    made.expected[1][1:] = [[np.nan]] * (len(SEVERITIES) - 1)
    _, second = ranked(made, {"short": 1.0})
    assert (second.name, second.misfit) == ("b", 0.0)
    assert second.severity == pytest.approx(SEVERITIES[0])


def test_readings_that_nobody_can_have_are_refused() -> None:
    with pytest.raises(RangeError, match="readings must fit some suspect, got"):
        ranked(table((np.nan,)), {"short": 0.0})


@pytest.mark.parametrize(
    ("readings", "message"),
    [
        ({"nose": 1.0}, "check must be one of short, got 'nose'"),
        ({"short": np.nan}, "short must be a finite number, got nan"),
    ],
)
def test_bad_readings_are_refused(readings: dict[str, float], message: str) -> None:
    with pytest.raises(RangeError, match=message):
        ranked(table((0.0,), (1.0,)), readings)


@pytest.mark.parametrize("means", [[0.0, 0.5], [0.0, 2.0], [0.0, 20.0], [0.0, 1.0, 5.0, 5.1]])
def test_worth_is_the_mutual_information(means: list[float]) -> None:
    (found,) = told(table(*((mean,) for mean in means)), {})
    assert found.bits == pytest.approx(mutual_information(means), abs=2e-3)


def test_a_check_that_tells_nothing_is_worth_nothing_and_comes_last() -> None:
    *_, last = told(table((0.0, 0.0, 5.0), (9.0, 9.0, 5.0)), {})
    assert last.check.name == "dull"
    assert last.bits == pytest.approx(0.0, abs=1e-6)


def test_among_two_suspects_only_what_tells_these_apart_is_worth_anything() -> None:
    whole = weigh(table((0.0, 0.0), (0.0, 20.0), (20.0, 0.0)), {})
    bits = {one.check.name: one.bits for one in worth(whole.among(["a", "b"]))}
    assert bits == pytest.approx({"short": 0.0, "long": 1.0}, abs=2e-3)
    assert whole.among(["a", "b"]).shares == pytest.approx([0.5, 0.5, 0.0])


def test_the_quicker_of_two_alike_comes_first() -> None:
    assert [one.check.name for one in told(table((0.0, 0.0), (9.0, 9.0)), {})] == ["short", "long"]


def test_a_suspect_three_uncertainties_off_is_ruled_out() -> None:
    made = table((0.0,), (5.0,), (6.0,))
    assert left(made, {"short": 2.9}) == ("a", "b")
    assert left(made, {"short": 9.5}) == ()


def test_the_cheapest_proof_leaves_one() -> None:
    made = table((0.0, 0.0, 0.0), (9.0, 9.0, 0.0), (0.0, 9.0, 9.0))
    assert cheapest(made, {"short": 0.0, "long": 0.0, "dull": 0.0}) == (("short", "dull"), 8.0)


def test_no_proof_is_an_error() -> None:
    with pytest.raises(ConvergenceError, match="readings must leave one suspect, got"):
        cheapest(table((0.0,), (1.0,)), {"short": 0.5})
