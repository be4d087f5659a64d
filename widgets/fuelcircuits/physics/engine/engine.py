"""The engine as an air pump: what it breathes.

Speeds are angular [rad/s]; a four-stroke engine breathes its displacement once in two turns.
"""

from dataclasses import dataclass
from math import pi

from fuelcircuits.errors import positive
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT

__all__ = [
    "Engine",
    "air_demand",
    "manifold_pressure",
    "manifold_temperature",
    "pumped_air",
    "swept_flow",
    "volumetric_efficiency",
]

CHARGE_HEAT_RATIO = 1.35
"""Ratio of specific heats of fresh charge and residual gas [1] (Heywood 1988, figure 4-13)."""
FUEL_VAPOUR_CONSTANT = 80.0
"""Gas constant of petrol vapour [J/(kg K)]: 8314 over about 104 kg/kmol."""


@dataclass(frozen=True)
class Engine(Section):
    """A four-stroke spark-ignition engine."""

    displacement: float = entry("m^3", 0.5e-3, 9e-3, "volume swept by all cylinders together")
    cylinders: float = entry("1", 2, 12, "number of cylinders")
    idle_speed: float = entry("rad/s", 40, 130, "curb idle speed, warm, out of gear")
    highest_speed: float = entry("rad/s", 200, 800, "highest speed allowed")
    breathing: float = entry("1", 0.5, 1.1, "highest volumetric efficiency, of manifold density")
    breathing_speed: float = entry("rad/s", 100, 600, "speed of the highest volumetric efficiency")
    breathing_width: float = entry(
        "rad/s", 100, 2000, "distance from that speed at which half the efficiency is left"
    )
    compression_ratio: float = entry("1", 6, 12, "compression ratio", 8.5)
    charge_heating: float = entry(
        "K", 0, 80, "rise of the charge's temperature from air horn to cylinder, warm", 25.0
    )
    indicated_efficiency: float = entry(
        "1", 0.2, 0.45, "gross indicated work over the heat the air can set free", 0.31
    )
    accessory_torque: float = entry(
        "N m", 0, 60, "torque taken by fan, pumps, alternator and gearbox out of gear", 10.0
    )
    inertia: float = entry("kg m^2", 0.03, 2, "moment of inertia at the crankshaft", 0.25)
    manifold_share: float = entry(
        "1", 0.05, 3, "volume from throttle plates to intake valves over the displacement", 0.5
    )
    """Half the displacement unless a card says more: common practice, no source."""
    spark_late: float = entry("rad", -0.7, 0.7, "how late the spark comes, by the card", 0.0)
    dead_cylinders: float = entry("1", 0, 2, "cylinders whose work is lost, parts counted", 0.0)
    exhaust_resistance: float = entry(
        "Pa s^2/kg^2", 0, 1e9, "back-pressure of the exhaust over the air flow squared", 0.0
    )
    recirculation: float = entry("m^2", 0, 1e-4, "effective area that lets exhaust in", 0.0)


def swept_flow(displacement: float, speed: float) -> float:
    r"""Return the volume a four-stroke engine sweeps on its intake strokes each second.

    .. math:: \dot V = \frac{V \omega}{4 \pi}

    Parameters
    ----------
    displacement
        Volume V swept by all cylinders [m3].
    speed
        Crankshaft speed :math:`\omega` [rad/s].

    Returns
    -------
    Volume flow [m3/s].

    References
    ----------
    First principles: one intake stroke a cylinder in two turns of the crankshaft.
    """
    return displacement * speed / (4 * pi)


def pumped_air(
    swept: float,
    pressure: float,
    temperature: float,
    vapour_ratio: float = 0.0,
    vapour_constant: float = FUEL_VAPOUR_CONSTANT,
) -> float:
    r"""Return the air in a volume filled with air and fuel vapour together.

    .. math:: \dot m = \frac{p \dot V}{(R_a + x R_f) T}

    Parameters
    ----------
    swept
        Volume flow V really filled, volumetric efficiency included [m3/s].
    pressure, temperature
        State of the mixture [Pa], [K].
    vapour_ratio
        Mass x of fuel vapour for each kilogram of air [1].
    vapour_constant
        Gas constant of the fuel vapour [J/(kg K)].

    Returns
    -------
    Air flow [kg/s].

    References
    ----------
    First principles (Dalton); Heywood 1988, eq. 6.3, says the same with molar masses.
    """
    mixture = AIR_CONSTANT + vapour_ratio * vapour_constant
    return pressure * swept / (mixture * temperature)


