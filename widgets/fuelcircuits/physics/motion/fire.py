"""Whether the charge fires: how rich or lean a cylinder still burns, and how many do."""

from math import exp

from fuelcircuits.physics.engine.engine import CHARGE_HEAT_RATIO, Engine

__all__ = ["firing_limits", "firing_share", "residual_share"]

LEAN, RICH = 1.36, 0.42
"""Lambda beyond which a charge with little exhaust in it does not fire [1]."""
LITTLE = 0.06
"""Share of exhaust in a charge that does not hurt yet [1]."""
LEAN_LOSS, RICH_LOSS = 1.2, 0.6
"""How fast the limits close in with the share of exhaust [1]."""
LEAN_SPREAD, RICH_SPREAD = 0.05, 0.035
"""Spread of lambda from cylinder to cylinder and cycle to cycle [1]."""
FAR = 60.0
"""Spreads beyond which all or none fire [1]."""
MOST = 0.6
"""Largest share of exhaust in a charge [1]."""


def residual_share(engine: Engine, manifold_pressure: float, exhaust_pressure: float) -> float:
    r"""Return the share of burnt gas in the charge.

    .. math:: x = \frac{0.67}{r} \left(\frac{p_e}{p_m}\right)^{1/\gamma}

    Parameters
    ----------
    engine
        Its compression ratio r.
    manifold_pressure, exhaust_pressure
        Absolute pressures [Pa].

    Returns
    -------
    Share [1], at most 0.6: about 0.08 with the throttle open, 0.18 at idle.

    Notes
    -----
    The clearance volume full of exhaust that spreads to manifold pressure: the shape is first
    principles, the factor this package's own (hot gas is thin, valves overlap).
    """
    spread: float = (exhaust_pressure / manifold_pressure) ** (1 / CHARGE_HEAT_RATIO)
    return min(0.67 / engine.compression_ratio * spread, MOST)


def firing_limits(residual: float) -> tuple[float, float]:
    """Return the lambdas below and above which half of the cycles misfire [1].

    Parameters
    ----------
    residual
        Share of exhaust in the charge [1].

    References
    ----------
    A. A. Quader, SAE 741055 (1974), in its abstract: the lean limit closes in with dilution.
    The numbers lie within what is told of petrol engines (0.4 to 0.5, 1.3 to 1.6), from memory;
    the lean one is 20 parts of air to one of fuel, the leanest that a carburetted engine is said
    to run on (common practice, from memory). Chosen so that a floored engine without its pump
    stumbles (judged).
    """
    burnt = max(residual - LITTLE, 0.0)
    return RICH + RICH_LOSS * burnt, LEAN - LEAN_LOSS * burnt


def firing_share(lambda_: float, residual: float) -> float:
    r"""Return the share of the cycles that fire.

    .. math::
        B = \frac{1}{1 + e^{(\lambda - \lambda_l)/w_l}} \cdot
            \frac{1}{1 + e^{(\lambda_r - \lambda)/w_r}}

    Parameters
    ----------
    lambda_
        Lambda of the vapour in the cylinders [1].
    residual
        Share of exhaust in the charge [1].

    Returns
    -------
    Share [1], 0 to 1.

    Notes
    -----
    The widths stand for the spread between cylinders and cycles; the form is this package's.
    """
    rich, lean = firing_limits(residual)
    return _fires((lambda_ - lean) / LEAN_SPREAD) * _fires((rich - lambda_) / RICH_SPREAD)


def _fires(beyond: float) -> float:
    """Return the share that still fires a number of spreads beyond a limit."""
    return 1.0 / (1.0 + exp(min(max(beyond, -FAR), FAR)))
