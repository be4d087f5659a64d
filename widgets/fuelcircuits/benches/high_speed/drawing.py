"""Where the parts of the high-speed circuit's drawing stand, in the drawing's own units.

Well, bleed holes, nozzle, booster, venturi and throttle are to one scale. The bowl is drawn
short, and the walls are as thick as reads well.
"""

from collections.abc import Mapping
from math import cos, degrees

from fuelcircuits.benches.high_speed.found import Found

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
RUNS, DRAWS = 1e-7, 1e-6
"""Fuel from which on a nozzle, and an idle tube, is drawn with fuel in it [kg/s]."""
FUEL_MARKS, AIR_MARKS, BLEED_MARKS = 9_000.0, 1_400.0, 600_000.0
"""Speed of the marks on fuel, air and bleed air, units a second for each kg/s."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part; one barrel is drawn."""
    unit = min(DEEP / found.well.depth, WIDE / found.barrel.throttle)
    numbers = _well(found, unit) | _jet(found, unit) | _nozzle(found, unit)
    numbers |= _barrel(found, unit, numbers["mouth"]) | _holes(found, unit) | _flows(found)
    numbers |= {"bled": float(found.bled), "plain": float(not found.bled)}
    return numbers | _slope(found, numbers)


def _barrel(found: Found, unit: float, mouth: float) -> dict[str, float]:
    """Return barrel, venturi, booster round the nozzle's mouth, and throttle plate."""
    barrel = found.barrel
    radius, throat = barrel.throttle / 2 * unit, barrel.venturi / 2 * unit
    outside, inside = barrel.booster_outside / 2 * unit, barrel.booster_throat / 2 * unit
    plate, leaving = radius / cos(barrel.closed_angle), barrel.booster_exit / 2 * unit
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
        "throttle": degrees(found.throttle),
        "plate_left": -plate,
        "plate_right": plate,
    }


def _well(found: Found, unit: float) -> dict[str, float]:
    """Return the well, its tube and take-off, and how high the fuel stands in each."""
    well = found.well
    floor = LEVEL + well.depth * unit
    take_off = min(LEVEL + well.take_off * unit, floor - 12)
    surface = LEVEL + well.nozzle_level * unit
    return {
        "well_floor": floor,
        "well_under": floor + 12,
        "well_words": floor + 27,
        "passage": floor - 15,
        "passage_middle": floor - 7.5,
        "bowl_floor": floor - 33,
        "jet_middle": floor - 21,
        "tube_foot": floor - 8,
        "surface": min(max(surface, LEVEL - well.lip * unit), floor),
        "tube_level": min(max(LEVEL + well.tube_level * unit, LEVEL), floor - 8),
        "take_off": take_off,
        "take_off_top": take_off - 4,
        "take_off_foot": take_off + 4,
        "idle_surface": 34.0 if found.streams.idle > DRAWS else LEVEL,
    }


def _jet(found: Found, unit: float) -> dict[str, float]:
    """Return the main jet with the rod in it, and the main air bleed."""
    jet, rod, bleed = (
        each / 2 * unit for each in (found.well.jet, found.well.rod, found.well.bleed)
    )
    return {
        "jet_left": JET - jet,
        "jet_right": JET + jet,
        "rod_left": JET - rod,
        "rod_right": JET + rod,
        "bleed_top": 44 - bleed,
        "bleed_foot": 44 + bleed,
    }


def _nozzle(found: Found, unit: float) -> dict[str, float]:
    """Return the nozzle between its inner end at the well and its mouth in the booster."""
    lip, bore = LEVEL - found.well.lip * unit, found.well.nozzle * unit
    inner, mouth = (lip + RISE, lip) if found.slope == "up" else (lip, lip + FALL)
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


def _slope(found: Found, at: Mapping[str, float]) -> dict[str, float]:
    """Return what stands in the nozzle, and the level of a car that is parked too steeply.

    In a nozzle that slopes up, fuel stands as high as in the well. In one that slopes down it
    stands up to the lip, and beyond it runs to the mouth in a film.
    """
    up, runs = found.slope == "up", found.streams.spray > RUNS
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


def _holes(found: Found, unit: float) -> dict[str, float]:
    """Return the bleed holes: where each is, how high, and what passes it."""
    well, size, numbers, clear = found.well, found.well.hole * unit, {}, [LEVEL]
    for hole in range(HOLES):
        there = found.bled and hole < len(well.holes)
        depth = well.holes[hole] if hole < len(well.holes) else 0.0
        top = LEVEL + depth * unit
        open_ = there and well.tube_level > depth
        if open_:
            clear.append(top + size / 2)
        numbers[f"hole_{hole}"] = top
        numbers[f"middle_{hole}"] = top + size / 2
        numbers[f"there_{hole}"] = float(there)
        numbers[f"air_{hole}"] = 22.0 if open_ else 0.0
    return numbers | {"hole_size": size, "bubble": max(clear)}


def _flows(found: Found) -> dict[str, float]:
    """Return the speeds of the marks."""
    streams = found.streams
    return {
        "air": AIR_MARKS * streams.air,
        "main": FUEL_MARKS * streams.main,
        "spray": FUEL_MARKS * streams.spray,
        "idle": 3 * FUEL_MARKS * streams.idle,
        "bleed": BLEED_MARKS * streams.bleed,
    }
