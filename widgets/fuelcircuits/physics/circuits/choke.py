"""The choke: a plate that a coil shuts when cold and that air, vacuum and heat open.

A cold engine evaporates only part of the fuel it gets. The choke plate makes it get more:
it lowers the pressure in the barrels, and every circuit delivers.
"""

from bisect import bisect_left
from dataclasses import dataclass
from itertools import pairwise
from math import exp

from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.bimetal import coil_rotation, coil_stiffness
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.openings.plate import OPEN
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = [
    "Choke",
    "coil_step",
    "coil_torque",
    "fast_idle",
    "link_torque",
    "pull_off",
    "rest_angle",
    "unloader",
]


@dataclass(frozen=True, kw_only=True)
class Choke(Section):
    """Coil, plate, pull-off, fast-idle cam and heat (dimensions invented for each rig)."""

    coil_length: float = entry("m", 0.05, 2, "active length of the coil's strip")
    coil_width: float = entry("m", 2e-3, 20e-3, "width of the strip")
    coil_thickness: float = entry("m", 0.2e-3, 2e-3, "thickness of the strip")
    flexivity: float = entry("1/K", 5e-6, 40e-6, "flexivity of the strip, as ASTM B106 has it")
    modulus: float = entry("Pa", 100e9, 250e9, "Young's modulus of the strip", 170e9)
    set_temperature: float = entry(
        "K", 260, 330, "temperature at which the coil just shuts the plate"
    )
    slack: float = entry("rad", -1, 2, "angle by which the coil is set or has sagged open", 0.0)
    plate_offset: float = entry("m", 0, 15e-3, "distance of the shaft from the plate's middle")
    pull_off_bore: float = entry("m", 0, 60e-3, "diameter of the pull-off diaphragm")
    pull_off_force: float = entry("N", 0, 100, "spring force that the diaphragm must beat")
    pull_off_rate: float = entry("N/m", 0, 20e3, "rate of the diaphragm's spring")
    pull_off_stroke: float = entry("m", 1e-3, 30e-3, "full stroke of the diaphragm")
    pull_off_angle: float = entry(
        "rad", 0, OPEN, "plate angle at the full stroke, nothing bending the link's spring"
    )
    pull_off_spring: float = entry(
        "N m/rad", 0.01, 100, "stiffness of the spring in the pull-off's link, at the plate", 20.0
    )
    pull_off_leak: float = entry("1", 0, 1, "share of the vacuum lost by a torn diaphragm", 0.0)
    unloader_start: float = entry(
        "rad", 0, OPEN, "throttle angle at which the unloader meets the plate", 1.2
    )
    unloader_ratio: float = entry("1", 0, 5, "plate angle for throttle angle from there", 1.5)
    heat_rise: float = entry("K", 0, 250, "rise of the coil by electric or exhaust heat")
    heat_time: float = entry("s", 5, 1000, "time constant of the coil while heated")
    cool_time: float = entry("s", 30, 10e3, "time constant of the coil while not heated", 900.0)
    cam_edges: tuple[float, ...] = entry(
        "rad", 0, OPEN, "plate angle up to which each step of the cam holds, rising"
    )
    cam_openings: tuple[float, ...] = entry(
        "rad", 0, 0.5, "throttle opening of each step of the cam, falling"
    )

    def __post_init__(self) -> None:
        """Check every entry, and that the cam's steps go one way."""
        super().__post_init__()
        if len(self.cam_edges) != len(self.cam_openings):
            raise RangeError(
                f"cam edges must be as many as cam openings, got {len(self.cam_edges)} "
                f"and {len(self.cam_openings)}"
            )
        rising = all(before < after for before, after in pairwise(self.cam_edges))
        falling = all(before > after for before, after in pairwise(self.cam_openings))
        if not (rising and falling):
            raise RangeError(
                f"cam edges must rise and cam openings fall, got {self.cam_edges} "
                f"and {self.cam_openings}"
            )


def rest_angle(choke: Choke, coil_temperature: float, closed_angle: float) -> float:
    r"""Return the plate angle at which the coil pushes neither way.

    .. math:: \psi = \psi_0 + \frac{F L}{t}(T - T_{set}) + \psi_{slack}

    Parameters
    ----------
    choke
        Coil and setting.
    coil_temperature
        Temperature T of the coil [K].
    closed_angle
        Angle :math:`\psi_0` of the closed plate [rad].

    Returns
    -------
    Angle [rad] from the plane across the horn; below the closed angle the coil presses
    the plate shut.

    References
    ----------
    `fuelcircuits.physics.circuits.bimetal.coil_rotation`.
    """
    rise = coil_temperature - choke.set_temperature
    turned = coil_rotation(choke.flexivity, choke.coil_length, choke.coil_thickness, rise)
    return closed_angle + turned + choke.slack