def volumetric_efficiency(engine: Engine, speed: float) -> float:
    r"""Return the volumetric efficiency, of manifold density, with no exhaust left behind.

    .. math:: \eta = \frac{\eta_{max}}{1 + \left((\omega - \omega_{max})/w\right)^2}

    Parameters
    ----------
    engine
        Its `breathing`, `breathing_speed` and `breathing_width` are the three parameters.
    speed
        Crankshaft speed [rad/s].

    Returns
    -------
    Volumetric efficiency [1].

    References
    ----------
    A smooth curve of the shape in Heywood 1988, figure 6-9; the form is this package's own.
    """
    distance = (speed - engine.breathing_speed) / engine.breathing_width
    return engine.breathing / (1 + distance**2)


def manifold_temperature(engine: Engine, ambient_temperature: float) -> float:
    """Return the temperature of the charge [K], warmer than outside by `charge_heating`."""
    return ambient_temperature + engine.charge_heating


def _residual(engine: Engine) -> tuple[float, float]:
    """Return a and b of ``fresh charge = a * manifold pressure - b * exhaust pressure``."""
    clearance = 1 / (engine.compression_ratio - 1)
    b = clearance / CHARGE_HEAT_RATIO
    return 1 + b, b


def air_demand(
    engine: Engine,
    speed: float,
    manifold_pressure: float,
    temperature: float,
    exhaust_pressure: float,
    *,
    vapour_ratio: float = 0.0,
) -> float:
    r"""Return the air an engine takes from its manifold.

    .. math::
        \dot m = \eta(\omega) \frac{V \omega}{4 \pi}
        \frac{p_m}{(R_a + x R_f) T}
        \left[1 - \frac{p_e/p_m - 1}{\gamma (r - 1)}\right]

    The bracket is what exhaust left in the clearance volume, expanding back into the
    manifold, takes away; it is 1 when both pressures are equal. The flow is a straight line
    in the manifold pressure.

    Parameters
    ----------
    engine
        Displacement V, compression ratio r and breathing curve.
    speed
        Crankshaft speed [rad/s].
    manifold_pressure
        Absolute pressure p_m [Pa]. Below about a tenth of the exhaust pressure the flow
        comes out negative: exhaust then fills the manifold.
    temperature
        Temperature T of the charge [K]; see `manifold_temperature`.
    exhaust_pressure
        Absolute pressure p_e beyond the exhaust valve [Pa].
    vapour_ratio
        Mass x of fuel vapour for each kilogram of air [1].

    Returns
    -------
    Air flow [kg/s].

    References
    ----------
    Heywood 1988, eq. 6.2 (the ideal cycle) over its value at equal pressures.
    """
    a, b = _residual(engine)
    swept = volumetric_efficiency(engine, speed) * swept_flow(engine.displacement, speed)
    fresh = a * manifold_pressure - b * exhaust_pressure
    return pumped_air(swept, fresh, temperature, vapour_ratio)


def manifold_pressure(
    engine: Engine,
    speed: float,
    air_flow: float,
    temperature: float,
    exhaust_pressure: float,
    *,
    vapour_ratio: float = 0.0,
) -> float:
    """Return the manifold pressure at which the engine takes `air_flow`.

    The exact inverse of `air_demand`, whose equation, arguments and source it shares.

    Returns
    -------
    Absolute manifold pressure [Pa].

    Raises
    ------
    RangeError
        If the speed is not positive: an engine at rest takes no air.
    """
    positive("speed", speed, "rad/s")
    a, b = _residual(engine)
    swept = volumetric_efficiency(engine, speed) * swept_flow(engine.displacement, speed)
    fresh = air_flow / pumped_air(swept, 1.0, temperature, vapour_ratio)
    return (fresh + b * exhaust_pressure) / a
