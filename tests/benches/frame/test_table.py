"""Tables: cubic where it can be, straight where it must, and never across a change of kind."""

import numpy as np
import pytest
from fuelcircuits.benches.frame.table import Table, tabulate

from tests.benches.frame.law import LawBench


@pytest.fixture(scope="module")
def tank() -> Table:
    return tabulate(LawBench())


def level(table: Table, part: float) -> float:
    return float(table.at({"filled": part})["readings"][0]["value"])


@pytest.mark.parametrize("part", [0.47, 0.52, 0.72, 0.99])
def test_a_cube_is_blended_as_it_is(tank: Table, part: float) -> None:
    assert tank.settled({"filled": part}) == {"filled": part}
    assert level(tank, part) == pytest.approx(part**3, rel=2e-4)  # sixteen bits of the whole


@pytest.mark.parametrize(("part", "place"), [(0.82, 0.8), (0.84, 0.85), (0.31, 0.3), (0.34, 0.35)])
def test_where_kind_or_slope_changes_a_setting_goes_to_the_nearest_place(
    tank: Table, part: float, place: float
) -> None:
    assert tank.settled({"filled": part}) == pytest.approx({"filled": place})


def test_sentences_are_blended_too(tank: Table) -> None:
    words = tank.at({"filled": 0.52})["words"]
    for side, true, unit in (("SI", 140.608, "mm"), ("US", 5.5357, "in")):
        *_, number, named = words[side]["verdict"].strip(".").split()
        assert float(number) == pytest.approx(true, rel=3e-4)
        assert named == unit


def test_a_place_gives_what_the_model_gives(tank: Table) -> None:
    assert level(tank, 0.5) == pytest.approx(0.5**3, rel=2e-4)
    assert np.all([place in tank.axes[0].places for place in (0.0, 0.5, 1.0)])
