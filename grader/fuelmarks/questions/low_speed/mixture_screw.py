"""Unit 04, second chain: the ring round the mixture screw's needle, and what a cap allows."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]


def _ring(given: Values, turns: float) -> float:
    """Return the ring between needle and seat at so many turns out [m2]."""
    needle = given["screw_seat"] - given["needle_taper"] * given["screw_pitch"] * turns
    return pi / 4 * (given["screw_seat"] ** 2 - needle**2)


def _limited(given: Values, ring: float) -> float:
    """Return the mixture when the ring grows from `ring` to that at the cap's stop."""
    out = given["screw_turns"] + given["cap_turns"]
    return given["idle_ratio"] * ring / _ring(given, out)


EXERCISES = (
    Exercise(
        id="screw-ring",
        ask="The mixture screw rises **{screw_pitch}** a turn. When shut, its needle just fills "
        "the seat of **{screw_seat}**; as it rises, the part in the seat gets **{needle_taper}** "
        "mm thinner for each millimetre. What is the area of the ring between needle and seat "
        "when the screw is **{screw_turns}** turns out?",
        unit="mm^2",
        reference=lambda given, earlier: _ring(given, given["screw_turns"]),
        tolerance=0.02,
        why="Three figures carry the chain; two in a hundred forgives rounding on the way.",
        low=0.3,
        high=2.0,
        points=3,
        outcomes=("LOW-4", "SHOP-2"),
        slips=(
            Slip(
                "whole-seat",
                lambda given, earlier: pi / 4 * given["screw_seat"] ** 2,
                0.25,
                "That is the open seat, but the needle still stands in it, so take the needle's "
                "circle off.",
            ),
            Slip(
                "needle-alone",
                lambda given, earlier: (
                    pi / 4 * given["screw_seat"] ** 2 - _ring(given, given["screw_turns"])
                ),
                0.5,
                "That is the needle's circle. The ring is what the seat's circle leaves when you "
                "take this away.",
            ),
            Slip(
                "gap-as-diameter",
                lambda given, earlier: (
                    pi
                    / 4
                    * (given["needle_taper"] * given["screw_pitch"] * given["screw_turns"]) ** 2
                ),
                0.25,
                "You squared the difference of the two diameters. A ring is one circle less "
                "another, so square each diameter first and subtract afterwards.",
            ),
            Slip(
                "one-turn",
                lambda given, earlier: _ring(given, 1.0),
                0.5,
                "That is the ring at one turn out. The needle rises by the pitch times the number "
                "of turns.",
            ),
        ),
        hints=(
            "Work out the rise, then the needle's diameter at the seat, and last take the smaller "
            "circle from the larger.",
            "The needle gets thinner by its taper times its rise.",
        ),
    ),
    Exercise(
        id="limited-ratio",
        ask="The limiter cap lets the screw come out by another **{cap_turns}** turn and no more. "
        "The mixture is {idle_ratio} to 1 now. If the fuel grows as the ring does, what is the "
        "richest mixture that the owner can set?",
        unit="",
        reference=lambda given, earlier: _limited(given, earlier["screw-ring"]),
        tolerance=0.01,
        why="An air-fuel ratio is read to a tenth.",
        low=9.0,
        high=14.0,
        points=2,
        outcomes=("LOW-4",),
        follows=("screw-ring",),
        slips=(
            Slip(
                "by-the-turns",
                lambda given, earlier: (
                    given["idle_ratio"]
                    * given["screw_turns"]
                    / (given["screw_turns"] + given["cap_turns"])
                ),
                0.5,
                "You let the ring grow as the turns do, but it grows more slowly, because the "
                "needle is round and gets thinner. Work the ring out anew.",
            ),
            Slip(
                "lean-for-rich",
                lambda given, earlier: (
                    given["idle_ratio"] ** 2 / _limited(given, earlier["screw-ring"])
                ),
                0.5,
                "Your ratio is upside down: with this kind of screw, further out is richer, so "
                "the number falls.",
            ),
        ),
        hints=(
            "Work the ring out again at the turns that the cap allows. The ratio then changes "
            "by old ring over new ring.",
        ),
    ),
)
