"""The manifold fills: while its pressure rises, more air passes the throttle than the engine takes.

The steps are implicit, so the network above is solved at each time against a straight line:
what the engine takes at a manifold pressure and what the manifold itself takes to get there.
All times are solved together, each with the pressure before it as last known; `advanced` then
carries the changes forward through all of them, as Newton's method does.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import RangeError, positive
from fuelcircuits.physics.engine.engine import Engine
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT

__all__ = ["Demand", "Filled", "advanced", "filled", "held_air", "hold", "with_filling"]

Floats = NDArray[np.float64]


class Demand(NamedTuple):
    """Air wanted from the manifold, a straight line at each time: rate times pressure less loss."""

    rate: Floats  # kg/(s Pa)
    loss: Floats  # kg/s

    def at(self, pressure: Floats) -> Floats:
        """Return the air wanted at a manifold pressure [kg/s]."""
        return np.asarray(self.rate * pressure - self.loss)


class Filled(NamedTuple):
    """A manifold's books; the first axis of each array runs over time."""

    stored: Floats  # kg of air in the manifold
    entered: Floats  # kg that has come in since the first time
    taken: Floats  # kg that the engine has taken since then


def held_air(engine: Engine, temperature: float) -> float:
    r"""Return the air that a manifold holds for each pascal [kg/Pa].

    .. math:: \frac{m}{p} = \frac{V}{R\,T}

    Parameters
    ----------
    engine
        Its `manifold_share` of the displacement is the volume V.
    temperature
        Temperature of the charge [K], positive.

    Returns
    -------
    float
        Mass of air over pressure [kg/Pa].

    Raises
    ------
    RangeError
        If the temperature is not positive.

    Notes
    -----
    First principles: an ideal gas. The charge keeps one temperature while it is squeezed, since
    the wall's heat evens it out; the fuel vapour in it is left out (common practice, no source).
    """
    volume = engine.manifold_share * engine.displacement
    return float(volume / (AIR_CONSTANT * positive("charge temperature", temperature, "K")))


def hold(held: float, times: ArrayLike) -> Floats:
    """Return the air that a step's change of pressure takes a second [kg/(s Pa)].

    Parameters
    ----------
    held
        Air held for each pascal, V/(RT) [kg/Pa]; see `held_air`.
    times
        Rising times [s].

    Returns
    -------
    numpy.ndarray
        One for each time; nought at the first, where the manifold is taken to be full.

    Raises
    ------
    RangeError
        If the times do not rise.
    """
    spans = np.diff(np.asarray(times, dtype=float))
    if not np.all(spans > 0):
        raise RangeError(f"times must rise, got {np.asarray(times)}")
    return np.concatenate([[0.0], held / spans])


def with_filling(wanted: Demand, step: Floats, pressure: Floats) -> Demand:
    r"""Return what engine and filling manifold want together.

    .. math::
        \frac{V}{R\,T} \frac{dp}{dt} = \dot m_{in} - \dot m_{engine}, \qquad
        \dot m_{in,j} = \dot m_{engine,j} + \frac{V}{R\,T} \frac{p_j - p_{j-1}}{t_j - t_{j-1}}

    Parameters
    ----------
    wanted
        What the engine takes at each time.
    step
        What each step holds, V/(RT) over its span [kg/(s Pa)]; see `hold`.
    pressure
        Manifold pressure at each time [Pa] as far as it is known.

    Returns
    -------
    Demand
        At the first time the engine's own.

    Notes
    -----
    First principles: conservation of mass. The step is Euler's implicit rule: of the first
    order, but a pressure never shoots past where it is going, however long the step.
    """
    before = np.concatenate([[0.0], pressure[:-1]])
    return Demand(wanted.rate + step, wanted.loss + step * before)


def advanced(step: Floats, pressure: Floats, found: Floats, yielding: Floats) -> Floats:
    r"""Return the pressure at every time, with each change carried forward to the next times.

    .. math:: p_j = P_j + \frac{dP_j}{dq_j} (q_j - Q_j), \qquad
              q_j - Q_j = \frac{V}{R\,T\,\Delta t_j} (p_{j-1} - p^{old}_{j-1})

    Parameters
    ----------
    step, pressure
        As in `with_filling`, whose line has been answered.
    found
        Pressures P that the network answered [Pa].
    yielding
        How they yield to the line's loss, dP/dq [Pa s/kg].

    Returns
    -------
    numpy.ndarray
        Pressure [Pa]. When it equals `found`, all steps hold together.

    References
    ----------
    Newton's method for all steps at once: the matrix is a chain, so it is solved forwards.
    """
    pull, fresh = step * yielding, np.array(found, dtype=float)
    for j in range(1, len(fresh)):
        fresh[j] += pull[j] * (fresh[j - 1] - pressure[j - 1])
    return fresh


def filled(
    wanted: Demand, held: float, times: ArrayLike, pressure: Floats, inflow: Floats
) -> Filled:
    """Return the manifold's books.

    Parameters
    ----------
    wanted, held, times
        As in `with_filling` and `hold`.
    pressure
        The pressure that was found [Pa].
    inflow
        Air that comes in at each time [kg/s]; Euler's implicit rule gives it the whole span
        before that time.

    Returns
    -------
    Filled
        What has entered is what is stored more than at first, and what the engine has taken.
    """
    spans = np.diff(np.asarray(times, dtype=float), prepend=np.asarray(times, dtype=float)[0])
    return Filled(
        held * pressure, np.cumsum(spans * inflow), np.cumsum(spans * wanted.at(pressure))
    )
