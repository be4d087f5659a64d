"""The film of fuel on the intake wall: why a tip-in goes lean although enough fuel is metered.

Part of the fuel that leaves the carburettor lands on the manifold wall and follows later.
While the flow rises the film grows, and the fuel it grows by is missing at the cylinder.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp2, expm1
from typing import NamedTuple

from fuelcircuits.errors import positive
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.numerics.course import Course, course

__all__ = ["FilmRun", "WallFilm", "film_run", "film_step", "film_time", "steady_film"]

WARM = 363.15
"""Coolant temperature at which a rig states its film time [K]."""


@dataclass(frozen=True)
class WallFilm(Section):
    """How much of the fuel wets the wall of the manifold, and for how long."""

    wetting_share: float = entry("1", 0, 0.95, "share of the metered fuel that lands on the wall")
    warm_time: float = entry(
        "s", 0.02, 10, "time constant of the film with the engine warm (coolant at 90 degC)"
    )
    cold_doubling: float = entry(
        "K", 5, 200, "fall in coolant temperature that doubles the time constant", 30.0
    )


class FilmRun(NamedTuple):
    """A film followed in time: one number for each time."""

    mass: list[float]  # kg on the wall
    to_cylinder: list[float]  # kg/s of fuel that reaches the cylinders
    delivered: list[float]  # kg of fuel that has reached them since the first time


def film_time(film: WallFilm, coolant: float) -> float:
    r"""Return the time constant of the film.

    .. math:: \tau = \tau_{90}\, 2^{(T_{90} - T) / \Delta T_2}

    Parameters
    ----------
    film
        The manifold's film.
    coolant
        Coolant temperature [K], 220 to 400; it stands for that of the manifold wall.

    Returns
    -------
    Time constant [s].

    Notes
    -----
    That a cold wall holds its film longer is Aquino's finding; the exponential is common
    practice, no source.
    """
    return film.warm_time * exp2((WARM - coolant) / film.cold_doubling)


def steady_film(film: WallFilm, fuel_flow: float, coolant: float = WARM) -> float:
    r"""Return the mass of fuel on the wall once the flow has been steady for long.

    .. math:: m = X \tau \dot m_f

    Parameters
    ----------
    film
        The manifold's film.
    fuel_flow
        Fuel metered [kg/s].
    coolant
        Coolant temperature [K].

    Returns
    -------
    Film mass [kg].

    References
    ----------
    C. F. Aquino, SAE 810494 (1981): the steady state of his two-parameter model.
    """
    return film.wetting_share * film_time(film, coolant) * fuel_flow


def film_step(
    film: WallFilm,
    mass: float,
    flow: tuple[float, float],
    duration: float,
    coolant: float = WARM,
) -> float:
    r"""Return the film's mass after a span in which the metered flow changed evenly.

    .. math::
        \frac{dm}{dt} = X \dot m_f - \frac{m}{\tau}, \qquad
        m_1 = m_0 e^{-a} + X \tau \left[\dot m_0 (1 - e^{-a})
              + (\dot m_1 - \dot m_0)\left(1 - \frac{1 - e^{-a}}{a}\right)\right],
        \qquad a = \frac{\Delta t}{\tau}

    which is exact for any length of span.

    Parameters
    ----------
    film
        The manifold's film.
    mass
        Film mass at the start [kg].
    flow
        Fuel metered at the start and at the end of the span [kg/s].
    duration
        Length of the span [s], positive.
    coolant
        Coolant temperature [K].

    Returns
    -------
    Film mass at the end [kg].

    Raises
    ------
    RangeError
        If the duration is not positive.

    References
    ----------
    C. F. Aquino, "Transient A/F Control Characteristics of the 5 Liter Central Fuel Injection
    Engine", SAE 810494 (1981); the exact step is first principles.
    """
    time = film_time(film, coolant)
    spans = positive("duration", duration, "s") / time
    gone, (start, end) = -expm1(-spans), flow
    rise = start * gone + (end - start) * (1 - gone / spans)
    return mass * (1 - gone) + film.wetting_share * time * rise


def film_run(
    film: WallFilm,
    times: Sequence[float],
    fuel_flow: Sequence[float],
    coolant: Course = WARM,
    *,
    mass: float | None = None,
) -> FilmRun:
    r"""Follow the film through a metered flow that is given at times and linear in between.

    .. math:: \dot m_{cyl} = (1 - X)\,\dot m_f + \frac{m}{\tau}, \qquad
              \int_0^{\Delta t} \dot m_{cyl}\, dt = \frac{\Delta t}{2}
              (\dot m_0 + \dot m_1) - (m_1 - m_0)

    The flow to the cylinders bends between the times, so its straight lines do not add up to
    what was delivered; the second equation, exact over each span, does.

    Parameters
    ----------
    film
        The manifold's film.
    times
        Rising times [s].
    fuel_flow
        Fuel metered at each time [kg/s].
    coolant
        Coolant temperature [K], one for the run or one for each time.
    mass
        Film mass at the start [kg]; the steady film of the first flow if not given.

    Returns
    -------
    FilmRun
        Film mass [kg], the flow that reaches the cylinders [kg/s] and its sum [kg]. Over the
        run, fuel metered equals fuel to the cylinders plus the growth of the film.

    Raises
    ------
    RangeError
        If the times do not rise or the flow has another length.

    References
    ----------
    C. F. Aquino, SAE 810494 (1981).
    """
    flow, warmth = course("fuel flow", fuel_flow, times), course("coolant", coolant, times)
    wet = [steady_film(film, flow[0], warmth[0]) if mass is None else mass]
    reached = [0.0]
    for i, (before, now) in enumerate(pairwise(times)):
        span, flows = now - before, (flow[i], flow[i + 1])
        wet.append(film_step(film, wet[i], flows, span, warmth[i + 1]))
        reached.append(reached[i] + span * sum(flows) / 2 - (wet[i + 1] - wet[i]))
    dry = 1 - film.wetting_share
    to_cylinder = [
        dry * metered + held / film_time(film, warm)
        for metered, held, warm in zip(flow, wet, warmth, strict=True)
    ]
    return FilmRun(wet, to_cylinder, reached)
