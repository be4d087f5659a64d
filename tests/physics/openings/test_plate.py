"""The open area of a plate, against its shadow measured by numerical integration."""

import numpy as np
import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.openings.plate import OPEN, angle_for_area, edge_on_angle, open_area
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

BORE, SHAFT = 32e-3, 8e-3


def lit(bore: float, shaft: float, closed: float, angle: float) -> float:
    """Return the area that light along the bore passes, strip by strip across the shaft."""
    radius, squeeze = bore / 2, np.cos(angle) / np.cos(closed)

    def strip(height: float) -> float:
        if height < shaft / 2:
            return 0.0
        plate = max(radius**2 - (height / squeeze) ** 2, 0.0) if squeeze > 0 else 0.0
        return float(np.sqrt(radius**2 - height**2) - np.sqrt(plate))

    corners = [shaft / 2, max(radius * squeeze, shaft / 2)]
    return float(4 * quad(strip, 0, radius, points=corners, limit=400, epsabs=1e-12)[0])


@pytest.mark.parametrize("shaft", [2e-3, 8e-3, 12e-3])
@pytest.mark.parametrize("closed", [0.0, 10.0, 20.0])
@pytest.mark.parametrize("degrees", [20.5, 30.0, 45.0, 60.0, 75.0, 89.0])
def test_open_area_is_the_light_that_passes(shaft: float, closed: float, degrees: float) -> None:
    plate = BORE, shaft, np.radians(closed), np.radians(degrees)
    assert float(open_area(*plate)) == pytest.approx(lit(*plate), rel=1e-6)


def test_closed_plate_fills_the_bore() -> None:
    assert open_area(BORE, SHAFT, 0.2, np.array([0.0, 0.1, 0.2])) == pytest.approx(0.0, abs=1e-18)


def test_plate_on_edge_leaves_the_bore_less_the_shaft() -> None:
    # Disc less a strip of the shaft's width across its middle.
    half = np.arcsin(SHAFT / BORE)
    strip = BORE**2 / 2 * (half + np.sin(half) * np.cos(half))
    assert float(open_area(BORE, SHAFT, 0.2, OPEN)) == pytest.approx(
        np.pi / 4 * BORE**2 - strip, rel=1e-12
    )


def test_nothing_more_opens_once_the_plate_is_behind_its_shaft() -> None:
    edge = float(edge_on_angle(BORE, SHAFT, 0.2))
    areas = open_area(BORE, SHAFT, 0.2, np.linspace(edge, OPEN, 9))
    assert areas == pytest.approx(np.full(9, areas[0]), rel=1e-12)


@given(st.floats(0.0, 0.35), st.floats(0.0, 1.0))
def test_angle_inverts_the_area(closed: float, share: float) -> None:
    area = share * float(open_area(BORE, SHAFT, closed, OPEN))
    angle = angle_for_area(BORE, SHAFT, closed, area)
    assert float(open_area(BORE, SHAFT, closed, angle)) == pytest.approx(area, abs=1e-15)


def test_further_is_wider() -> None:
    angles = np.linspace(0.2, float(edge_on_angle(BORE, SHAFT, 0.2)), 500)
    assert np.all(np.diff(open_area(BORE, SHAFT, 0.2, angles)) > 0)


def test_more_than_the_bore_is_refused() -> None:
    with pytest.raises(RangeError, match="open area must be between 0 and"):
        angle_for_area(BORE, SHAFT, 0.2, 1e-3)


@pytest.mark.parametrize("bad", [-0.1, 1.7, float("nan")])
def test_angle_outside_a_quarter_turn_is_refused(bad: float) -> None:
    with pytest.raises(RangeError, match="plate angle must be between 0 and"):
        open_area(BORE, SHAFT, 0.2, bad)
