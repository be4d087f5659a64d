"""Power enrichment: a stepped metering rod in the main jet, held down by manifold vacuum.

At part throttle manifold vacuum pulls the rod's piston down and the rod's thick step fills
much of the jet. When the throttle opens the vacuum falls, a spring lifts the rod, and its
thinner steps leave the jet more open. Two steps or three: a rod whose last two steps are equal
has two.
"""

from dataclasses import dataclass
from math import pi

from fuelcircuits.errors import RangeError
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.numerics.corners import smooth_step
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["THINNEST", "Power", "jet_area", "jet_gap", "rod_diameter", "rod_lift"]

THINNEST = 10e-6
"""Film that passes a rod which fills its jet [m]."""


@dataclass(frozen=True)
class Power(Section):
    """The metering rod and what moves it (dimensions invented for each rig)."""

    piston_bore: float = entry("m", 3e-3, 30e-3, "bore of the vacuum piston")
    spring_force: float = entry("N", 0.05, 30, "force of the spring with the rod down")
    spring_rate: float = entry("N/m", 5, 5000, "rate of the spring")
    travel: float = entry("m", 1e-3, 20e-3, "travel of the rod, down to up")
    lean_step: float = entry("m", 0, 3.5e-3, "diameter in the jet with the rod down")
    middle_step: float = entry("m", 0, 3.5e-3, "diameter in the jet half way")
    rich_step: float = entry("m", 0, 3.5e-3, "diameter in the jet with the rod up")
    first_edge: float = entry("1", 0, 1, "share of the travel at the first step's edge", 0.3)
    second_edge: float = entry("1", 0, 1, "share of the travel at the second step's edge", 0.7)
    taper: float = entry("1", 0.01, 0.5, "share of the travel each edge is tapered over", 0.2)
    least_lift: float = entry("1", 0, 1, "share of the travel below which a stuck rod stays", 0.0)
    most_lift: float = entry("1", 0, 1, "share of the travel beyond which a stuck rod stays", 1.0)

    def __post_init__(self) -> None:
        """Check every entry, and that each step is no thicker than the one before."""
        super().__post_init__()
        if not self.lean_step >= self.middle_step >= self.rich_step:
            raise RangeError(
                "rod steps must thin from lean to rich, got "
                f"{self.lean_step}, {self.middle_step}, {self.rich_step} m"
            )


def rod_lift(power: Power, manifold_vacuum: float) -> float:
    r"""Return the lift of the metering rod as a share of its travel.

    .. math:: x = \left[\frac{F - A_p \Delta}{k s}\right]_0^1

    Parameters
    ----------
    power
        Spring force F with the rod down, its rate k, travel s, area A_p of the piston.
    manifold_vacuum
        Pressure outside less manifold pressure, :math:`\Delta` [Pa].

    Returns
    -------
    Share of the travel [1]: 0 down and lean, 1 up and rich; held where a stuck rod stays.

    References
    ----------
    First principles: balance of a spring and a piston.
    """
    push = power.spring_force - bore_area(power.piston_bore) * manifold_vacuum
    free = push / (power.spring_rate * power.travel)
    held = power.least_lift if free < power.least_lift else free
    return power.most_lift if held > power.most_lift else held


def rod_diameter(power: Power, lift: float) -> float:
    r"""Return the diameter of the rod where it stands in the jet.

    .. math:: d = d_1 - (d_1 - d_2) S\!\left(\frac{x - e_1}{t}\right)
                      - (d_2 - d_3) S\!\left(\frac{x - e_2}{t}\right)

    with S rising smoothly from 0 to 1 over the taper t round each edge e.

    Parameters
    ----------
    power
        The rod's steps and edges.
    lift
        Share x of the travel [1].

    Returns
    -------
    Diameter [m].

    References
    ----------
    First principles (geometry); the tapers are smooth cubic steps.
    """
    first = smooth_step((lift - power.first_edge) / power.taper + 0.5)
    second = smooth_step((lift - power.second_edge) / power.taper + 0.5)
    thinned = (power.lean_step - power.middle_step) * first
    return power.lean_step - thinned - (power.middle_step - power.rich_step) * second


def jet_gap(jet_bore: float, rod: float) -> float:
    """Return the hydraulic diameter of the ring round the rod [m], never below 10 um.

    A rod thicker than its jet cannot enter it; such a pair counts as shut but for a film.
    """
    return max(jet_bore - rod, THINNEST)


def jet_area(jet_bore: float, rod: float) -> float:
    r"""Return the open area of a jet with a rod in it.

    .. math:: A = \frac\pi4 \left(D^2 - d^2\right)

    Parameters
    ----------
    jet_bore
        Bore D of the main jet [m].
    rod
        Diameter d of the rod in it [m].

    Returns
    -------
    Area [m2], that of a 10 um film where the rod fills the jet.

    References
    ----------
    First principles.
    """
    gap = jet_gap(jet_bore, rod)
    return 0.25 * pi * gap * (2.0 * jet_bore - gap)
