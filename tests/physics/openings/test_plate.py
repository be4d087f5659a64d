"""The open area of a plate, against its shadow measured by numerical integration."""

from itertools import pairwise
from math import asin, cos, pi, radians, sin, sqrt

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN, angle_for_area, edge_on_angle, open_area
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

BORE, SHAFT = 32e-3, 8e-3


def lit(bore: float, shaft: float, closed: float, angle: float) -> float:
    """Return the area that light along the bore passes, strip by strip across the shaft."""
    radius, squeeze = bore / 2, cos(angle) / cos(closed)

    def strip(height: float) -> float:
        if height < shaft / 2:
            return 0.0
        plate = max(radius**2 - (height / squeeze) ** 2, 0.0) if squeeze > 0 else 0.0
        return sqrt(radius**2 - height**2) - sqrt(plate)

    corners = [shaft / 2, max(radius * squeeze, shaft / 2)]
    return float(4 * quad(strip, 0, radius, points=corners, limit=400, epsabs=1e-12)[0])


@pytest.mark.parametrize("shaft", [2e-3, 8e-3, 12e-3])
@pytest.mark.parametrize("closed", [0.0, 10.0, 20.0])
@pytest.mark.parametrize("degrees", [20.5, 30.0, 45.0, 60.0, 75.0, 89.0])
def test_open_area_is_the_light_that_passes(shaft: float, closed: float, degrees: float) -> None:
    plate = BORE, shaft, radians(closed), radians(degrees)
    assert open_area(*plate) == pytest.approx(lit(*plate), rel=1e-6)


@pytest.mark.parametrize("angle", [0.0, 0.1, 0.2])
def test_closed_plate_fills_the_bore(angle: float) -> None:
    assert open_area(BORE, SHAFT, 0.2, angle) == pytest.approx(0.0, abs=1e-18)


def test_plate_on_edge_leaves_the_bore_less_the_shaft() -> None:
    # Disc less a strip of the shaft's width across its middle.
    half = asin(SHAFT / BORE)
    strip = BORE**2 / 2 * (half + sin(half) * cos(half))
    assert open_area(BORE, SHAFT, 0.2, OPEN) == pytest.approx(pi / 4 * BORE**2 - strip, rel=1e-12)


def test_nothing_more_opens_once_the_plate_is_behind_its_shaft() -> None:
    edge = edge_on_angle(BORE, SHAFT, 0.2)
    areas = [open_area(BORE, SHAFT, 0.2, angle) for angle in linspace(edge, OPEN, 9)]
    assert areas == pytest.approx([areas[0]] * 9, rel=1e-12)


@given(st.floats(0.0, 0.35), st.floats(0.0, 1.0))
def test_angle_inverts_the_area(closed: float, share: float) -> None:
    area = share * open_area(BORE, SHAFT, closed, OPEN)
    angle = angle_for_area(BORE, SHAFT, closed, area)
    assert open_area(BORE, SHAFT, closed, angle) == pytest.approx(area, abs=1e-15)


def test_further_is_wider() -> None:
    angles = linspace(0.2, edge_on_angle(BORE, SHAFT, 0.2), 500)
    areas = [open_area(BORE, SHAFT, 0.2, angle) for angle in angles]
    assert all(before < after for before, after in pairwise(areas))


def test_more_than_the_bore_is_refused() -> None:
    with pytest.raises(RangeError, match="open area must be between 0 and"):
        angle_for_area(BORE, SHAFT, 0.2, 1e-3)


@pytest.mark.parametrize("bad", [-0.1, 1.7, float("nan")])
def test_angle_outside_a_quarter_turn_is_refused(bad: float) -> None:
    with pytest.raises(RangeError, match="plate angle must be between 0 and"):
        open_area(BORE, SHAFT, 0.2, bad)
