"""The manifold fills: while its pressure rises, more air passes the throttle than the engine takes.

The steps are implicit, so the network above is solved at the end of each step against a straight
line: what the engine takes at a manifold pressure, and what the manifold itself takes to get
there from the pressure before.
"""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from fuelcircuits.errors import positive
from fuelcircuits.physics.engine.engine import Engine
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT

__all__ = ["Demand", "Filled", "filled", "held_air", "with_filling"]


class Demand(NamedTuple):
    """Air wanted from the manifold, a straight line: rate times pressure less loss."""

    rate: float  # kg/(s Pa)
    loss: float  # kg/s

    def at(self, pressure: float) -> float:
        """Return the air wanted at a manifold pressure [kg/s]."""
        return self.rate * pressure - self.loss


class Filled(NamedTuple):
    """A manifold's books; each list runs over time."""

    stored: list[float]  # kg of air in the manifold
    entered: list[float]  # kg that has come in since the first time
    taken: list[float]  # kg that the engine has taken since then


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
    return volume / (AIR_CONSTANT * positive("charge temperature", temperature, "K"))


def with_filling(wanted: Demand, held: float, span: float, before: float) -> Demand:
    r"""Return what engine and filling manifold want together at the end of a step.

    .. math::
        \frac{V}{R\,T} \frac{dp}{dt} = \dot m_{in} - \dot m_{engine}, \qquad
        \dot m_{in,j} = \dot m_{engine,j} + \frac{V}{R\,T} \frac{p_j - p_{j-1}}{t_j - t_{j-1}}

    Parameters
    ----------
    wanted
        What the engine takes.
    held
        Air held for each pascal, V/(RT) [kg/Pa]; see `held_air`.
    span
        Length of the step [s], positive.
    before
        Manifold pressure before the step [Pa].

    Returns
    -------
    Demand
        A straight line again.

    Raises
    ------
    RangeError
        If the span is not positive.

    Notes
    -----
    First principles: conservation of mass. The step is Euler's implicit rule: of the first
    order, but a pressure never shoots past where it is going, however long the step.
    """
    step = held / positive("time step", span, "s")
    return Demand(wanted.rate + step, wanted.loss + step * before)


def filled(
    held: float,
    times: Sequence[float],
    pressure: Sequence[float],
    inflow: Sequence[float],
    taken: Sequence[float],
) -> Filled:
    """Return the manifold's books.

    Parameters
    ----------
    held, times
        As in `held_air`; rising times [s].
    pressure
        Manifold pressure at each time [Pa].
    inflow, taken
        Air that comes in and that the engine takes at each time [kg/s]; Euler's implicit rule
        gives each the whole span before that time.

    Returns
    -------
    Filled
        What has entered is what is stored more than at first, and what the engine has taken.
    """
    return Filled([held * each for each in pressure], _summed(times, inflow), _summed(times, taken))


def _summed(times: Sequence[float], flow: Sequence[float]) -> list[float]:
    spans = (after - before for before, after in pairwise(times))
    added = (span * each for span, each in zip(spans, flow[1:], strict=True))
    return list(accumulate(added, initial=0.0))
