"""The vents bench: what the bowl breathes through, the pressure that follows, and the mixture."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, ClassVar, NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.bowl_vents.drawing import place
from fuelcircuits.benches.bowl_vents.words import (
    FELT,
    VENT_FLOW,
    drawn,
    far,
    plotted,
    readings,
    verdict,
)
from fuelcircuits.benches.carburettor.running import AIR, PETROL, RUNNING, card_state, running
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    AREA,
    LENGTH,
    RATIO,
    SHARE,
    SMALL_PRESSURE,
    TEMPERATURE,
    System,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.bowl_vents import Surroundings, Vents, net_flow, vent_flows
from fuelcircuits.physics.motion.boiling import vapour_flow
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings

__all__ = ["BowlVentsBench"]

FITTED = Vents(inside_bore=5e-3, outside_bore=8e-3, canister_bore=6e-3, switched_share=1.0)
"""What the bench fits, shut, where the card has no such opening (sizes invented)."""
SPANS: Mapping[str, tuple[float, float]] = {
    "idle": (-220.0, 260.0),
    "cruise": (-700.0, 300.0),
    "full": (-3900.0, 900.0),
}
"""Bowl pressure less that outside [Pa], as far as the plot shows it."""
MIXTURES = (0.5, 1.3)
"""Ends of the plot [lambda]."""
COUNT, FINE = 23, 161


class Found(NamedTuple):
    """What the bench has worked out at one setting; pressures less that outside [Pa]."""

    way: str
    vents: Vents
    vapour: float  # kg/s
    horn: float
    bowl: float
    state: Any
    inward: Any  # kg/s by each opening
    card: float  # lambda that the card's own vents give


class BowlVentsBench(Bench):
    """Bowl pressure against mixture, for the vents of a rig.

    All vents that such bowls have are on the bench; those that the card lacks start shut.
    """

    title = "Bowl pressure against mixture"
    picture = "bowl_vents.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"cleaner_blocked": 15, "gasket_leak": 12}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "inside_blocked": {"gasket_leak": 20e-6},
        "outside_setting": {"way": "idle"},
        "canister_suction": {"solenoid_pull": 0.0},
    }

    way = Choice("Engine", RUNNING, "cruise")
    cleaner_blocked = Control("Air cleaner blocked", SHARE, 0, 0.7, steps=(5, 5), start=0)
    inside_blocked = Control("Inside vent blocked", SHARE, 0, 0.9, steps=(5, 5), start=0)
    outside_setting = Control("Outside vent set", LENGTH, 0, 5e-3, steps=(0.1, 0.005), start=1.5e-3)
    outside_hang = Control("Outside vent hung", LENGTH, 0, 2e-3, steps=(0.1, 0.005), start=0)
    solenoid_pull = Control("Solenoid pulled in", SHARE, 0, 1, steps=(5, 5), start=1)
    canister_suction = Control(
        "Suction at canister", SMALL_PRESSURE, 0, 200, steps=(10, 0.05), start=0
    )
    gasket_leak = Control("Gasket leak", AREA, 0, 40e-6, steps=(1, 0.002), start=0)
    fuel_temperature = Control(
        "Fuel in the bowl", TEMPERATURE, 288.15, 331.15, steps=(1, 2), start=298.15
    )

    def __init__(self, rig: Rig) -> None:
        for name in ("vents", "hot_soak"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.card = rig
        super().__init__(
            outside_setting=rig.vents.outside_setting,
            outside_hang=rig.vents.outside_hang,
            solenoid_pull=rig.vents.solenoid_pull,
            gasket_leak=rig.vents.gasket_leak,
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the pressure at which the bowl settles, and the mixture that it gives."""
        found = self._found(values)
        return State(
            readings=readings(found),
            numbers=place(found, values, SPANS[found.way]),
            chart=self._chart(found, values),
            verdict=verdict(found, system),
            drawn=drawn(found, system),
            plotted=plotted(found, system),
            alarm=bool(abs(far(found)) > FELT),
        )

    def _found(self, values: Mapping[str, Any]) -> Found:
        """Return the balance of the bowl and of the whole carburettor."""
        vents, way = self._vents(values), values["way"]
        warm = values["fuel_temperature"]
        vapour = _vapour(self.card, vents, warm)
        canister = AIR.pressure - values["canister_suction"]
        settings = Settings(fuel_temperature=warm, vapour=vapour, canister_pressure=canister)
        rig = replace(_dirty(self.card, values["cleaner_blocked"]), vents=vents)
        state = running(self.card, rig, way, settings)
        around = Surroundings(
            horn=state.pressures.horn,
            ambient=AIR.pressure,
            throttle_angle=state.throttle_angle,
            vapour=vapour,
            canister=canister,
        )
        horn, bowl = (
            float(each - AIR.pressure) for each in (state.pressures.horn, state.pressures.bowl)
        )
        inward = vent_flows(vents, state.pressures.bowl, around)[0]
        own = float(card_state(self.card, way).mixture)
        return Found(way, vents, vapour, horn, bowl, state, inward, own)

    def _vents(self, values: Mapping[str, Any]) -> Vents:
        """Return the card's vents as they have been changed, with what the bench fits."""
        card = self.card.vents
        clear = np.sqrt(1 - values["inside_blocked"])
        return replace(
            card,
            inside_bore=float(clear) * card.inside_bore,
            outside_bore=card.outside_bore or FITTED.outside_bore,
            canister_bore=card.canister_bore or FITTED.canister_bore,
            switched_share=card.switched_share or FITTED.switched_share,
            outside_setting=values["outside_setting"],
            outside_hang=values["outside_hang"],
            solenoid_pull=values["solenoid_pull"],
            gasket_leak=values["gasket_leak"],
        )

    def _chart(self, found: Found, values: Mapping[str, Any]) -> Chart:
        """Return mixture, and gas won by the bowl, against bowl pressure."""
        low, high = SPANS[found.way]
        gauge, mixture = _curve(
            self.card, found.way, values["cleaner_blocked"], values["fuel_temperature"]
        )
        around = Surroundings(
            AIR.pressure + found.horn,
            AIR.pressure,
            found.state.throttle_angle,
            vapour=found.vapour,
            canister=AIR.pressure - values["canister_suction"],
        )
        held = float(np.clip(found.bowl, low, high))
        fine = np.sort(np.append(np.linspace(low, high, FINE), held))
        won = net_flow(found.vents, AIR.pressure + fine, around)[0]
        top = Panel(
            y=Axis("Lambda", RATIO, *MIXTURES),
            curves=(
                Curve("lead", gauge, mixture, "mixture"),
                Curve("other", np.zeros(2), np.array(MIXTURES), "outside"),
                Curve("mark", np.full(2, found.horn), np.array(MIXTURES), "air horn"),
            ),
            dot=Dot(held, float(np.clip(found.state.mixture, *MIXTURES))),
            share=1.7,
        )
        below = Panel(
            y=Axis("Gas gained", VENT_FLOW, -600e-6, 600e-6),
            curves=(
                Curve("lead", fine, won),
                Curve("third", np.array([low, high]), np.zeros(2), "balance"),
            ),
            dot=Dot(held, 0.0),
        )
        return Chart(Axis("Bowl pressure less outside", SMALL_PRESSURE, low, high), (top, below))


def _vapour(card: Rig, vents: Vents, temperature: float) -> float:
    """Return the vapour made in the bowl [kg/s], the solenoid standing as it does now."""
    held = replace(vents, solenoid_stick=vents.solenoid_pull)
    return float(
        vapour_flow(card.hot_soak, held, PETROL, temperature, 0.0, ambient=AIR.pressure)[0]
    )


def _dirty(card: Rig, blocked: float) -> Rig:
    path = card.air_path
    return replace(card, air_path=replace(path, cleaner_area=(1 - blocked) * path.cleaner_area))


@lru_cache(maxsize=64)
def _curve(
    card: Rig, way: str, blocked: float, temperature: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return bowl pressures less that outside [Pa], and lambda were the bowl held at each."""
    gauge = np.linspace(*SPANS[way], COUNT)
    settings = Settings(bowl_pressure=AIR.pressure + gauge, fuel_temperature=temperature)
    mixture = running(card, _dirty(card, blocked), way, settings).mixture
    return gauge, np.where(np.isfinite(mixture), mixture, np.nan)
