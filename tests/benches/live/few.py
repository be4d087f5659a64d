"""Run before an owner's questions, so that they are quick: few faults and checks are thought of."""

from fuelcircuits import faults
from fuelcircuits.own_car import following, foreseen

FEW = ("idle-vacuum", "idle-mixture", "level-at-idle")
SOME = ("blocked-idle-jet", "manifold-air-leak")

faults.__dict__["fitting"] = lambda _rig: SOME
following.__dict__["to_make"] = lambda rig, known: foreseen.to_make(rig, known, FEW)
