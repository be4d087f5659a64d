"""Where a rising balance is nought: against closed forms, and at the ends of its range."""

import pytest
from fuelcircuits.physics.motion.rising import rising


def found(nought: float, *, start: float = 0.3, high: float = 1.0) -> float:
    """Return where a cubic that rises by 2 or more passes a place."""
    return rising(
        lambda x: 2.0 * (x - nought) + (x - nought) ** 3,
        start,
        2.0,
        0.0,
        high,
        name="cubic",
        tolerance=1e-12,
    )


@pytest.mark.parametrize("nought", [0.0, 0.05, 0.3, 0.31, 0.7, 1.0])
def test_the_nought_of_a_cubic_is_found(nought: float) -> None:
    assert found(nought) == pytest.approx(nought, abs=1e-12)


def test_a_straight_balance_that_rises_no_faster_than_said_is_met_too() -> None:
    here = rising(lambda x: 3.0 * (x - 0.4), 0.1, 3.0, 0.0, 1.0, name="line", tolerance=1e-12)
    assert here == pytest.approx(0.4, abs=1e-12)


@pytest.mark.parametrize(("nought", "end"), [(-0.2, 0.0), (1.4, 1.0)])
def test_where_it_is_nowhere_nought_the_nearer_end_counts(nought: float, end: float) -> None:
    assert found(nought) == end


def test_few_places_are_tried_where_little_has_changed() -> None:
    tried = list[float]()

    def balance(place: float) -> float:
        tried.append(place)
        return 2.0 * (place - 0.3001) + (place - 0.3001) ** 3

    rising(balance, 0.3, 2.0, 0.0, 1.0, name="cubic", tolerance=1e-9)
    assert len(tried) <= 6
