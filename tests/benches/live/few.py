"""Run before an owner's questions, so that they are quick: few faults and checks are thought of."""

from fuelcircuits import faults
from fuelcircuits.own_car import following, foreseen

FEW = ("idle-vacuum", "idle-mixture", "level-at-idle")
SOME = ("blocked-idle-jet", "manifold-air-leak")

faults.fitting = lambda _rig: SOME  # type: ignore[assignment]
following.to_make = lambda rig, known: foreseen.to_make(rig, known, FEW)  # type: ignore[assignment]
