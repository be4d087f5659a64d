"""The two checks of numbers, and entries of a card."""

from dataclasses import dataclass
from math import inf, nan

import pytest
from fuelcircuits.errors import RangeError, between, positive
from fuelcircuits.physics.entry import Section, entry


@dataclass(frozen=True)
class Seat(Section):
    seat_bore: float = entry("m", 0.5e-3, 6e-3, "bore of the needle seat", 2e-3)


def test_a_number_in_its_range_comes_back() -> None:
    assert positive("flow", 2.5) == 2.5
    assert [between("share", each, 0, 1) for each in (0, 0.25, 1)] == [0, 0.25, 1]


@pytest.mark.parametrize("value", [0.0, -1.0, inf, nan])
def test_what_is_not_positive_is_refused_with_name_rule_and_value(value: float) -> None:
    with pytest.raises(RangeError, match=rf"^flow must be positive, got {value} kg/s$"):
        positive("flow", value, "kg/s")


@pytest.mark.parametrize("value", [-0.1, 1.5, inf, nan])
def test_what_is_out_of_its_range_is_refused_with_name_rule_and_value(value: float) -> None:
    with pytest.raises(RangeError, match=rf"^share must be between 0 and 1, got {value}$"):
        between("share", value, 0.0, 1.0)


@pytest.mark.parametrize("bore", [-1e-3, 7e-3, nan])
def test_a_section_refuses_an_entry_outside_its_range(bore: float) -> None:
    with pytest.raises(
        RangeError, match=rf"^seat bore must be between 0.0005 and 0.006 m, got {bore} m$"
    ):
        Seat(bore)
