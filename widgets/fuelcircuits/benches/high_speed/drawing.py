"""Where the parts of the high-speed circuit's drawing stand, in the drawing's own units.

Well, bleed holes, nozzle, booster, venturi and throttle are to one scale. The bowl is drawn
short, and the walls are as thick as reads well.
"""

from collections.abc import Mapping

import numpy as np

from fuelcircuits.physics.circuits.high_speed import hole_depths, level_drop
from fuelcircuits.physics.circuits.power import rod_diameter, rod_lift
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["HOLES", "place"]

LEVEL, MIDDLE, WELL, JET, THROTTLE = 132.0, 430.0, 190.0, 66.0, 240.0
"""Where fuel level and throttle shaft stand upright, and barrel, well and jet across."""
DEEP, WIDE = 138.0, 148.0
"""What the well may take up upright and the barrel across."""
BOWL, SPOUT = 71.0, 214.0
"""Where the bowl's middle and the nozzle's inner end stand across."""
RISE, FALL = 40.0, 16.0
"""How much a nozzle rises from the well to its mouth, or falls."""
HOLES = 8
"""Bleed holes that the drawing has."""
FUEL_MARKS, AIR_MARKS, BLEED_MARKS = 9_000.0, 1_400.0, 600_000.0
"""Speed of the marks on fuel, air and bleed air, units a second for each kg/s."""


def place(
    rig: Rig, now: State, fuel_density: float, *, bled: bool, slope: str
) -> Mapping[str, float]:
    """Return the numbers that place every part; one barrel of `now` is drawn."""
    unit = min(DEEP / float(rig.high_speed.well_depth), WIDE / rig.air_path.throttle_bore)
    numbers = _well(rig, now, unit, fuel_density) | _nozzle(rig, unit, slope)
    numbers |= _barrel(rig, now, unit, numbers["mouth"])
    numbers |= _slope(numbers, slope, runs=float(now.flows.nozzle.fuel[0]) > 1e-7)
    numbers |= _holes(rig, now, unit, fuel_density, bled)
    return numbers | _flows(now) | {"bled": float(bled), "plain": float(not bled)}


def _barrel(rig: Rig, now: State, unit: float, mouth: float) -> dict[str, float]:
    """Return barrel, venturi, booster round the nozzle's mouth, and throttle plate."""
    path = rig.air_path
    radius, throat = path.throttle_bore / 2 * unit, path.venturi_bore / 2 * unit
    outside, inside = path.booster_outside / 2 * unit, path.booster_throat / 2 * unit
    plate, leaving = radius / np.cos(path.throttle_closed_angle), path.booster_exit / 2 * unit
    between = (outside + throat) / 2
    return {
        "bore_left": MIDDLE - radius,
        "bore_right": MIDDLE + radius,
        "wall_left": MIDDLE - radius - 14,
        "wall_right": MIDDLE + radius + 14,
        "throat_left": MIDDLE - throat,
        "throat_right": MIDDLE + throat,
        "outer_left": MIDDLE - outside,
        "outer_right": MIDDLE + outside,
        "inner_left": MIDDLE - inside,
        "inner_right": MIDDLE + inside,
        "exit_left": MIDDLE - leaving,
        "exit_right": MIDDLE + leaving,
        "booster_top": mouth - 26,
        "booster_foot": min(mouth + 34, THROTTLE - plate),
        "booster_words": mouth - 32,
        "air_left": MIDDLE - between,
        "air_right": MIDDLE + between,
        "air_in_left": MIDDLE - (between + radius) / 2,
        "air_in_right": MIDDLE + (between + radius) / 2,
        "throttle": float(np.degrees(now.throttle_angle)),
        "plate_left": -plate,
        "plate_right": plate,
        "words": MIDDLE + radius + 26,
    }


