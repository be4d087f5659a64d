"""Unit 04, first chain: what an idling engine drinks, and what its jet and bleeds make of it."""

from math import pi, sqrt

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "GRAVITY"]

GRAVITY = 9.81
"""Acceleration of free fall the questions tell the trainee to use [m/s2]."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."
READ_TO_A_TENTH = "An air-fuel ratio is read to a tenth."


def _jet(given: Values) -> float:
    """Return the area of the low-speed jet that counts [m2]."""
    return given["jet_coefficient"] * pi / 4 * given["jet_bore"] ** 2


def _drop(given: Values, flow: float, area: float) -> float:
    """Return the pressure that drives `flow` [kg/s] through `area` [m2]."""
    return (flow / area) ** 2 / (2 * given["fuel_density"])


def _siphon(given: Values) -> float:
    """Return what the fuel standing above the idle port adds [Pa]."""
    return given["fuel_density"] * GRAVITY * given["port_depth"]


def _narrowed(given: Values) -> float:
    """Return the bore as it was over the bore with gum in it [1]."""
    return given["jet_bore"] / (given["jet_bore"] - 2 * given["gum"])


EXERCISES = (
    Exercise(
        id="idle-fuel",
        ask="At curb idle the engine draws **{idle_air}** of air in all, at **{idle_ratio}** "
        "parts of air to one of fuel. Because the carburettor has two barrels, each with its own "
        "low-speed circuit, they share the work equally. How much fuel passes one low-speed jet?",
        unit="g/s",
        reference=lambda given, earlier: given["idle_air"] / given["idle_ratio"] / 2,
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.05,
        high=0.5,
        points=1,
        outcomes=("LOW-1",),
        slips=(
            Slip(
                "both-barrels",
                lambda given, earlier: given["idle_air"] / given["idle_ratio"],
                0.5,
                "That is the fuel of both barrels together, while one jet feeds only one barrel.",
            ),
            Slip(
                "share-of-mixture",
                lambda given, earlier: given["idle_air"] / (given["idle_ratio"] + 1) / 2,
                0.5,
                "You divided by air and fuel together. The ratio is air to fuel alone, so divide "
                "the air by it as it stands.",
            ),
        ),
        hints=(
            "First divide the air by the ratio to get all the fuel, and then share it between "
            "the two barrels.",
        ),
    ),
    Exercise(
        id="jet-drop",
        ask="The low-speed jet has a bore of **{jet_bore}** and a discharge coefficient of "
        "**{jet_coefficient}**, and the fuel has a density of **{fuel_density}**. What pressure "
        "across the jet drives the flow that you found? The flow is C times the area times the "
        "root of (2 times density times pressure).",
        unit="Pa",
        reference=lambda given, earlier: _drop(given, earlier["idle-fuel"], _jet(given)),
        tolerance=0.04,
        why="The flow is squared here, which doubles every error brought along.",
        low=50.0,
        high=1500.0,
        points=3,
        outcomes=("LOW-2", "SHOP-2"),
        follows=("idle-fuel",),
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: _drop(given, earlier["idle-fuel"], 4 * _jet(given)),
                0.5,
                "The area came out four times too large, and therefore the pressure sixteen times "
                "too small, because you took the diameter where the radius belongs.",
            ),
            Slip(
                "no-coefficient",
                lambda given, earlier: _drop(
                    given, earlier["idle-fuel"], _jet(given) / given["jet_coefficient"]
                ),
                0.5,
                "The discharge coefficient is missing: a jet passes less than its bore promises, "
                "because the stream narrows behind the edge.",
            ),
            Slip(
                "no-two",
                lambda given, earlier: 2 * _drop(given, earlier["idle-fuel"], _jet(given)),
                0.5,
                "The 2 under the root is missing, so your pressure is twice what it should be.",
            ),
        ),
        hints=(
            "Turn the formula round: the pressure is (flow over C times area) squared, divided by "
            "2 times the density.",
            "Keep the units on all the way, and ask for .to('Pa') at the end.",
        ),
    ),
    Exercise(
        id="blocked-bleed",
        ask="Dirt blocks the by-pass and the idle air bleed of both barrels, so no air breaks the "
        "column of fuel any more. The jet now feels the whole chamber vacuum, "
        "**{blocked_vacuum}**. As the idle port lies **{port_depth}** below the fuel in the "
        "bowl, the column pulls as a siphon on top of that. The air flow stays. What is the "
        "air-fuel ratio now? (g = 9.81 m/s²)",
        unit="",
        reference=lambda given, earlier: (
            given["idle_ratio"]
            * sqrt(earlier["jet-drop"] / (given["blocked_vacuum"] + _siphon(given)))
        ),
        tolerance=0.02,
        why=READ_TO_A_TENTH,
        low=3.0,
        high=12.5,
        points=3,
        outcomes=("LOW-1", "LOW-3"),
        follows=("jet-drop",),
        slips=(
            Slip(
                "no-siphon",
                lambda given, earlier: (
                    given["idle_ratio"] * sqrt(earlier["jet-drop"] / given["blocked_vacuum"])
                ),
                0.5,
                "The column of fuel is missing: because it hangs down to the idle port, it adds "
                "density times g times height to the vacuum.",
            ),
            Slip(
                "no-root",
                lambda given, earlier: (
                    given["idle_ratio"]
                    * earlier["jet-drop"]
                    / (given["blocked_vacuum"] + _siphon(given))
                ),
                0.5,
                "You let the flow grow with the pressure itself, but it grows only with the root "
                "of the pressure.",
            ),
            Slip(
                "lean-for-rich",
                lambda given, earlier: (
                    given["idle_ratio"]
                    * sqrt((given["blocked_vacuum"] + _siphon(given)) / earlier["jet-drop"])
                ),
                0.5,
                "Your ratio is upside down: more pull means more fuel, so there are fewer parts "
                "of air to each part of fuel.",
            ),
        ),
        hints=(
            "For the new pressure drop, add the vacuum and the column of fuel in one unit.",
            "The new ratio is the old one times the root of old drop over new drop, because more "
            "pull means more fuel.",
        ),
    ),
    Exercise(
        id="gummed-jet",
        ask="In another car the bleeds are clean, but old petrol has lined the low-speed jet of "
        "**{jet_bore}** with a skin of gum **{gum}** thick all round. The pull on the jet stays "
        "as it was, and so does its coefficient. The mixture was {idle_ratio} to 1 with the "
        "clean jet, so what is it now?",
        unit="",
        reference=lambda given, earlier: given["idle_ratio"] * _narrowed(given) ** 2,
        tolerance=0.01,
        why=READ_TO_A_TENTH,
        low=13.0,
        high=22.0,
        points=2,
        outcomes=("LOW-2", "LOW-3"),
        slips=(
            Slip(
                "no-square",
                lambda given, earlier: given["idle_ratio"] * _narrowed(given),
                0.5,
                "Part of the loss is missing, because the fuel goes with the area, and the area "
                "goes with the bore squared.",
            ),
            Slip(
                "rich-for-lean",
                lambda given, earlier: given["idle_ratio"] / _narrowed(given) ** 2,
                0.5,
                "Your ratio is upside down: a narrower jet gives less fuel, so there are more "
                "parts of air to each part of fuel.",
            ),
        ),
        hints=(
            "The bore has lost two skins, one on either side, so work out what is left. The "
            "old area over the new one is the factor.",
        ),
    ),
)
