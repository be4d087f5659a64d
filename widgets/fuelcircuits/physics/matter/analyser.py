"""The exhaust analyser: what it reads, and the way from its readings back to lambda.

Caution: exhaust holds carbon monoxide, which kills without smell or warning. Read an engine
only outdoors or with the exhaust led outside.
"""

from math import exp

from fuelcircuits.errors import RangeError, between
from fuelcircuits.physics.matter.exhaust import WATER_GAS, Exhaust, dry, oxygen_needed, products
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.numerics.linear import dot

__all__ = ["lambda_brettschneider", "reading"]

_PLACES = linspace(-3.0, 3.0, 61)  # [1], standard deviations from the mean
_WEIGHTS = [exp(-0.5 * place**2) for place in _PLACES]
_AIR_OXYGEN = 1.0 / 4.773  # share of oxygen in dry air by volume [1]; Heywood 1988, section 3.2


def reading(
    lambda_: float,
    hydrogen: float,
    oxygen: float = 0.0,
    *,
    spread: float = 0.0,
    false_air: float = 0.0,
    unburnt: float = 0.0,
    water: float = 0.0,
) -> Exhaust:
    r"""Return what an analyser shows, by volume of the dried gas.

    An engine does not burn one mixture: cylinders and cycles differ, so that carbon monoxide
    and oxygen leave side by side. Here the fuel in equal lots of air is spread normally about
    its mean with the standard deviation `spread`, cut off at three times that.

    Parameters
    ----------
    lambda_
        Mean lambda [1], 0.5 to 5.
    hydrogen, oxygen
        Atoms of the fuel for each carbon atom [1].
    spread
        Standard deviation of the fuel of a cylinder and cycle, over its mean [1], 0 to 0.15.
    false_air
        Air drawn in through a leak in exhaust or probe, over dry exhaust, by volume [1].
    unburnt
        Share of the fuel that leaves unburnt [1].
    water
        Water vapour that came with the air, by mass of dry air [kg/kg].

    Returns
    -------
    Exhaust
        Shares by volume of the dry gas [1]. `hc` counts carbon atoms; an instrument that
        reads it as hexane shows a sixth.

    Raises
    ------
    RangeError
        If an argument is out of range.

    References
    ----------
    First principles; the normal spread is common practice, no source.
    """
    between("spread", spread, 0.0, 0.15)
    between("lambda", lambda_, 0.5, 5.0)
    between("false air", false_air, 0.0, 20.0)
    fuels = [1.0 + spread * place for place in _PLACES]
    lots = [
        products(lambda_ / fuel, hydrogen, oxygen, unburnt=unburnt, water=water) for fuel in fuels
    ]
    weights = [fuel * weight for fuel, weight in zip(fuels, _WEIGHTS, strict=True)]
    gas = dry(Exhaust._make(dot(weights, amounts) for amounts in zip(*lots, strict=True)))
    diluted = Exhaust._make(share / (1.0 + false_air) for share in gas)
    air = false_air / (1.0 + false_air)
    return diluted._replace(
        o2=diluted.o2 + _AIR_OXYGEN * air, n2=diluted.n2 + (1.0 - _AIR_OXYGEN) * air
    )


def lambda_brettschneider(
    co2: float,
    co: float,
    o2: float,
    hc: float,
    hydrogen: float,
    *,
    oxygen: float = 0.0,
    no: float = 0.0,
) -> float:
    r"""Return lambda from the dry exhaust, by the balance of its oxygen.

    .. math::
        \lambda = \frac{[CO_2] + \frac{[CO]}{2} + [O_2] + \frac{[NO]}{2}
            + \left(\frac{y}{4} \frac{3.5}{3.5 + [CO]/[CO_2]} - \frac{z}{2}\right)
              ([CO_2] + [CO])}
            {\left(1 + \frac{y}{4} - \frac{z}{2}\right) ([CO_2] + [CO] + [HC])}

    Parameters
    ----------
    co2, co, o2, hc, no
        Shares of the dry gas, all in one unit (1 or %); hc counts carbon atoms.
    hydrogen, oxygen
        Atoms y and z of the fuel for each carbon atom [1].

    Returns
    -------
    Lambda [1].

    Raises
    ------
    RangeError
        If there is no carbon dioxide: nothing burns there.

    References
    ----------
    J. Brettschneider, 1979, in a company journal (from memory).
    """
    _burns(co2)
    burnt = co + co2
    water = hydrogen / 4 * WATER_GAS / (WATER_GAS + co / co2)
    found = co2 + co / 2 + o2 + no / 2 + (water - oxygen / 2) * burnt
    return found / (oxygen_needed(hydrogen, oxygen) * (burnt + hc))


def _burns(co2: float) -> None:
    """Raise `RangeError` unless the gas holds carbon dioxide."""
    if not co2 > 0:
        raise RangeError(f"carbon dioxide must be positive, got {co2}: is the engine running?")
