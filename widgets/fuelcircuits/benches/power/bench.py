"""The power bench: manifold vacuum, the metering rod, and the mixture step it makes."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.carburettor.mixture_curve import held, held_point
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    AREA,
    FORCE,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_LENGTH,
    SPEED,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.benches.power.drawing import place
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.power import Power, jet_area, rod_diameter, rod_lift
from fuelcircuits.physics.network import state as physics
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["PowerBench"]

FULL_LOAD, CRUISE = 12e3, 40e3
"""Manifold vacuum below which an engine works hard, and above which it runs light [Pa]."""
LEANEST, RICHEST = 0.95, 0.90
"""Lambda at most under full load and at least in cruising (common practice, no source)."""
STUCK = {"free": {}, "down": {"most_lift": 0.0}, "up": {"least_lift": 1.0}}
"""What each state of the rod changes on the card."""


class PowerBench(Bench):
    """The metering rod against manifold vacuum, for the power circuit of a rig."""

    title = "Metering rod against manifold vacuum"
    picture = "power.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"throttle": 61, "rod": 3}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"spring": ("drawing",)}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {"rich_step": {"throttle": 0.5}}

    throttle = Control("Throttle opened", SHARE, 0, 1, steps=(1, 1), start=0.2)
    speed = Control("Engine speed", SPEED, 125, 380, steps=(50, 50), start=209.44)
    spring = Control("Spring, rod down", FORCE, 0.5, 4, steps=(0.02, 0.005), start=2.5)
    lean_step = Control(
        "Rod, lean step", SMALL_LENGTH, 0.75e-3, 1.1e-3, steps=(0.01, 0.0005), start=0.9e-3
    )
    rich_step = Control(
        "Rod, rich step", SMALL_LENGTH, 0.2e-3, 0.65e-3, steps=(0.01, 0.0005), start=0.5e-3
    )
    rod = Choice("Rod", {"free": "free", "down": "stuck down", "up": "stuck up"}, "free")

    def __init__(self, rig: Rig) -> None:
        if rig.power is None:
            raise CardError(f"{rig.name}: power must be given for this bench, got nothing")
        self.rig, card = rig, rig.power
        super().__init__(
            spring=float(card.spring_force),
            lean_step=float(card.lean_step),
            rich_step=float(card.rich_step),
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return where the rod stands, and the mixture at every vacuum."""
        speed, rig = values["speed"], self._changed(values, values["rod"])
        along, down, up = (
            held(self.rig, self._changed(values, each), speed)
            for each in (values["rod"], "down", "up")
        )
        now = held_point(self.rig, rig, speed, values["throttle"])
        alarm = _fault(now)
        jet, power = float(rig.high_speed.jet_bore), rig.power
        lift = float(rod_lift(power, float(now.manifold_vacuum)))
        return State(
            readings=_readings(power, jet, now, lift),
            numbers=place(power, jet, lift, float(now.flows.main_jet[0])),
            chart=_chart(power, jet, (along, down, up), now),
            verdict=_verdict(power, now, lift, alarm, system),
            drawn=_drawn(power, jet, lift, system),
            plotted=_plotted(now, down, up, system),
            alarm=bool(alarm),
            gauges=(Gauge("Manifold vacuum", float(now.manifold_vacuum), VACUUM, 0, 100e3),),
        )

    def _changed(self, values: Mapping[str, Any], rod: str) -> Rig:
        """Return the rig with this spring and rod."""
        lean, rich = values["lean_step"], values["rich_step"]
        power = replace(
            self.rig.power,
            spring_force=values["spring"],
            lean_step=lean,
            middle_step=float(np.clip(self.rig.power.middle_step, rich, lean)),
            rich_step=rich,
            **STUCK[rod],
        )
        return replace(self.rig, power=power)


def _fault(now: physics.State) -> str:
    """Return what is wrong with the mixture at this load, or nothing."""
    vacuum, mixture = float(now.manifold_vacuum), float(now.mixture)
    if vacuum < FULL_LOAD and mixture > LEANEST:
        return "too lean for full load: the engine lacks power and runs hot"
    if vacuum > CRUISE and mixture < RICHEST:
        return "too rich for light running: fuel is wasted"
    return ""


