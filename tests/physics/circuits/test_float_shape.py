import itertools
import math

import pytest
from fluids.geometry import TANK
from fuelcircuits.physics.circuits.float_shape import profile_area, submerged
from fuelcircuits.physics.numerics.interpolation import linspace
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

LENGTH, HEIGHT = 32e-3, 16e-3
TILTS = st.floats(-1.2, 1.2)
SURFACES = st.floats(-25e-3, 25e-3)


def chord(y: float, tilt: float) -> tuple[float, float]:
    """Ends of the float's level chord at height y: where the distance from the axis is h/2."""
    u, v = math.cos(tilt), math.sin(tilt)
    half = (LENGTH - HEIGHT) / 2
    found = []
    for side in (-1.0, 1.0):
        root = HEIGHT**2 / 4 - (y - side * half * v) ** 2
        if root >= 0:
            found += [side * half * u - math.sqrt(root), side * half * u + math.sqrt(root)]
    if abs(v) > 1e-12:
        for side in (-1.0, 1.0):  # the flats: points a distance h/2 off the axis
            along = (y - side * HEIGHT / 2 * u) / v
            if abs(along) <= half:
                found.append(along * u - side * HEIGHT / 2 * v)
    return (min(found), max(found)) if found else (0.0, 0.0)


def by_quadrature(tilt: float, surface: float) -> tuple[float, float]:
    """Area and moment below the surface, chord by chord (scipy)."""
    half = (LENGTH - HEIGHT) / 2
    lowest = -half * abs(math.sin(tilt)) - HEIGHT / 2
    corners = [s * half * math.sin(tilt) + t * HEIGHT / 2 * math.cos(tilt)
               for s in (-1, 1) for t in (-1, 0, 1)]  # fmt: skip
    top = min(max(surface, lowest), -lowest)
    points = sorted({lowest, top, *(c for c in corners if lowest < c < top)})
    area = moment = 0.0
    for low, high in itertools.pairwise(points):
        area += quad(lambda y: chord(y, tilt)[1] - chord(y, tilt)[0], low, high, epsabs=1e-14)[0]
        moment += quad(
            lambda y: (chord(y, tilt)[1] ** 2 - chord(y, tilt)[0] ** 2) / 2, low, high, epsabs=1e-16
        )[0]
    return area, moment


# fluids: the volume in a lying cylindrical tank filled to a height.
@pytest.mark.parametrize("height", linspace(0.5e-3, 15.5e-3, 7))
def test_round_float_is_the_librarys_lying_cylinder(height: float) -> None:
    expected = TANK(D=HEIGHT, L=1.0, horizontal=True).V_from_h(height)
    area, _ = submerged(HEIGHT, HEIGHT, 0.4, height - HEIGHT / 2)
    assert area == pytest.approx(expected, rel=1e-9)


# scipy: the same integral chord by chord.
@pytest.mark.parametrize("tilt", [-0.6, -0.17, 0.05, 0.3, 1.0])
@pytest.mark.parametrize("surface", [-9e-3, -4e-3, 0.0, 2.5e-3, 8e-3])
def test_area_and_moment_are_those_of_quadrature(tilt: float, surface: float) -> None:
    area, moment = by_quadrature(tilt, surface)
    found = submerged(LENGTH, HEIGHT, tilt, surface)
    assert found[0] == pytest.approx(area, abs=1e-10)
    assert found[1] == pytest.approx(moment, abs=1e-12)


# First principles: a level float's flats are cut straight across.
def test_half_sunk_level_float_shows_half_its_profile() -> None:
    area, moment = submerged(LENGTH, HEIGHT, 0.0, 0.0)
    assert area == pytest.approx(profile_area(LENGTH, HEIGHT) / 2)
    assert moment == pytest.approx(0, abs=1e-18)


@given(TILTS)
def test_float_under_the_surface_is_all_submerged(tilt: float) -> None:
    area, moment = submerged(LENGTH, HEIGHT, tilt, 40e-3)
    assert area == pytest.approx(profile_area(LENGTH, HEIGHT), rel=1e-12)
    assert moment == pytest.approx(0, abs=1e-17)


@given(TILTS)
def test_float_out_of_the_liquid_displaces_nothing(tilt: float) -> None:
    assert submerged(LENGTH, HEIGHT, tilt, -40e-3) == pytest.approx((0, 0), abs=1e-17)


@given(TILTS, SURFACES)
def test_what_is_under_and_what_is_over_make_the_whole(tilt: float, surface: float) -> None:
    under, left = submerged(LENGTH, HEIGHT, tilt, surface)
    over, right = submerged(LENGTH, HEIGHT, tilt, -surface)  # the same float upside down
    assert under + over == pytest.approx(profile_area(LENGTH, HEIGHT), rel=1e-10)
    assert left == pytest.approx(right, abs=1e-15)


@given(TILTS, SURFACES)
def test_tilting_the_other_way_mirrors_the_moment(tilt: float, surface: float) -> None:
    one, other = (submerged(LENGTH, HEIGHT, each, surface) for each in (tilt, -tilt))
    assert one == pytest.approx((other[0], -other[1]), abs=1e-15)