def coil_torque(choke: Choke, coil_temperature: float, angle: float, closed_angle: float) -> float:
    """Return the torque of the coil on the plate [N m], opening positive.

    Parameters
    ----------
    choke, coil_temperature, closed_angle
        As in `rest_angle`.
    angle
        Plate angle from the plane across the horn [rad].

    Returns
    -------
    Stiffness times the angle from rest [N m].

    References
    ----------
    `fuelcircuits.physics.circuits.bimetal.coil_stiffness`.
    """
    stiffness = coil_stiffness(
        choke.modulus, choke.coil_width, choke.coil_thickness, choke.coil_length
    )
    return stiffness * (rest_angle(choke, coil_temperature, closed_angle) - angle)


def pull_off(choke: Choke, vacuum: float, closed_angle: float) -> float:
    r"""Return the plate angle to which the vacuum diaphragm draws the end of its link.

    .. math:: s = \operatorname{clip}\left(\frac{A \, \Delta p - F_0}{k \, h}, 0, 1\right)

    Parameters
    ----------
    choke
        Diaphragm area A [m2], spring F\ :sub:`0` [N] and k [N/m], stroke h [m].
    vacuum
        Manifold vacuum [Pa].
    closed_angle
        Angle of the closed plate [rad].

    Returns
    -------
    Angle [rad], the closed one without vacuum. The plate itself stays behind by what
    `link_torque` gives way.

    Notes
    -----
    First principles.
    """
    felt = vacuum * (1 - choke.pull_off_leak)
    force = bore_area(choke.pull_off_bore) * felt - choke.pull_off_force
    share = min(max(force / (choke.pull_off_rate * choke.pull_off_stroke + 1e-9), 0.0), 1.0)
    return closed_angle + share * max(choke.pull_off_angle - closed_angle, 0.0)


def link_torque(choke: Choke, drawn: float, angle: float) -> float:
    r"""Return the torque of the pull-off's link on the plate [N m], never shutting it.

    .. math:: M = k_l \, (\psi_d - \psi)_0

    The link ends in a spring, so that a coil bends it which is cold and pushes hard: the plate
    opens less on a cold day than on a mild one.

    Parameters
    ----------
    choke
        Stiffness k\ :sub:`l` of the spring; a card that gives none has a link that hardly bends.
    drawn
        Angle :math:`\psi_d` to which the diaphragm draws the link [rad]; see `pull_off`.
    angle
        Plate angle :math:`\psi` [rad].

    Notes
    -----
    First principles; that makers put such a spring there is common practice, no source.
    """
    return choke.pull_off_spring * max(drawn - angle, 0.0)


def unloader(choke: Choke, throttle_angle: float, closed_angle: float) -> float:
    """Return the plate angle to which a floored pedal opens the plate at least.

    Parameters
    ----------
    choke
        The unloader's linkage.
    throttle_angle
        Throttle angle from the plane across the bore [rad].
    closed_angle
        Angle of the closed choke plate [rad].

    Returns
    -------
    Angle [rad].

    Notes
    -----
    A flooded engine is started with the pedal down: common practice, no source.
    """
    past = max(throttle_angle - choke.unloader_start, 0.0)
    return min(closed_angle + choke.unloader_ratio * past, OPEN)


def fast_idle(choke: Choke, angle: float) -> float:
    """Return how far the cam holds the throttle open if it is let fall with the plate there.

    Parameters
    ----------
    choke
        Edges and openings of the cam's steps.
    angle
        Choke plate angle from the plane across the horn [rad].

    Returns
    -------
    Throttle opening beyond the curb-idle stop [rad]; nought past the last step.

    Notes
    -----
    Common practice, no source. The cam falls only when the throttle is lifted off it, so a
    driver who never touches the pedal stays on the step of the start.
    """
    return (*choke.cam_openings, 0.0)[bisect_left(choke.cam_edges, angle)]


def coil_step(
    choke: Choke,
    temperature: float,
    ambient: float,
    duration: float,
    *,
    heated: bool = True,
) -> float:
    r"""Return the coil's temperature after a span with the heat on or off.

    .. math:: T_1 = T_\infty + (T_0 - T_\infty) e^{-\Delta t/\tau}, \qquad
              T_\infty = T_a + \Delta T_{heat}

    Parameters
    ----------
    choke
        Rise by the heat and time constants.
    temperature
        Coil temperature at the start [K].
    ambient
        Temperature of the air around [K].
    duration
        Length of the span [s].
    heated
        Whether the heat is on: the ignition for an electric choke, the engine for exhaust.

    Returns
    -------
    Coil temperature at the end [K].

    Notes
    -----
    First principles: one lump with one conductance, exact for a span of any length.
    """
    rise, time = (choke.heat_rise, choke.heat_time) if heated else (0.0, choke.cool_time)
    final = ambient + rise
    return final + (temperature - final) * exp(-duration / time)
