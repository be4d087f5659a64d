"""A warm-up: a cold engine at a held speed, with the choke opening as its coil is heated."""

from collections.abc import Mapping
from dataclasses import replace
from math import radians
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL
from fuelcircuits.benches.choke.engine_by_plate import EngineByPlate, engine_by_plate
from fuelcircuits.physics.circuits.choke import Choke, coil_step, fast_idle, pull_off, rest_angle
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.coolant import coolant
from fuelcircuits.physics.motion.vapour_share import vapour_share
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["END", "Found", "Sizes", "whole"]

END, COUNT, ROUNDS = 480.0, 61, 3
"""Length of the run [s], its points, and the rounds in which plate and flows settle together."""
WIDE = radians(75)
"""Plate angle that counts as open [rad]."""


class Sizes(NamedTuple):
    """Sizes of horn, plate and cam."""

    horn: float  # m
    offset: float  # m
    closed: float  # rad, of the choke plate
    pulled: float  # rad, to which the pull-off brings it
    throttle: float  # rad, of the throttle plate shut
    edges: tuple[float, ...]  # rad of the choke plate at the end of each step of the cam
    openings: tuple[float, ...]  # rad of throttle on each


class Found(NamedTuple):
    """One setting of the bench; every list runs over the times."""

    sizes: Sizes
    heated: bool
    opens: float | None  # s, when the choke is open
    times: list[float]  # s
    coil: list[float]  # K
    coolant: list[float]  # K
    rest: list[float]  # rad, where the coil alone would hold the plate
    plate: list[float]  # rad
    held: list[float]  # rad, where the pull-off holds it at least
    step: list[int]  # of the cam, 0 for the first
    cam: list[float]  # rad of throttle by it
    throttle: list[float]  # rad
    vapour: list[float]  # share of the fuel that evaporates
    mixture: list[float]  # lambda delivered
    burns: list[float]  # lambda of what evaporates
    vacuum: list[float]  # Pa, manifold
    air: list[float]  # kg/s
    fuel: list[float]  # kg/s


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return eight minutes of warm-up."""
    outside, heated = values["outside"], values["heat"] == "on"
    choke, engine = _choke(card, values), engine_by_plate(card, outside, values["speed"])
    times = [END * share**1.5 for share in linspace(0.0, 1.0, COUNT)]
    coil = [coil_step(choke, outside, outside, now, heated=heated) for now in times]
    hinged = _Hinged(card, choke, Weather.at(temperature=outside), engine)
    run = _run(hinged, coil, tapped=values["pedal"] == "tapped")
    states, plate = [each.state for each in run], [each.plate for each in run]
    hot = [coolant(card.hot_soak, now, outside) for now in times]
    vapour = [
        vapour_share(
            card, PETROL, each.ratio, each.pressures.manifold, coolant=warm, outside=outside
        )
        for each, warm in zip(states, hot, strict=True)
    ]
    closed, cam = card.air_path.choke_closed_angle, [engine.cams[each.step] for each in run]
    return Found(
        sizes=_sizes(card, choke),
        heated=heated,
        opens=next((now for now, angle in zip(times, plate, strict=True) if angle >= WIDE), None),
        times=times,
        coil=coil,
        coolant=hot,
        rest=[rest_angle(choke, each, closed) for each in coil],
        plate=plate,
        held=[pull_off(choke, each.manifold_vacuum, closed) for each in states],
        step=[each.step for each in run],
        cam=cam,
        throttle=[engine.stop + each for each in cam],
        vapour=vapour,
        mixture=[each.mixture for each in states],
        burns=[each.mixture / max(part, 0.01) for each, part in zip(states, vapour, strict=True)],
        vacuum=[each.manifold_vacuum for each in states],
        air=[each.air_flow for each in states],
        fuel=[each.fuel_flow for each in states],
    )


def _choke(card: Rig, values: Mapping[str, Any]) -> Choke:
    """Return the card's choke as it has been changed."""
    return replace(
        card.choke,
        slack=card.choke.slack + values["turned"],
        plate_offset=values["offset"],
        pull_off_leak=1.0 if values["pull_off"] == "torn" else 0.0,
    )


def _sizes(card: Rig, choke: Choke) -> Sizes:
    path = card.air_path
    return Sizes(
        path.horn_bore,
        choke.plate_offset,
        path.choke_closed_angle,
        choke.pull_off_angle,
        path.throttle_closed_angle,
        choke.cam_edges,
        choke.cam_openings,
    )


class _Hinged(NamedTuple):
    """A choke plate in its air."""

    card: Rig
    choke: Choke
    air: Weather
    engine: EngineByPlate

    def angle(self, coil: float, step: int, flow: float, vacuum: float) -> float:
        """Return where the plate comes to rest in some air flow and vacuum [rad]."""
        throttle = self.engine.stop + self.engine.cams[step]
        return plate_angle(
            self.choke,
            self.card.air_path,
            self.air,
            coil,
            flow,
            vacuum=vacuum,
            throttle_angle=throttle,
        )

    def settled(self, coil: float, step: int) -> float:
        """Return where it comes to rest in the engine's own [rad], closely enough to start."""
        plate = self.card.air_path.choke_closed_angle
        for _ in range(ROUNDS):
            plate = self.angle(coil, step, *self.engine.near(step, plate))
        return plate


class _Instant(NamedTuple):
    """One time of the run."""

    step: int
    near: float  # rad, plate angle for which the engine was solved
    plate: float  # rad, where the plate then rests
    state: State


def _run(hinged: _Hinged, coil: list[float], *, tapped: bool) -> list[_Instant]:
    """Follow cam and plate; before the start the cam stands on its first step.

    The start itself lets the cam fall, as later on a tap on the pedal does.
    """
    run: list[_Instant] = []
    engine, step = hinged.engine, 0
    for warmth in coil:
        near = hinged.settled(warmth, step)
        while (tapped or not run) and fast_idle(hinged.choke, near) < engine.cams[step]:
            step += 1
            near = hinged.settled(warmth, step)
        before = run[-1] if run else None
        if before and (before.step, before.near) == (step, near):
            state = before.state
        else:
            state = engine.exact(step, near)
        plate = hinged.angle(warmth, step, state.air_flow, state.manifold_vacuum)
        run.append(_Instant(step, near, plate, state))
    return run
