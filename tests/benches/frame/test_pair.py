"""Two benches in one row: linked controls move together, others alone."""

import pytest
from fuelcircuits import side_by_side
from fuelcircuits.benches.gauges.bench import GaugesBench
from fuelcircuits.errors import RangeError

from tests.benches.frame.tank import TankBench


def test_linked_controls_move_together_either_way_and_others_alone() -> None:
    first, second = TankBench(filled=0.2, pressure=20e3), TankBench()
    row = side_by_side(first, second, linked=["filled", "system"])
    assert row.children == (first.widget(), second.widget())
    assert (second.filled, second.pressure) == (0.2, 30e3)
    second.filled = 0.9
    second.widget().set_state({"system": "US"})
    assert (first.filled, first.system, first.pressure) == (0.9, "US", 20e3)
    assert first.widget().readings == second.widget().readings


def test_control_that_only_one_has_is_refused() -> None:
    with pytest.raises(RangeError, match="linked must name controls of both benches, got filled"):
        side_by_side(TankBench(), GaugesBench(), linked=["filled"])
