import math
from itertools import pairwise

import pytest
from fuelcircuits.physics.circuits.needle_valve import lift_for, open_area, seat_area, seat_force
from fuelcircuits.physics.numerics.interpolation import linspace
from hypothesis import given
from hypothesis import strategies as st

from tests.published.table import Row, rows

BORES, TAPERS, SHARES = st.floats(1e-3, 4e-3), st.floats(0.15, 1.2), st.floats(0, 1)
PSI, INCH, LBF = 6894.757, 25.4e-3, 4.448222


# Walshaw & Jobson, Mechanics of Fluids, example 1.4.2.
@pytest.mark.parametrize("row", rows("7 float-lever-valve balance"))
def test_textbook_float_holds_its_valve(row: Row) -> None:
    force = seat_force(row.number("supply") * PSI, 0.5 * INCH)
    volume = force * (4 / 18) / (62.3 * LBF / (12 * INCH) ** 3) / (2 / 3)
    assert (6 * volume / math.pi) ** (1 / 3) / INCH == row.digits


# First principles: pressure times area.
def test_force_on_a_shut_needle_is_pressure_times_area() -> None:
    assert seat_force(30e3, 2.4e-3) == pytest.approx(30e3 * math.pi / 4 * 2.4e-3**2, rel=1e-12)


# Merritt, Hydraulic Control Systems: the flow force of a poppet is 2 C A dp cos(angle).
def test_force_eases_by_the_poppets_flow_force() -> None:
    opening, taper, drop, bore = 1e-4, 0.5, 30e3, 2.4e-3
    eased = seat_force(drop, bore) - seat_force(drop, bore, opening, taper)
    expected = 2 * opening * seat_area(bore) * drop * math.cos(taper)
    assert eased == pytest.approx(expected, rel=1e-4)


# First principles: all the momentum of a jet that meets no cone and leaves along the bore.
def test_force_vanishes_for_a_jet_that_nothing_turns() -> None:
    assert seat_force(30e3, 2.4e-3, 1.0, 0.0) == pytest.approx(0)


# First principles: the curved face of a cone's frustum, pi (r1 + r2) times the slant height.
def test_open_area_is_the_frustum_between_needle_and_seat() -> None:
    bore, taper, lift = 2.4e-3, 0.5, 0.3e-3
    slant = lift * math.sin(taper)
    inner = bore / 2 - slant * math.cos(taper)
    expected = math.pi * (bore / 2 + inner) * slant
    assert open_area(lift, bore, taper) == pytest.approx(expected, rel=1e-12)


# First principles: a flat disc lifts a curtain, pi d h; common practice for small lifts.
def test_blunt_needle_opens_like_a_flat_disc() -> None:
    assert open_area(1e-5, 2.4e-3, 1.3) == pytest.approx(math.pi * 2.4e-3 * 1e-5, rel=0.05)


@given(BORES, TAPERS)
def test_bore_caps_the_open_area(bore: float, taper: float) -> None:
    assert open_area(20e-3, bore, taper) == pytest.approx(seat_area(bore), rel=1e-12)


@given(BORES, TAPERS)
def test_open_area_never_falls_as_the_needle_lifts(bore: float, taper: float) -> None:
    areas = [open_area(lift, bore, taper) for lift in linspace(0.0, 6e-3, 300)]
    assert all(after - before >= -1e-20 for before, after in pairwise(areas))


@given(BORES, TAPERS, SHARES)
def test_lift_gives_back_the_area(bore: float, taper: float, share: float) -> None:
    area = share * seat_area(bore)
    assert open_area(lift_for(area, bore, taper), bore, taper) == pytest.approx(area, abs=1e-18)
