"""The float bench: how far the float drops, and how much fuel the inlet then lets in."""

from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar

import numpy as np

from fuelcircuits.benches.float_bowl.drawing import place
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    DENSITY,
    FLOW,
    FORCE,
    LENGTH,
    PRESSURE,
    SHARE,
    SMALL_LENGTH,
    System,
)
from fuelcircuits.benches.frame.state import (
    Axis,
    Band,
    Chart,
    Curve,
    Dot,
    Panel,
    Reading,
    State,
)
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.float_balance import WARM
from fuelcircuits.physics.circuits.float_bowl import (
    FloatBowl,
    FloatState,
    at_drop,
    starvation_demand,
    steady,
)
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.network.rig import Rig

__all__ = ["FloatBowlBench"]


class FloatBowlBench(Bench):
    """Float drop against inlet flow, for the float circuit of a rig."""

    title = "Float drop against inlet flow"
    picture = "float_bowl.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"fuel_pressure": 21, "demand": 25}

    fuel_pressure = Control("Fuel pressure", PRESSURE, 2e3, 60e3, steps=(0.5, 0.1), start=34.5e3)
    seat_bore = Control("Seat bore", SMALL_LENGTH, 1e-3, 4e-3, steps=(0.05, 0.002), start=2.3e-3)
    float_setting = Control("Float setting", LENGTH, 2e-3, 20e-3, steps=(0.25, 0.01), start=9e-3)
    soaked = Control("Float soaked", SHARE, 0, 0.5, steps=(1, 1), start=0)
    ethanol = Control("Ethanol in fuel", SHARE, 0, 0.85, steps=(5, 5), start=0)
    demand = Control("Fuel drawn", FLOW, 0, 12e-3, steps=(0.1, 1), start=3e-3)

    def __init__(self, rig: Rig) -> None:
        if rig.float_bowl is None:
            raise CardError(f"{rig.name}: float_bowl must be given for this bench, got nothing")
        self.card = rig.float_bowl
        super().__init__(
            fuel_pressure=self.card.fuel_pressure,
            seat_bore=self.card.seat_bore,
            float_setting=self.card.float_setting,
            soaked=self.card.soaked,
        )

    def compute(self, values: Mapping[str, float], system: System) -> State:
        """Return where the bowl settles, with the curve of all it could do."""
        changed = {name: values[name] for name in ("seat_bore", "float_setting", "soaked")}
        bowl, fuel = replace(self.card, **changed), Fuel(ethanol=values["ethanol"])
        supply, demand = values["fuel_pressure"], values["demand"]
        now = steady(bowl, fuel, demand, supply)
        most = float(starvation_demand(bowl, fuel, supply))
        return State(
            readings=_readings(bowl, fuel, now, most),
            numbers=place(bowl, self.card, now, demand),
            chart=self._chart(bowl, fuel, values, now, most),
            verdict=_verdict(bowl, now, demand, most, system),
            drawn=_drawn(bowl, now, system),
            plotted=_plotted(bowl, now, demand, most, system),
            alarm=bool(now.starved or now.flooded),
        )

    def _chart(
        self,
        bowl: FloatBowl,
        fuel: Fuel,
        values: Mapping[str, float],
        now: FloatState,
        most: float,
    ) -> Chart:
        """Return inlet flow and level against float drop, with what they are held against."""
        along = at_drop(bowl, fuel, np.linspace(0, bowl.drop_stop, 41), values["fuel_pressure"])
        ends = np.array([0, 1.04 * self.card.drop_stop])
        top = 5e-3 * np.ceil(1.2e3 / 5 * float(starvation_demand(self.card, Fuel())))
        high = bowl.specified_level - bowl.depth
        held = np.where(along.flooded, np.nan, along.level + high)
        drop, flow = float(now.drop), float(now.inlet_flow)
        inlet = Panel(
            y=Axis("Inlet flow", FLOW, 0, top),
            curves=(
                Curve("lead", along.drop, along.inlet_flow, "inlet and bowl"),
                Curve("other", ends, np.full(2, values["demand"]), "engine draws"),
            ),
            dot=Dot(drop, flow),
            band=Band(most, "bowl starves"),
            share=2.0,
        )
        level = Panel(
            y=Axis("Level from card", LENGTH, -16e-3, 16e-3),
            curves=(
                Curve("lead", along.drop, held, "inlet and bowl"),
                Curve("mark", ends, np.zeros(2), "card's level"),
            ),
            dot=Dot(drop, float(now.level) + high),
        )
        return Chart(Axis("Float drop", LENGTH, *ends), (inlet, level))


