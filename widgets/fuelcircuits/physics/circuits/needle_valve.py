"""The inlet needle in its seat: the area it leaves open and the force that pushes it.

These functions run in the innermost loop of every balance and do not check their arguments;
the dimensions are checked once, where they come in (`FloatBowl`).
"""

from math import cos, pi, sin, sqrt

__all__ = ["lift_for", "open_area", "seat_area", "seat_force"]


def seat_area(seat_bore: float) -> float:
    """Return the area of the seat's bore [m2] from its diameter [m]; first principles."""
    return pi / 4 * seat_bore**2


def open_area(lift: float, seat_bore: float, taper: float) -> float:
    r"""Return the smallest area that the fuel has to pass between needle and seat.

    .. math:: A = \min\left[\pi h \sin\alpha \,(d - h \sin\alpha \cos\alpha),\;
        \frac{\pi d^2}{4}\right]

    the first being the cone's frustum across the gap, the second the bore itself.

    Parameters
    ----------
    lift
        Lift h of the needle off its seat [m], not negative.
    seat_bore
        Bore d of the seat [m], positive.
    taper
        Half angle of the needle's cone [rad], 0.1 to 1.3.

    Returns
    -------
    Open area [m2].

    Notes
    -----
    First principles: a sharp-edged seat, and a needle that stays in its axis.
    """
    cosine = cos(taper)
    clear = seat_bore / (2 * (1 + sqrt(1 - cosine)))
    gap = min(lift * sin(taper), clear)
    return min(pi * gap * (seat_bore - gap * cosine), seat_area(seat_bore))


def lift_for(area: float, seat_bore: float, taper: float) -> float:
    r"""Return the lift at which the needle leaves a given area open; `open_area` turned round.

    .. math:: h = \frac{2 A}{\pi \sin\alpha \left(d + \sqrt{d^2 - 4 A \cos\alpha / \pi}\right)}

    Parameters
    ----------
    area
        Open area A [m2], from nought to that of the bore.
    seat_bore
        Bore d of the seat [m], positive.
    taper
        Half angle of the needle's cone [rad], 0.1 to 1.3.

    Returns
    -------
    The smallest such lift [m].

    Notes
    -----
    First principles.
    """
    share = area / seat_area(seat_bore)
    return seat_bore * share / (2 * sin(taper) * (1 + sqrt(1 - share * cos(taper))))


def seat_force(
    pressure_drop: float, seat_bore: float, opening: float = 0.0, taper: float = pi / 6
) -> float:
    r"""Return the force with which the fuel pushes the needle off its seat.

    .. math:: F = \Delta p \, \frac{\pi d^2}{4} \left(1 - 2 x \cos\alpha + x^2\right)

    Shut, it is pressure times area. Open, the fuel in the bore has a velocity and so a lower
    pressure, and the jet leaves along the cone: the momentum that goes in along the bore less
    the part that leaves along it changes the force.

    Parameters
    ----------
    pressure_drop
        Pressure before the seat less that in the bowl [Pa], either sign.
    seat_bore
        Bore d of the seat [m], positive.
    opening
        Discharge coefficient times open area over the area of the bore, x [1], 0 to 1.
    taper
        Half angle of the needle's cone [rad].

    Returns
    -------
    Force [N], positive when it opens the needle.

    References
    ----------
    First principles: Bernoulli's equation and the balance of momentum along the needle's axis,
    as for the poppet valves of hydraulics (H. E. Merritt, Hydraulic Control Systems, 1967,
    section 5-6, from memory), whose flow force 2 C A dp cos(angle) is the middle term.
    """
    ease = 1 - 2 * opening * cos(taper) + opening**2
    return pressure_drop * seat_area(seat_bore) * ease
