"""Unit 05, first chain: what the edge of the plate uncovers, and what flows on either side."""

from math import cos, sin, sqrt

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

PORT_COEFFICIENT = 0.7
"""Discharge coefficient the questions give for a slot-shaped port [1]; common practice."""
DIFFERENCE = "A small height is left over from larger ones, which doubles any rounding."
HALF_EDGE = 0.5
SHOWN_COEFFICIENT = f"{PORT_COEFFICIENT:g}"


def _uncovered(given: Values, tip: float, edge: float = HALF_EDGE) -> float:
    """Return the height of slot below the lower corner of the plate's edge [m]."""
    return tip - edge * given["plate_edge"] - given["slot_foot"]


def _above(given: Values, below: float, edges: float = 1.0) -> float:
    """Return the area of slot above the edge [m2] if `below` lies below it."""
    return given["slot_width"] * (given["slot_height"] - edges * given["plate_edge"]) - below


def _air(given: Values, area: float) -> float:
    """Return the air that an area of slot bleeds into the chamber [kg/s]."""
    drop = 2 * given["air_density"] * given["chamber_vacuum"]
    return PORT_COEFFICIENT * area * sqrt(drop)


EXERCISES = (
    Exercise(
        id="tip-height",
        ask="The throttle plate measures **{plate_reach}** from the middle of its shaft to its "
        "tip. It stands at **{plate_angle}**, which is counted from the plane straight across "
        "the bore. How high is the tip above the middle of the shaft?",
        unit="mm",
        reference=lambda given, earlier: given["plate_reach"] * sin(given["plate_angle"]),
        tolerance=0.02,
        why="Three figures carry the chain; two in a hundred forgives rounding on the way.",
        low=1.0,
        high=12.0,
        points=1,
        outcomes=("OFF-1",),
        slips=(
            Slip(
                "cosine-for-sine",
                lambda given, earlier: given["plate_reach"] * cos(given["plate_angle"]),
                0.5,
                "That is how far the tip stands out to the side. The height belongs to the sine "
                "of the angle.",
            ),
            Slip(
                "whole-plate",
                lambda given, earlier: 2 * given["plate_reach"] * sin(given["plate_angle"]),
                0.5,
                "That is twice too high, because the plate turns about its middle and only one "
                "half of it rises.",
            ),
        ),
        hints=(
            "With the plate at nought degrees, the tip is level with the shaft, and it climbs as "
            "the angle grows.",
            "The height is the reach times the sine of the angle, and `sin(Q(16, 'deg'))` works.",
        ),
    ),
    Exercise(
        id="area-below",
        ask="The foot of the slot lies **{slot_foot}** above the middle of the shaft, and the "
        "slot is **{slot_width}** wide. The edge of the plate is **{plate_edge}** thick, half of "
        "it below the tip's middle line and half above. What area of slot lies open below the "
        "edge?",
        unit="mm^2",
        reference=lambda given, earlier: (
            given["slot_width"] * _uncovered(given, earlier["tip-height"])
        ),
        tolerance=0.04,
        why=DIFFERENCE,
        low=0.28,
        high=2.5,
        points=2,
        outcomes=("OFF-1", "SHOP-2"),
        follows=("tip-height",),
        slips=(
            Slip(
                "no-edge",
                lambda given, earlier: (
                    given["slot_width"] * _uncovered(given, earlier["tip-height"], 0.0)
                ),
                0.5,
                "The thickness of the edge is missing, although its lower half still hides some "
                "of the slot.",
            ),
            Slip(
                "whole-edge",
                lambda given, earlier: (
                    given["slot_width"] * _uncovered(given, earlier["tip-height"], 1.0)
                ),
                0.5,
                "You took off the whole thickness, but half of it lies above the tip's middle "
                "line.",
            ),
            Slip(
                "from-the-shaft",
                lambda given, earlier: (
                    given["slot_width"] * (earlier["tip-height"] - HALF_EDGE * given["plate_edge"])
                ),
                0.25,
                "You counted from the shaft, but the slot only begins higher up, at its foot.",
            ),
        ),
        hints=(
            "The lower corner of the edge is as high as the tip, less half the thickness.",
            "The slot is open from its foot up to that corner.",
        ),
    ),
    Exercise(
        id="bleed-air",
        ask="In all the slot is **{slot_height}** high. The part that is neither open below nor "
        "hidden by the edge lies above it, and lets air in. The chamber is **{chamber_vacuum}** "
        "below the bore above the plate, where the air has a density of **{air_density}**. How "
        "much air comes in? Use C times the area times the root of (2 times density times "
        f"pressure), with C = {SHOWN_COEFFICIENT}.",
        unit="mg/s",
        reference=lambda given, earlier: _air(given, _above(given, earlier["area-below"])),
        tolerance=0.04,
        why=DIFFERENCE,
        low=10.0,
        high=300.0,
        points=3,
        outcomes=("OFF-1", "OFF-2"),
        follows=("area-below",),
        slips=(
            Slip(
                "below-for-above",
                lambda given, earlier: _air(given, earlier["area-below"]),
                0.5,
                "You took the part below the edge, but air comes in through the part above it.",
            ),
            Slip(
                "no-edge",
                lambda given, earlier: _air(given, _above(given, earlier["area-below"], 0.0)),
                0.5,
                "The edge hides a strip of slot that is as high as the edge is thick, so take "
                "that off as well.",
            ),
            Slip(
                "no-root",
                lambda given, earlier: (
                    _air(given, _above(given, earlier["area-below"])) ** 2
                    / (PORT_COEFFICIENT * _above(given, earlier["area-below"]))
                ),
                0.5,
                "The root is missing: the flow grows only with the root of the pressure.",
            ),
            Slip(
                "mercury-for-water",
                lambda given, earlier: (
                    _air(given, _above(given, earlier["area-below"])) * sqrt(3386.389 / 249.0889)
                ),
                0.5,
                "You took inches of mercury, but the gauge at the chamber reads inches of water, "
                "which are nearly fourteen times smaller.",
            ),
        ),
        hints=(
            "The area above is the width times (height less thickness), less the area below.",
            "Keep all the units on the numbers, and ask for .to('mg/s') at the end.",
        ),
    ),
    Exercise(
        id="slot-share",
        ask="Mixture leaves the chamber by two ways: the slot below the edge, and the port of the "
        "mixture screw, which is open by **{screw_area}**. Both end in the same manifold, where "
        "the vacuum is so deep that both are choked, so each passes mixture in proportion to its "
        "area. What share of the mixture goes by the slot?",
        unit="percent",
        reference=lambda given, earlier: (
            earlier["area-below"] / (earlier["area-below"] + given["screw_area"])
        ),
        tolerance=0.04,
        why=DIFFERENCE,
        low=10.0,
        high=85.0,
        points=2,
        outcomes=("OFF-2", "OFF-4"),
        follows=("area-below",),
        slips=(
            Slip(
                "slot-against-screw",
                lambda given, earlier: earlier["area-below"] / given["screw_area"],
                0.5,
                "You compared slot and screw with each other. A share is a part of the whole, so "
                "divide by both areas together.",
            ),
            Slip(
                "the-other-share",
                lambda given, earlier: (
                    given["screw_area"] / (earlier["area-below"] + given["screw_area"])
                ),
                0.5,
                "That is the screw's share, while the question asks for the slot's.",
            ),
        ),
        hints=("A share is the part over the whole, and the whole is both areas together.",),
    ),
)