def _readings(bowl: FloatBowl, fuel: Fuel, now: FloatState, most: float) -> tuple[Reading, ...]:
    below = bowl.depth - float(now.level)
    high = bowl.specified_level - below
    return (
        Reading("Fuel below gasket face", below, LENGTH),
        Reading("Against the card's level", high, LENGTH, ways=("high", "low")),
        Reading("Float drop", float(now.drop), LENGTH),
        Reading("Needle lift", float(now.needle_lift), SMALL_LENGTH),
        Reading("Inlet flow", float(now.inlet_flow), FLOW),
        Reading("Most it can pass", most, FLOW),
        Reading("Force on the needle", float(now.needle_force), FORCE),
        Reading("Fuel density", float(density(fuel, WARM)), DENSITY),
    )


def _verdict(bowl: FloatBowl, now: FloatState, demand: float, most: float, system: System) -> str:
    """Return in one sentence what the bowl does."""
    if now.starved:
        return (
            f"The bowl starves: the engine draws {FLOW.text(demand, system)}, and with the "
            f"float fully dropped the inlet passes only {FLOW.text(most, system)}. It runs empty."
        )
    if now.flooded:
        return (
            "The bowl floods: the float cannot push the needle shut, "
            f"{FLOW.text(float(now.inlet_flow), system)} comes in, and fuel runs over the brim."
        )
    where = f"{_against_card(bowl, now, system)} the card's"
    if now.inlet_flow <= 0:
        return f"The needle is shut, and the bowl holds its level {where}."
    return (
        f"The bowl holds its level {where}; "
        f"the inlet passes the {FLOW.text(float(now.inlet_flow), system)} that the engine draws."
    )


def _against_card(bowl: FloatBowl, now: FloatState, system: System) -> str:
    high = float(now.level) + bowl.specified_level - bowl.depth
    return f"{LENGTH.text(abs(high), system)} {'above' if high > 0 else 'below'}"


def _drawn(bowl: FloatBowl, now: FloatState, system: System) -> str:
    """Return the drawing in words."""
    below = LENGTH.text(bowl.depth - float(now.level), system)
    lift = SMALL_LENGTH.text(float(now.needle_lift), system)
    return (
        "Section through the float bowl. Fuel comes from the pump through the cover and down past "
        "needle and seat; a twin float on a lever, hinged at the fulcrum beside the needle, pushes "
        f"the needle up. The fuel stands {below} below the gasket face; the float hangs "
        f"{LENGTH.text(float(now.drop), system)} below its shut position and the needle is {lift} "
        "off its seat. A dashed line marks the level on the card."
    )


def _plotted(bowl: FloatBowl, now: FloatState, demand: float, most: float, system: System) -> str:
    """Return the plot in words."""
    return (
        "Two plots against float drop. Above, inlet flow: it rises from nought with the needle "
        f"shut to {FLOW.text(most, system)} at the drop stop, "
        f"{LENGTH.text(bowl.drop_stop, system)} down; beyond that the bowl starves. A level line "
        f"marks the {FLOW.text(demand, system)} that the engine draws; the dot is the state now, "
        f"{FLOW.text(float(now.inlet_flow), system)} at a drop of "
        f"{LENGTH.text(float(now.drop), system)}. Below, the fuel level that holds the float "
        f"there: now {_against_card(bowl, now, system)} the card's."
    )
