"""Number drills: the sizes in which a metering jet is drilled, gauged and asked for.

A larger number is a smaller drill. The sizes follow no formula; they are a table.
"""

from fuelcircuits.errors import RangeError, between

__all__ = ["LARGEST", "SMALLEST", "diameter_of"]

LARGEST, SMALLEST = 1, 97
"""First and last number of the table."""
UNIT = 2.54e-6
"""One ten-thousandth of an inch [m], exact."""

# fmt: off
TEN_THOUSANDTHS = (
    2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935,
    1910, 1890, 1850, 1820, 1800, 1770, 1730, 1695, 1660, 1610,
    1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285,
    1200, 1160, 1130, 1110, 1100, 1065, 1040, 1015, 995, 980,
    960, 935, 890, 860, 820, 810, 785, 760, 730, 700,
    670, 635, 595, 550, 520, 465, 430, 420, 410, 400,
    390, 380, 370, 360, 350, 330, 320, 310, 292, 280,
    260, 250, 240, 225, 210, 200, 180, 160, 145, 135,
    130, 125, 120, 115, 110, 105, 100, 95, 91, 87,
    83, 79, 75, 71, 67, 63, 59,
)
# fmt: on
"""Diameters of drills 1 to 97 [0.0001 in]; ANSI/ASME B94.11M for 1 to 80, seen in public tables,
and common practice below."""


def diameter_of(number: float) -> float:
    """Return the diameter of a number drill.

    Parameters
    ----------
    number
        Number of the drill [1], a whole number from 1 to 97.

    Returns
    -------
    float
        Diameter [m].

    Raises
    ------
    RangeError
        If there is no drill of that number.

    References
    ----------
    ANSI/ASME B94.11M.
    """
    between("drill number", number, LARGEST, SMALLEST)
    if number != int(number):
        raise RangeError(f"drill number must be a whole number, got {number!r}")
    return UNIT * TEN_THOUSANDTHS[int(number) - 1]
