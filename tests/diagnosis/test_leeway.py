"""Weighing where the card itself is in doubt, against scipy's normal and chi-square laws."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.diagnosis.chance import allowed
from fuelcircuits.diagnosis.ranking import rank, weigh
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.diagnosis.worth import worth
from scipy.stats import chi2, multivariate_normal, norm

from tests.diagnosis.test_ranking import table

LEEWAY = [[4.0, 1.5, 0.0], [1.5, 1.0, 0.0], [0.0, 0.0, 0.0]]
MEANS = ((0.0, 0.0, 0.0), (3.0, 1.0, 0.0), (0.0, 4.0, 2.0))
READINGS = {"short": 2.0, "long": 1.5}


def test_readings_hang_together_by_what_the_card_leaves_open() -> None:
    spread = np.eye(2) + np.array(LEEWAY)[:2, :2]
    dense = [multivariate_normal.pdf([2.0, 1.5], mean[:2], spread) for mean in MEANS]
    found = weigh(table(*MEANS), READINGS, LEEWAY).shares
    assert found == pytest.approx(np.array(dense) / np.sum(dense), rel=1e-9)


def test_a_further_reading_is_foreseen_from_those_made() -> None:
    """What two suspects tell apart in a third reading, once the second has told of the card."""
    made = table((0.0, 0.0), (0.0, 3.0))
    leeway = [[4.0, 4.0], [4.0, 4.0]]
    (found,) = worth(weigh(made, {"short": 1.0}, leeway))
    left = np.sqrt(1.0 + 4.0 - 16.0 / 5.0)
    places = np.linspace(-12, 16, 4001)
    parts = [norm.pdf(places, 0.8 + mean, left) / 2 for mean in (0.0, 3.0)]
    whole = parts[0] + parts[1]
    bits = np.trapezoid(sum(p * np.log2(2 * p / whole) for p in parts), places)
    assert found.bits == pytest.approx(bits, abs=2e-3)


@pytest.mark.parametrize("count", [1, 2, 5, 12])
def test_what_is_allowed_is_what_chance_leaves(count: int) -> None:
    assert allowed(count) == pytest.approx(chi2.isf(norm.sf(3.0), count), rel=0.03)


def test_nothing_wrong_is_as_likely_beforehand_as_all_faults_together() -> None:
    made = table((0.0,), (0.0,), (0.0,))._replace(suspects=("a", HEALTHY, "b"))
    first, *others = rank(weigh(made, {"short": 0.3}))
    assert first.name == HEALTHY
    assert first.probability == pytest.approx(0.5)
    assert [one.probability for one in others] == pytest.approx([0.25, 0.25])
    share = weigh(made, {"short": 0.3}, healthy=0.2).shares
    assert share == pytest.approx([0.4, 0.2, 0.4])


def test_a_suspect_explains_until_it_is_too_far() -> None:
    made = table((0.0,), (30.0,))
    limit = float(np.sqrt(allowed(1)))
    assert weigh(made, {"short": limit - 0.01}).explains("a")
    assert not weigh(made, {"short": limit + 0.01}).explained
    wide = [[3.0]]
    assert weigh(made, {"short": 2 * limit - 0.01}, wide).explains("a")


def test_the_odd_reading_is_the_one_to_take_again() -> None:
    made = table((0.0, 0.0, 0.0), (5.0, 5.0, 5.0))
    weighed = weigh(made, {"short": 0.2, "long": 9.0, "dull": 0.1})
    assert weighed.again() == "long"
    assert weighed.misfits("a")[0].check == "long"
    assert weighed.misfits("a")[0].by == pytest.approx(9.0)
    assert [one.check for one in weighed.misfits("b")] == ["dull", "short", "long"]


def test_a_reading_is_held_against_what_the_others_tell_of_the_card() -> None:
    spread = np.eye(2) + np.array(LEEWAY)[:2, :2]
    found = weigh(table(*MEANS), READINGS, LEEWAY).misfits("a")
    expected = spread[0, 1] / spread[1, 1] * 1.5
    left = spread[0, 0] - spread[0, 1] ** 2 / spread[1, 1]
    assert dict(found)["short"] == pytest.approx((2.0 - expected) / np.sqrt(left))


@pytest.mark.parametrize("case", range(6))
def test_the_reading_to_take_again_is_the_one_without_which_the_rest_fit_best(case: int) -> None:
    random = np.random.default_rng(case)
    made = table(*map(tuple, random.normal(scale=3.0, size=(3, 3)).tolist()))
    root = random.normal(size=(3, 2))
    leeway = (root @ root.T).tolist()
    read = dict(
        zip(("short", "long", "dull"), random.normal(scale=3.0, size=3).tolist(), strict=True)
    )

    def left(name: str) -> float:
        others = {other: value for other, value in read.items() if other != name}
        return min(map(min, weigh(made, others, leeway).squares))

    assert weigh(made, read, leeway).again() == min(read, key=left)


UNIT, ROUGH = 2.0, 0.5


def test_units_and_doubt_of_how_far_a_fault_moves_enter_the_covariance() -> None:
    made = table((1.0, 0.0), (4.0, -1.0), (-2.0, 3.0))
    made = made._replace(checks=tuple(replace(check, floor=UNIT) for check in made.checks))
    for rows in made.expected[:1]:
        rows[1:] = [[9.0, 9.0]] * (len(rows) - 1)
    leeway = [[4.0, 1.5], [1.5, 1.0]]
    seen = [[-0.1 * k - at for k in range(10)] for at in range(3)]
    found = weigh(made, {"short": 2.0, "long": 1.5}, leeway, rough=ROUGH, seen=seen)
    dense = np.array(
        [
            [
                multivariate_normal.pdf(
                    [2.0, 1.5],
                    mean,
                    np.diag(UNIT**2 + (ROUGH * (np.array(mean) - [1.0, 0.0])) ** 2) + leeway,
                )
                * np.exp(seen[at][k])
                for k, mean in enumerate(rows)
            ]
            for at, rows in enumerate(made.expected)
        ]
    )
    assert np.array(found.likely) == pytest.approx(dense / dense.sum(), rel=1e-9)


def test_the_prior_of_two_suspects_is_the_one_that_is_asked_for() -> None:
    made = table((0.0,), (0.0,))._replace(suspects=(HEALTHY, "a"))
    assert weigh(made, {"short": 0.3}, healthy=0.2).shares == pytest.approx([0.2, 0.8])
