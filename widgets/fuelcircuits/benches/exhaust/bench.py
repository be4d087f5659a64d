"""The exhaust bench: one mixture, and all that it shows itself in."""

from collections.abc import Mapping
from typing import Any, ClassVar, NamedTuple

import numpy as np

from fuelcircuits.benches.exhaust.drawing import place
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    AIR_FUEL_RATIO,
    FINE_SHARE,
    RATIO,
    SHARE,
    System,
    measure,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.physics.engine.torque import BEST_TORQUE, consumption_factor, torque_factor
from fuelcircuits.physics.matter.analyser import lambda_brettschneider, reading
from fuelcircuits.physics.matter.exhaust import Exhaust
from fuelcircuits.physics.matter.fuel import Composition, Fuel, composition, stoichiometric_ratio

__all__ = ["ExhaustBench", "Found"]

GAS = measure("dimensionless", ("percent", 2), ("percent", 2))
LAMBDAS = np.linspace(0.65, 1.5, 86)
MISFIRE = 1.35
"""Lambda beyond which a cylinder fires now and then only; see `torque_factor`."""
FINE = np.linspace(0.9, 1.4, 501)
THRIFTY = float(FINE[np.argmin(consumption_factor(FINE))])
"""Lambda at which the same work takes least fuel [1]."""
THRIFTIEST = float(consumption_factor(THRIFTY))


class Found(NamedTuple):
    """What the bench has worked out at one setting."""

    mixture: float  # true lambda
    ratio: float  # air-fuel ratio by mass
    need: float  # air-fuel ratio that just burns
    gas: Exhaust  # what the probe draws in
    shown: float  # lambda that the analyser works out
    torque: float  # of the best
    consumption: float  # of the least


