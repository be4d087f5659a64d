"""Controls: bounds kept in every unit, and what the browser is told."""

import pytest
from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.errors import RangeError

from tests.benches.frame.tank import TankBench


@pytest.mark.parametrize("value", [1.9e3, 60.1e3, float("nan")])
def test_value_out_of_bounds_gets_name_rule_and_value(value: float) -> None:
    with pytest.raises(RangeError, match=r"fuel pressure must be between 2000 and 60000.*got"):
        TankBench().pressure = value


@pytest.mark.parametrize("value", ["high", None, [3e4]])
def test_value_that_is_no_number_is_refused(value: object) -> None:
    with pytest.raises(RangeError, match="fuel pressure must be a number, got"):
        TankBench().put(pressure=value)


@pytest.mark.parametrize(
    "control", FloatBowlBench.controls().values(), ids=lambda control: control.name
)
@pytest.mark.parametrize("system", ["SI", "US"])
def test_shown_bounds_are_whole_steps_inside_the_real_ones(control: Control, system: str) -> None:
    side = control.spec(control.low)["sides"][system]
    low, high = ((side[end] - side["offset"]) / side["factor"] for end in ("low", "high"))
    assert control.low <= low * (1 + 1e-9)
    assert high <= control.high * (1 + 1e-9)
    assert side["low"] / side["step"] == pytest.approx(round(side["low"] / side["step"]))
    assert 20 <= (side["high"] - side["low"]) / side["step"] + 3 <= 200


def test_digits_shown_tell_one_step_from_the_next() -> None:
    sides = TankBench.pressure.spec(30e3)["sides"]
    assert (sides["SI"]["digits"], sides["US"]["digits"]) == (1, 1)


@pytest.mark.parametrize(
    ("system", "old", "new", "next_one"),
    [
        ("SI", 30e3, 30.5e3, 31e3),
        ("SI", 30e3, 29.5e3, 29e3),
        ("US", 4.4 * 6894.757, 4.5 * 6894.757, 4.6 * 6894.757),  # NIST SP 811, appendix B.8
    ],
)
def test_one_more_key_leads_one_step_on(
    system: System, old: float, new: float, next_one: float
) -> None:
    assert TankBench.pressure.onward(old, new, system) == pytest.approx(next_one, rel=1e-6)


def test_no_key_leads_out_of_bounds() -> None:
    assert TankBench.pressure.onward(59.5e3, 60e3, "SI") is None
    assert TankBench.pressure.onward(2.5e3, 2e3, "SI") is None


def test_controls_come_in_the_order_of_the_class() -> None:
    assert list(FloatBowlBench.controls())[:3] == ["fuel_pressure", "seat_bore", "float_setting"]