def _well(rig: Rig, now: State, unit: float, fuel_density: float) -> dict[str, float]:
    """Return well, tube, jet and rod, and how high the fuel stands in each."""
    high, p = rig.high_speed, now.pressures
    floor = LEVEL + float(high.well_depth) * unit
    column = -float(level_drop(p.booster[0], p.well[0], fuel_density)) * unit
    fallen = float(level_drop(p.tube[0], p.well[0], fuel_density)) * unit
    jet = float(high.jet_bore) / 2 * unit
    rod = 0.0
    if rig.power is not None:
        lift = rod_lift(rig.power, float(now.manifold_vacuum))
        rod = float(rod_diameter(rig.power, lift)) / 2 * unit
    take_off = min(LEVEL + float(rig.low_speed.tube_depth) * unit, floor - 12)
    return {
        "well_floor": floor,
        "well_under": floor + 12,
        "well_words": floor + 27,
        "passage": floor - 15,
        "passage_middle": floor - 7.5,
        "bowl_floor": floor - 33,
        "jet_middle": floor - 21,
        "jet_left": JET - jet,
        "jet_right": JET + jet,
        "rod_left": JET - rod,
        "rod_right": JET + rod,
        "tube_foot": floor - 8,
        "surface": float(np.clip(LEVEL - column, LEVEL - float(high.lip) * unit, floor)),
        "tube_level": float(np.clip(LEVEL + fallen, LEVEL, floor - 8)),
        "take_off": take_off,
        "take_off_top": take_off - 4,
        "take_off_foot": take_off + 4,
        "idle_surface": 34.0 if float(now.flows.idle_jet.fuel[0]) > 1e-6 else LEVEL,
        "bleed_top": 44 - float(high.air_bleed_bore) / 2 * unit,
        "bleed_foot": 44 + float(high.air_bleed_bore) / 2 * unit,
    }


def _nozzle(rig: Rig, unit: float, slope: str) -> dict[str, float]:
    """Return the nozzle between its inner end at the well and its mouth in the booster."""
    lip, bore = LEVEL - float(rig.high_speed.lip) * unit, float(rig.high_speed.nozzle_bore) * unit
    inner, mouth = (lip + RISE, lip) if slope == "up" else (lip, lip + FALL)
    return {
        "lip": lip,
        "lip_words": lip - 4,
        "mouth": mouth,
        "spout_top": mouth - bore,
        "spout_middle": mouth - bore / 2,
        "inner_foot": inner,
        "inner_top": inner - bore,
        "inner_middle": inner - bore / 2,
        "boss_foot": inner + 7,
        "boss_top": inner - bore - 7,
        "boss_end": mouth + 6,
        "boss_end_top": mouth - bore - 6,
        "nozzle_words": max(inner, mouth) + 24,
        "tube_words": min(93.0, inner - bore - 13),
        "tube_line": min(90.0, inner - bore - 16),
    }


def _slope(at: Mapping[str, float], slope: str, *, runs: bool) -> dict[str, float]:
    """Return what stands in the nozzle, and the level of a car that is parked too steeply.

    In a nozzle that slopes up, fuel stands as high as in the well. In one that slopes down it
    stands up to the lip, and beyond it runs to the mouth in a film.
    """
    up = slope == "up"
    across = at["inner_left"] if up else SPOUT
    steep = (LEVEL - at["lip"]) / (across - BOWL)
    return {
        "wet_end": across,
        "wet_top": at["spout_top"] if up else at["inner_top"],
        "wet_foot": at["mouth"] if up else at["inner_foot"],
        "film": 0.0 if up or not runs else 0.5 * (at["mouth"] - at["spout_top"]),
        "risen": at["inner_middle"] if runs else max(at["inner_middle"], at["surface"] + 8),
        "turn": 6.0 if runs else 0.0,
        "lip_at": across,
        "tilt_left": LEVEL + steep * (BOWL - 14),
        "tilt_right": LEVEL - steep * (128 - BOWL),
        "tilt_words": LEVEL - steep * (128 - BOWL) - 4,
    }


def _holes(rig: Rig, now: State, unit: float, fuel_density: float, bled: bool) -> dict[str, float]:
    """Return the bleed holes: where each is, how high, and what passes it."""
    depths, high, p = hole_depths(rig.high_speed), rig.high_speed, now.pressures
    fallen = float(level_drop(p.tube[0], p.well[0], fuel_density))
    size, numbers, clear = float(high.hole_bore) * unit, {}, []
    for place in range(HOLES):
        there = bled and place < len(depths)
        depth = float(depths[place]) if place < len(depths) else 0.0
        open_ = there and fallen > depth
        if open_:
            clear.append(LEVEL + (depth + float(high.hole_bore) / 2) * unit)
        numbers[f"hole_{place}"] = LEVEL + depth * unit
        numbers[f"middle_{place}"] = LEVEL + depth * unit + size / 2
        numbers[f"there_{place}"] = float(there)
        numbers[f"air_{place}"] = 22.0 if open_ else 0.0
    return numbers | {"hole_size": size, "bubble": max(clear, default=LEVEL)}


def _flows(now: State) -> dict[str, float]:
    """Return the speeds of the marks."""
    flows = now.flows
    return {
        "air": AIR_MARKS * float(now.air_flow),
        "main": FUEL_MARKS * float(flows.main_jet[0]),
        "spray": FUEL_MARKS * float(flows.nozzle.fuel[0]),
        "idle": 3 * FUEL_MARKS * float(flows.idle_jet.fuel[0]),
        "bleed": BLEED_MARKS * float(flows.holes[0]),
    }
