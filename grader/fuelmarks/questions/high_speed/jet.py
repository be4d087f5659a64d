"""Unit 06, the jet: its bore, its mixture at a small flow, and its bore in thin air."""

from math import pi, sqrt

import numpy as np
from fuelcircuits.errors import positive

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

PLUG_GAUGE = "Jets are measured with plug gauges in steps of a hundredth of a millimetre."


def _bore(given: Values, fuel: float, driving: float) -> float:
    """Return the bore of the jet that passes `fuel` at the pressure `driving` [m]."""
    flux = given["jet_coefficient"] * sqrt(2 * given["main_density"] * driving)
    return sqrt(4 * fuel / (pi * flux))


def _thin(given: Values) -> float:
    """Return the density of the air up there over that below [1]."""
    return given["mountain_density"] / given["valley_density"]


def _leaner(given: Values, head: float) -> float:
    """Return how much leaner the lip makes a small flow than a large one [1]."""
    small, large = (
        positive("share left by the lip", 1 - head / given[name])
        for name in ("small_depression", "main_depression")
    )
    return float(np.sqrt(large / small))


EXERCISES = (
    Exercise(
        id="jet-bore",
        ask="At that air flow the depression at the lip is **{main_depression}**, and the lip "
        "takes so little of it that you may leave the lip out. The main jet has a coefficient C "
        "of **{jet_coefficient}**, with no rod in it and no air bleed. What bore must it have? "
        "The flow is C times the area times the root of (2 times density times depression).",
        unit="mm",
        reference=lambda given, earlier: _bore(
            given, earlier["main-fuel"], given["main_depression"]
        ),
        tolerance=0.015,
        why=PLUG_GAUGE,
        low=0.9,
        high=2.0,
        points=3,
        outcomes=("HI-1", "SHOP-2"),
        follows=("main-fuel",),
        rounded_to=0.01,
        slips=(
            Slip(
                "radius-for-diameter",
                lambda given, earlier: (
                    _bore(given, earlier["main-fuel"], given["main_depression"]) / 2
                ),
                0.5,
                "That is the radius, but a jet is named by its bore, which is the whole way "
                "across.",
            ),
            Slip(
                "no-coefficient",
                lambda given, earlier: (
                    _bore(given, earlier["main-fuel"], given["main_depression"])
                    * sqrt(given["jet_coefficient"])
                ),
                0.5,
                "The coefficient is missing, although the stream is thinner than the hole, so a "
                "larger hole is needed.",
            ),
            Slip(
                "no-two",
                lambda given, earlier: _bore(
                    given, earlier["main-fuel"], given["main_depression"] / 2
                ),
                0.5,
                "The 2 under the root is missing, so your bore came out too large.",
            ),
            Slip(
                "mercury-for-water",
                lambda given, earlier: _bore(
                    given, earlier["main-fuel"], given["main_depression"] * 3386.389 / 249.0889
                ),
                0.5,
                "You took inches of mercury, but the depression is given in inches of water.",
            ),
        ),
        hints=(
            "First find the area, which is the fuel over (C times the root).",
            "Then the bore is the root of (4 times the area over pi).",
        ),
    ),
    Exercise(
        id="small-flow-ratio",
        ask="Keep this jet, with its plain-fuel nozzle. At a small air flow the depression is "
        "only **{small_depression}**. The air goes with the root of the depression, while the "
        "fuel goes with the root of what the lip leaves of it. At full flow the ratio was "
        "{wanted_ratio}. What is it now?",
        unit="",
        reference=lambda given, earlier: (
            given["wanted_ratio"] * _leaner(given, earlier["lip-head"])
        ),
        tolerance=0.015,
        why="Half a part of air is a real difference here, so the band is narrow.",
        low=12.0,
        high=24.0,
        points=3,
        outcomes=("HI-3",),
        follows=("lip-head",),
        slips=(
            Slip(
                "no-root",
                lambda given, earlier: (
                    given["wanted_ratio"] * _leaner(given, earlier["lip-head"]) ** 2
                ),
                0.5,
                "The root is missing, because both flows go with the root of the pressure.",
            ),
            Slip(
                "upside-down",
                lambda given, earlier: given["wanted_ratio"] / _leaner(given, earlier["lip-head"]),
                0.5,
                "You made it richer. The lip takes a larger part of a small depression than of a "
                "large one, so the small flow is leaner.",
            ),
            Slip(
                "lip-forgotten",
                lambda given, earlier: given["wanted_ratio"],
                0.25,
                "Without a lip the ratio would stay as it is, but the lip takes its part of the "
                "depression.",
            ),
        ),
        hints=(
            "Work out what share of the depression is left after the lip, at small flow and at "
            "full flow.",
            "Ratio now over ratio then is the root of (share at full flow over share at small "
            "flow).",
        ),
    ),
    Exercise(
        id="mountain-jet",
        ask="Your jet was chosen where the air has a density of **{valley_density}**, and now the "
        "car moves up to where it is **{mountain_density}**. With the same jet the ratio shrinks "
        "with the root of the density. What bore keeps the mixture as it was?",
        unit="mm",
        reference=lambda given, earlier: earlier["jet-bore"] * _thin(given) ** 0.25,
        tolerance=0.008,
        why="Root of a root: the whole change is small, and "
        + PLUG_GAUGE[0].lower()
        + PLUG_GAUGE[1:],
        low=0.8,
        high=2.0,
        points=3,
        outcomes=("HI-4",),
        follows=("jet-bore",),
        slips=(
            Slip(
                "area-for-bore",
                lambda given, earlier: earlier["jet-bore"] * _thin(given) ** 0.5,
                0.5,
                "That is how the area must shrink, but the bore goes with the root of the area.",
            ),
            Slip(
                "no-root",
                lambda given, earlier: earlier["jet-bore"] * _thin(given),
                0.25,
                "You scaled the bore as the density. The area shrinks with the root of the "
                "density, and the bore with the root of the area.",
            ),
            Slip(
                "larger",
                lambda given, earlier: earlier["jet-bore"] / _thin(given) ** 0.25,
                0.5,
                "You made the jet larger, but thin air makes the mixture rich, so the jet must be "
                "smaller.",
            ),
        ),
        hints=(
            "The fuel must shrink as the ratio did, which is with the root of the density.",
            "The area goes with the fuel, and the bore goes with the root of the area.",
        ),
    ),
)
