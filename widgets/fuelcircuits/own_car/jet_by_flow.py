"""The bore of a jet known only by a stamped number, from what it passes in a minute."""

from math import pi

from fuelcircuits.errors import RangeError, between
from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.numerics.root import root
from fuelcircuits.quantities.written import si

__all__ = ["BY_FLOW", "bore_by_flow", "bore_read"]

BY_FLOW = (
    "A jet known only by the number stamped on it: the number is no size, and differs from maker "
    "to maker. Either use a pin gauge, or let water run through it from a bottle that you keep "
    "full to a mark, catch it for a minute, and write both down. Use water, never petrol. Blow the "
    "jet dry afterwards, goggles on."
)
"""How a jet is measured by what it passes."""

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]; ISO 80000-3."""
WATER, WATER_VISCOSITY = 998.2, 1.0e-3
"""Density [kg/m3] and viscosity [Pa s] of water at 20 degC; IAPWS (from memory)."""
THINNEST, THICKEST = 0.2e-3, 6e-3
"""Bores that a jet is looked for between [m]."""
LENGTH = 2e-3
"""Length of a jet's hole if nobody measured it [m]; common practice, no source."""


def bore_by_flow(each_minute: float, head: float, length: float = LENGTH) -> float:
    r"""Return the bore of a jet that passes so much water under a steady head.

    .. math:: \dot m = C\, \frac\pi4 d^2 \sqrt{2 \rho \cdot \rho g h}

    Parameters
    ----------
    each_minute
        Volume of water in a minute [m3], 2e-6 to 3e-3.
    head
        Height h of the water's surface above the jet's mouth [m], 0.05 to 3.
    length
        Length of the hole [m].

    Returns
    -------
    Bore d [m]; a tenth of the head or a twentieth of the volume wrong is a fortieth of the bore.

    Raises
    ------
    RangeError
        If an argument is out of range, or no bore passes that.

    References
    ----------
    `fuelcircuits.physics.circuits.high_speed.jet_flow`, turned round.
    """
    between("water in a minute", each_minute, 2e-6, 3e-3, "m^3")
    drop = WATER * GRAVITY * between("head", head, 0.05, 3.0, "m")

    def surplus(bore: float) -> float:
        coefficients = jet_coefficients(bore, length)
        area = pi / 4 * bore**2
        flow = jet_flow(area, bore, coefficients, drop, WATER, viscosity=WATER_VISCOSITY)
        return flow - WATER * each_minute / 60.0

    if not surplus(THINNEST) < 0 < surplus(THICKEST):
        raise RangeError(
            "water in a minute must be what a bore of 0.2 to 6 mm passes, "
            f"got {1e6 * each_minute:g} ml"
        )
    return root(surplus, THINNEST, THICKEST, name="bore", tolerance=1e-9)


def bore_read(volume: str, head: str) -> float:
    """Return the bore [m] of a jet from what somebody wrote down; see `bore_by_flow`.

    Parameters
    ----------
    volume
        Water in one minute; a number alone is in ml.
    head
        Of water above the jet; a number alone is in mm.

    Raises
    ------
    UnitError
        If one is no number with a unit of its kind.
    RangeError
        If no jet passes that.
    """
    return bore_by_flow(
        1e-6 * si(_number(volume, "ml"), "ml", "water in one minute"),
        1e-3 * si(_number(head, "mm"), "mm", "head"),
    )


def _number(text: str, unit: str) -> str:
    """Return a number with its unit, which is `unit` if none is written."""
    plain = text.strip().replace(",", ".")
    return plain if plain[-1:].isalpha() else f"{plain} {unit}"
