"""Newton's method, and the slower ways: on equations whose roots are known or found by scipy."""

from collections.abc import Callable
from math import atan, exp, log, pi, sqrt
from typing import NamedTuple

import numpy as np
import pytest
from fuelcircuits.physics.numerics.continuation import followed, settled
from fuelcircuits.physics.numerics.newton import GOOD, newton
from scipy.optimize import root

Row = list[float]


class Rest(NamedTuple):
    """What is left over of each equation, each measured by 1."""

    level: Row
    measure: Row


class Equations:
    """Some functions that are to be nought, their slopes by differences; counts what it does."""

    def __init__(self, function: Callable[[Row], Row], count: int, reach: float = 1e3) -> None:
        self.function, self.reach, self.scale = function, [reach] * count, [1.0] * count
        self.learnt = 0

    def left(self, unknowns: Row) -> Rest:
        return Rest(self.function(unknowns), [1.0] * len(unknowns))

    def slopes(self, unknowns: Row, here: Rest) -> list[Row]:
        self.learnt += 1
        columns = []
        for k, x in enumerate(unknowns):
            moved = self.function([*unknowns[:k], x + 1e-7, *unknowns[k + 1 :]])
            columns.append([(b - a) / 1e-7 for a, b in zip(here.level, moved, strict=True)])
        return [list(row) for row in zip(*columns, strict=True)]


def curved(x: Row) -> Row:
    """Three equations that are anything but straight."""
    return [
        x[0] ** 2 + x[1] - 3.0 + 0.1 * x[2],
        sqrt(x[1]) + exp(-x[0]) - 1.2 * x[2],
        log(x[2]) + x[0] * x[1] - 1.7,
    ]


def test_root_of_three_curved_equations_is_that_of_scipy() -> None:
    found = newton(Equations(curved, 3), [1.0, 1.0, 1.0])
    assert found is not None
    assert found.error <= GOOD
    theirs = root(lambda x: np.array(curved(x.tolist())), [1.0, 1.0, 1.0], tol=1e-13)
    assert found.unknowns == pytest.approx(theirs.x.tolist(), rel=1e-9)


def test_slopes_learnt_nearby_serve_again() -> None:
    first = newton(Equations(curved, 3), [1.0, 1.0, 1.0])
    assert first is not None
    moved = Equations(lambda x: [one - 0.01 for one in curved(x)], 3)
    found = newton(moved, first.unknowns, learnt=first.inverse)
    assert found is not None
    assert found.error <= GOOD
    assert moved.learnt == 0


def test_wrong_slopes_are_learnt_anew() -> None:
    system = Equations(curved, 3)
    wrong = [[-1.0 if i == j else 0.0 for j in range(3)] for i in range(3)]
    found = newton(system, [1.0, 1.0, 1.0], learnt=wrong)
    assert found is not None
    assert found.error <= GOOD
    assert system.learnt > 0


def test_what_is_to_be_left_over_is() -> None:
    found = newton(Equations(curved, 3), [1.0, 1.0, 1.0], held=[0.2, -0.1, 0.05])
    assert found is not None
    assert curved(found.unknowns) == pytest.approx([0.2, -0.1, 0.05], abs=1e-9)


@pytest.mark.parametrize(
    "function",
    [
        pytest.param(lambda x: [log(x[0] - 1.0) + 2.0], id="domain"),
        pytest.param(lambda x: [1.0 / (x[0] - 1.0 + abs(x[0] - 1.0)) - 3.0], id="division"),
        pytest.param(lambda x: [exp(1e3 * (2.0 - x[0])) - 2.0], id="overflow"),
    ],
)
def test_a_step_to_where_nothing_can_be_computed_is_cut(function: Callable[[Row], Row]) -> None:
    found = newton(Equations(function, 1), [3.0], most_steps=3000)
    assert found is not None
    assert found.error <= GOOD


def test_a_start_where_nothing_can_be_computed_gives_none() -> None:
    system = Equations(lambda x: [log(x[0] - 1.0)], 1)
    assert newton(system, [0.5]) is None
    assert followed(system, [0.5]) is None
    assert settled(system, [0.5], 1.0) is None


def test_equations_of_which_one_follows_from_another_end_where_they_are() -> None:
    found = newton(
        Equations(lambda x: [x[0] + x[1] - 3.0, 2.0 * (x[0] + x[1]) - 7.0], 2), [1.0, 1.0]
    )
    assert found is not None
    assert found.error > GOOD


def test_unknowns_stay_positive() -> None:
    asked: list[float] = []

    def far(x: Row) -> Row:
        asked.append(x[0])
        return [atan(x[0] - 0.01)]

    found = newton(Equations(far, 1), [2.0])
    assert found is not None
    assert found.unknowns[0] == pytest.approx(0.01)
    assert min(asked) > 0.0


def test_a_row_of_easier_equations_ends_at_the_root() -> None:
    found = followed(Equations(curved, 3), [3.0, 5.0, 0.5])
    straight = newton(Equations(curved, 3), [1.0, 1.0, 1.0])
    assert found is not None
    assert straight is not None
    assert found.unknowns == pytest.approx(straight.unknowns, rel=1e-9)


def test_a_row_that_ends_before_the_answer_gives_none() -> None:
    assert followed(Equations(lambda x: [(x[0] - 3.0) ** 2 + 1.0], 1), [5.0]) is None


def test_damped_steps_go_where_the_rests_drive_the_unknowns() -> None:
    """A rest falls as its unknown rises; each is to come to rest at pi."""
    slow = settled(Equations(lambda x: [atan(pi - one) for one in x], 2), [20.0, 0.5], 1.0)
    assert slow is not None
    assert slow.unknowns == pytest.approx([pi, pi], abs=1e-3)
