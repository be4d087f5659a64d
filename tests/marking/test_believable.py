"""How far a value may lie from what is expected and still be carried on, on either side of zero."""

import pytest
from fuelmarks.marking.carrying import believable
from fuelmarks.questions import Exercise


@pytest.mark.parametrize(
    ("low", "high", "inside", "outside"),
    [
        (2.0, 50.0, (0.2, 2.0, 500.0), (0.19, 501.0, -2.0)),
        (-50.0, -2.0, (-500.0, -2.0, -0.2), (-501.0, -0.19, 2.0)),
        (-3.0, 4.0, (-30.0, 0.0, 40.0), (-31.0, 41.0)),
        (0.0, 4.0, (0.0, 40.0), (-0.1, 41.0)),
        (-3.0, 0.0, (-30.0, 0.0), (-31.0, 0.1)),
    ],
)
def test_a_value_may_lie_ten_times_off_the_ends(
    low: float, high: float, inside: tuple[float, ...], outside: tuple[float, ...]
) -> None:
    asked = Exercise(
        id="push",
        ask="",
        unit="N",
        reference=lambda given, earlier: 1.0,
        tolerance=0.02,
        why="",
        low=low,
        high=high,
        points=1,
        outcomes=(),
    )
    assert [believable(asked, value, 10.0) for value in inside] == [True] * len(inside)
    assert [believable(asked, value, 10.0) for value in outside] == [False] * len(outside)
    assert [believable(asked, end) for end in (low, high)] == [True, True]