class ExhaustBench(Bench):
    """Lambda against the gases of the exhaust, torque and consumption; no rig is needed."""

    title = "The mixture, and what the exhaust tells of it"
    picture = "exhaust.svg"
    needs_rig = False
    page_grid: ClassVar[Mapping[str, int]] = {"petrol_lambda": 31, "ethanol": 4, "false_air": 4}

    petrol_lambda = Control("Lambda on petrol", RATIO, 0.7, 1.3, steps=(0.01, 0.01), start=0.95)
    ethanol = Control("Ethanol in fuel", SHARE, 0, 0.3, steps=(1, 1), start=0)
    spread = Control("Spread of cylinders", SHARE, 0, 0.1, steps=(0.5, 0.5), start=0.03)
    false_air = Control("False air at probe", SHARE, 0, 0.4, steps=(1, 1), start=0)

    def __init__(self) -> None:
        super().__init__()

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what leaves the engine, with the curves over every lambda."""
        fuel = Fuel(ethanol=values["ethanol"])
        made = composition(fuel)
        now = _found(fuel, made, values)
        return State(
            readings=_readings(now),
            numbers=place(now, values["false_air"]),
            chart=_chart(now, made, values),
            verdict=_verdict(now),
            drawn=_drawn(now),
            plotted=_plotted(now),
            alarm=now.mixture > MISFIRE,
            gauges=_gauges(now),
        )


def _found(fuel: Fuel, made: Composition, values: Mapping[str, Any]) -> Found:
    """Return the mixture: the carburettor holds it by mass, whatever the fuel."""
    need = float(stoichiometric_ratio(fuel))
    ratio = values["petrol_lambda"] * float(stoichiometric_ratio(Fuel()))
    mixture = ratio / need
    gas = _gas(mixture, made, values)
    shown = lambda_brettschneider(
        gas.co2, gas.co, gas.o2, gas.hc, made.hydrogen_per_carbon, oxygen=made.oxygen_per_carbon
    )
    return Found(
        mixture=mixture,
        ratio=ratio,
        need=need,
        gas=gas,
        shown=float(shown),
        torque=float(torque_factor(mixture)),
        consumption=float(consumption_factor(mixture)) / THRIFTIEST,
    )


def _gas(mixture: Any, made: Composition, values: Mapping[str, Any]) -> Exhaust:
    return reading(
        mixture,
        made.hydrogen_per_carbon,
        made.oxygen_per_carbon,
        spread=values["spread"],
        false_air=values["false_air"],
    )


def _chart(now: Found, made: Composition, values: Mapping[str, Any]) -> Chart:
    """Return gases, torque and consumption against the true lambda."""
    gas = _gas(LAMBDAS, made, values)
    here = np.full(2, now.mixture)
    gases = Panel(
        y=Axis("Dry exhaust by volume", SHARE, 0, 0.16),
        curves=(
            Curve("mark", here, np.array([0, 0.16]), ""),
            Curve("lead", LAMBDAS, gas.co, "CO"),
            Curve("other", LAMBDAS, gas.o2, "O₂"),
            Curve("third", LAMBDAS, gas.co2, "CO₂"),
        ),
        dot=Dot(now.mixture, float(now.gas.co)),
        share=1.6,
    )
    work = Panel(
        y=Axis("Of the best", SHARE, 0.6, 1.5),
        curves=(
            Curve("mark", here, np.array([0.6, 1.5]), ""),
            Curve("fourth", LAMBDAS, torque_factor(LAMBDAS), "torque"),
            Curve("fifth", LAMBDAS, consumption_factor(LAMBDAS) / THRIFTIEST, "fuel for the work"),
        ),
        dot=Dot(now.mixture, now.torque),
    )
    return Chart(Axis("Lambda", RATIO, 0.65, 1.5), (gases, work))


def _readings(now: Found) -> tuple[Reading, ...]:
    return (
        Reading("Lambda", now.mixture, RATIO),
        Reading("Lambda the analyser works out", now.shown, RATIO),
        Reading("Air to fuel by mass", now.ratio, AIR_FUEL_RATIO),
        Reading("Air that just burns it", now.need, AIR_FUEL_RATIO),
        Reading("Carbon dioxide", float(now.gas.co2), FINE_SHARE),
        Reading("Hydrogen", float(now.gas.h2), FINE_SHARE),
        Reading("Torque, of the most", now.torque, FINE_SHARE),
        Reading("Fuel for the work, of the least", now.consumption, FINE_SHARE),
    )


def _gauges(now: Found) -> tuple[Gauge, ...]:
    """Return the analyser's dials.

    Accuracy: OIML R 99, class I, maximum permissible errors (from memory).
    """
    carbon, oxygen = float(now.gas.co), float(now.gas.o2)
    return (
        Gauge("CO", carbon, GAS, 0, 0.1, accuracy=0.6e-3, noise=0.2e-3),
        Gauge("O₂", oxygen, GAS, 0, 0.25, accuracy=1e-3, noise=0.3e-3),
        Gauge("Lambda shown", now.shown, RATIO, 0.6, 1.6, accuracy=0.01, noise=2e-3),
    )


def _verdict(now: Found) -> str:
    if now.mixture > MISFIRE:
        return "So lean that the engine misfires: cylinders fire now and then only."
    left = f"{FINE_SHARE.text(float(now.gas.co), 'SI')} CO"
    if now.mixture < 0.995:
        return f"Rich: air is lacking, and the exhaust holds {left}, which is poison."
    if now.mixture <= 1.005:
        return f"Air and fuel just match; uneven cylinders still leave {left}."
    return f"Lean: air is left over, and the exhaust holds {left}."


def _drawn(now: Found) -> str:
    """Return the drawing in words."""
    gas = {"CO₂": now.gas.co2, "CO": now.gas.co, "O₂": now.gas.o2, "H₂": now.gas.h2}
    shares = ", ".join(f"{name} {FINE_SHARE.text(float(of), 'SI')}" for name, of in gas.items())
    return (
        f"A bar shows {AIR_FUEL_RATIO.text(now.ratio, 'SI')} parts of air to one of fuel by mass, "
        f"with a mark at the {AIR_FUEL_RATIO.text(now.need, 'SI')} parts that just burn it. Below, "
        "a cylinder draws in the mixture and sends the burnt gas along a pipe, past a leak that "
        f"may draw in air, to an analyser. Its four columns stand at {shares}."
    )


def _plotted(now: Found) -> str:
    """Return the plot in words."""
    return (
        "Two plots against lambda. Above, the dry exhaust: CO falls to almost nothing as lambda "
        "nears 1, O₂ rises from there on, CO₂ is highest in between. Below, torque is most at a "
        f"lambda of {BEST_TORQUE:.2f} and falls to both sides; the fuel for the work is least at "
        f"{THRIFTY:.2f}. "
        f"The line across stands at a lambda of {RATIO.text(now.mixture, 'SI')}, where torque is "
        f"{FINE_SHARE.text(now.torque, 'SI')} of the most."
    )
