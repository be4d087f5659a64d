"""Faults of the choke and of the cold-start enrichment of the idle."""

from dataclasses import replace

from fuelcircuits.faults.change import moved, raised
from fuelcircuits.faults.fault import Fault
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings

__all__ = ["CHOKE_FAULTS"]


def _seized(rig: Rig, settings: Settings, severity: float) -> Settings:
    """Return settings with the choke plate on its way to shut."""
    closed, angle = rig.air_path.choke_closed_angle, settings.choke_angle
    return replace(settings, choke_angle=(1 - severity) * angle + severity * closed)


CHOKE_FAULTS = (
    Fault(
        "choke-coil-slack",
        "choke",
        "The coil has sagged or its cover is set lean: at worst the plate rests 46° too far open.",
        (raised("choke.slack", 0.8),),
    ),
    Fault(
        "choke-coil-tight",
        "choke",
        "The coil's cover is set rich: at worst the plate rests 46° too far shut.",
        (raised("choke.slack", -0.8),),
    ),
    Fault(
        "choke-heat-dead",
        "choke",
        "The heater is not fed or the heat tube is blocked: at worst the coil stays cold.",
        (moved("choke.heat_rise", 0.0),),
    ),
    Fault(
        "pull-off-torn",
        "choke",
        "The vacuum pull-off's diaphragm leaks: at worst it feels no vacuum.",
        (moved("choke.pull_off_leak", 1.0),),
    ),
    Fault(
        "choke-stuck-shut",
        "choke",
        "The choke plate is seized: at worst shut on a warm engine.",
        conditions=_seized,
    ),
    Fault(
        "cold-start-timer-dead",
        "cold start",
        "The timer lets go too soon: at worst it never energises its solenoid after the start.",
        (moved("cold_start.timer", 0.0),),
    ),
    Fault(
        "cold-start-timer-long",
        "cold start",
        "The timer does not let go: at worst it holds for ten minutes.",
        (moved("cold_start.timer", 600.0),),
    ),
    Fault(
        "cold-start-solenoid-dead",
        "cold start",
        "The solenoid of the enrichment makes only part of its travel: at worst none.",
        (moved("cold_start.solenoid_pull", 0.0),),
    ),
    Fault(
        "coolant-switch-reads-cold",
        "cold start",
        "The coolant switch stays open to vacuum on a warm engine: at worst up to 76 °C.",
        (moved("cold_start.switch_point", 349.15),),
    ),
    Fault(
        "coolant-switch-reads-warm",
        "cold start",
        "The coolant switch shuts vacuum off on a cold engine: at worst down to -22 °C.",
        (moved("cold_start.switch_point", 251.15),),
    ),
    Fault(
        "enrichment-valve-stuck-shut",
        "cold start",
        "The enrichment's air valve stays shut: at worst the idle air it shuts never comes back.",
        (moved("cold_start.stuck_shut", 1.0),),
    ),
)
"""Coil, heat, pull-off, plate; timer, switch, valve (sizes: common practice, no source)."""