def _readings(power: Power, jet: float, now: physics.State, lift: float) -> tuple[Reading, ...]:
    vacuum, rod = float(now.manifold_vacuum), float(rod_diameter(power, lift))
    raised = lift * float(power.travel)
    return (
        Reading("Manifold vacuum", vacuum, VACUUM),
        Reading("Pull of the vacuum", float(bore_area(power.piston_bore)) * vacuum, FORCE),
        Reading(
            "Push of the spring", float(power.spring_force - power.spring_rate * raised), FORCE
        ),
        Reading("Rod raised", raised, LENGTH),
        Reading("Rod in the jet", rod, SMALL_LENGTH),
        Reading("Open ring", float(jet_area(jet, rod)), AREA),
        Reading("Mixture (lambda)", float(now.mixture), RATIO),
        Reading("Fuel the rod adds", float(now.power_fuel / now.fuel_flow), SHARE),
    )


def _chart(
    power: Power, jet: float, curves: tuple[physics.State, ...], now: physics.State
) -> Chart:
    """Return mixture and open ring against manifold vacuum."""
    along, down, up = curves
    vacuum, there = along.manifold_vacuum, float(now.manifold_vacuum)
    fine = np.linspace(0, 80e3, 81)

    def ring(at: Any) -> Any:
        return jet_area(jet, rod_diameter(power, rod_lift(power, at)))

    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, 1.2),
        curves=(
            Curve("lead", vacuum, along.mixture, "rod as it is"),
            Curve("mark", down.manifold_vacuum, down.mixture, "rod kept down"),
            Curve("other", up.manifold_vacuum, up.mixture, "rod kept up"),
        ),
        dot=Dot(there, float(now.mixture)),
        share=1.4,
    )
    opening = Panel(
        y=Axis("Open ring", AREA, 0.5e-6, 2.5e-6),
        curves=(Curve("lead", fine, ring(fine)),),
        dot=Dot(there, float(ring(there))),
    )
    return Chart(Axis("Manifold vacuum", VACUUM, 0, 80e3), (mixture, opening))


def _verdict(power: Power, now: physics.State, lift: float, fault: str, system: System) -> str:
    """Return in one sentence what the rod does."""
    vacuum, mixture = VACUUM.text(float(now.manifold_vacuum), system), float(now.mixture)
    if fault:
        return f"At {vacuum} lambda is {RATIO.text(mixture, system)}, {fault}."
    raised = LENGTH.text(lift * float(power.travel), system)
    stands = {0.0: "the vacuum holds the rod down", 1.0: "the spring holds the rod fully up"}
    where = stands.get(lift, f"spring and vacuum balance with the rod {raised} up")
    return f"At {vacuum} {where}, and lambda is {RATIO.text(mixture, system)}."


def _drawn(power: Power, jet: float, lift: float, system: System) -> str:
    """Return the drawing in words."""
    rod = float(rod_diameter(power, lift))
    return (
        "Section through the power circuit. A piston in its cylinder stands on a spring; manifold "
        "vacuum pulls it down from below. A hanger on the piston carries the metering rod, which "
        f"hangs in the main jet. The rod stands {LENGTH.text(lift * float(power.travel), system)} "
        f"above its lowest place, and {SMALL_LENGTH.text(rod, system)} of it fills the jet of "
        f"{SMALL_LENGTH.text(jet, system)}. Enlarged, and seen from above, the ring that stays "
        f"open is {AREA.text(float(jet_area(jet, rod)), system)}."
    )


def _plotted(now: physics.State, down: physics.State, up: physics.State, system: System) -> str:
    """Return the plot in words."""
    ends = [RATIO.text(float(each.mixture[-1]), system) for each in (down, up)]
    return (
        "Two plots against manifold vacuum. Above, lambda: at high vacuum the curve follows the "
        "line of a rod kept down, at low vacuum that of a rod kept up; with the throttle wide "
        f"open these end at {ends[0]} and {ends[1]}. The dot is the state now, lambda "
        f"{RATIO.text(float(now.mixture), system)} at "
        f"{VACUUM.text(float(now.manifold_vacuum), system)}. Below, the ring round the rod that "
        "stays open."
    )
