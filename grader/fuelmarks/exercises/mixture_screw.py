"""Unit 04, second chain: the ring round the mixture screw's needle, and what a cap allows."""

from math import pi

from fuelmarks.exercises.exercise import Exercise, Slip, Values

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
        ask="The mixture screw rises **{screw_pitch}** a turn. Its needle just fills the seat of "
        "**{screw_seat}** when shut, and gets **{needle_taper}** mm thinner for each millimetre "
        "it rises. At **{screw_turns}** turns out, what is the area of the ring between needle "
        "and seat?",
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
                "That is the open seat. The needle still stands in it: take its circle off.",
            ),
            Slip(
                "needle-alone",
                lambda given, earlier: (
                    pi / 4 * given["screw_seat"] ** 2 - _ring(given, given["screw_turns"])
                ),
                0.5,
                "That is the needle's circle. The ring is the seat's circle less this.",
            ),
            Slip(
                "gap-as-diameter",
                lambda given, earlier: (
                    pi
                    / 4
                    * (given["needle_taper"] * given["screw_pitch"] * given["screw_turns"]) ** 2
                ),
                0.25,
                "You took the difference of the diameters as a diameter. Square each first.",
            ),
            Slip(
                "one-turn",
                lambda given, earlier: _ring(given, 1.0),
                0.5,
                "That is one turn out. Rise is pitch times turns.",
            ),
        ),
        hints=(
            "Rise, then the needle's diameter at the seat, then circle less circle.",
            "The needle is thinner by taper times rise.",
        ),
    ),
    Exercise(
        id="limited-ratio",
        ask="The limiter cap lets the screw come out by another **{cap_turns}** turn and no more. "
        "It stands at {idle_ratio} to 1 now. If the fuel grows as the ring does, what is the "
        "richest mixture the owner can set?",
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
                "You let the ring grow as the turns do. It grows more slowly: work it out anew.",
            ),
            Slip(
                "lean-for-rich",
                lambda given, earlier: (
                    given["idle_ratio"] ** 2 / _limited(given, earlier["screw-ring"])
                ),
                0.5,
                "The ratio is upside down: out is richer with this kind of screw.",
            ),
        ),
        hints=("The ring again, at the turns the cap allows. Then old ring over new ring.",),
    ),
)
