"""Faults of the bowl's vents and of the canister: what moves the pressure in the bowl."""

from dataclasses import replace

from fuelcircuits.faults.change import moved, narrowed, raised, scaled
from fuelcircuits.faults.fault import Fault
from fuelcircuits.physics.circuits.float_balance import WARM
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings

__all__ = ["VENT_FAULTS"]

HOTTEST = 348.0
"""Fuel in a bowl over a hot engine that was shut off in traffic [K] (common practice)."""
MOST_VAPOUR = 1e-4
"""Vapour such a bowl makes [kg/s] (common practice, no source)."""


def _hot_bowl(rig: Rig, settings: Settings, severity: float) -> Settings:
    """Return settings with the fuel warmed and boiling off; it was at 15 degC if none is given."""
    if severity == 0:
        return settings
    cold = WARM if settings.fuel_temperature is None else settings.fuel_temperature
    warm = max(cold, (1 - severity) * cold + severity * HOTTEST)
    return replace(settings, fuel_temperature=warm, vapour=settings.vapour + severity * MOST_VAPOUR)


VENT_FAULTS = (
    Fault(
        "cover-gasket-leak",
        "vents",
        "The gasket under the bowl cover leaks to the outside: at worst by 20 mm².",
        (raised("vents.gasket_leak", 20e-6),),
    ),
    Fault(
        "inside-vent-blocked",
        "vents",
        "The calibrated vent to the air horn is blocked: at worst a hundredth is left open.",
        (narrowed("vents.inside_bore", 0.01),),
        part="vents.inside_bore",
    ),
    Fault(
        "outside-vent-stuck-open",
        "vents",
        "The outside vent hangs open when the throttle opens: at worst by 1 mm.",
        (raised("vents.outside_hang", 1e-3),),
        part="vents.outside_bore",
    ),
    Fault(
        "outside-vent-stuck-shut",
        "vents",
        "The outside vent no longer opens at closed throttle: at worst not at all.",
        (moved("vents.outside_setting", 0.0),),
        part="vents.outside_setting",
    ),
    Fault(
        "outside-vent-set-wide",
        "vents",
        "The outside vent is set to open too far, and so it shuts too late: at worst at three "
        "times its setting.",
        (scaled("vents.outside_setting", 3.0),),
        part="vents.outside_setting",
    ),
    Fault(
        "vent-solenoid-dead",
        "vents",
        "The two-way vent's solenoid no longer pulls: at worst the inside vent stays shut and "
        "the canister line open with the ignition on.",
        (moved("vents.solenoid_pull", 0.0),),
        part="vents.switched_share",
    ),
    Fault(
        "vent-solenoid-stuck",
        "vents",
        "The two-way vent does not spring back: at worst the canister line stays shut and the "
        "inside vent open with the ignition off.",
        (moved("vents.solenoid_stick", 1.0),),
        part="vents.switched_share",
    ),
    Fault(
        "canister-purge-blocked",
        "vents",
        "The canister's purge orifice is blocked: at worst no air purges the bed.",
        (narrowed("canister.purge_bore"),),
        part="canister.purge_bore",
    ),
    Fault(
        "heat-insulator-missing",
        "vents",
        "The insulating block under the carburettor was left out: at worst twice the heat comes "
        "up from the manifold.",
        (scaled("hot_soak.block_to_bowl", 2.0),),
    ),
    Fault(
        "hot-bowl",
        "vents",
        "Fuel boils off in the bowl of an engine run hot in traffic: at worst at 75 °C and "
        "0.1 g/s.",
        conditions=_hot_bowl,
    ),
)
"""Vents, gasket, two-way solenoid, canister, heat (sizes: common practice, no source)."""
