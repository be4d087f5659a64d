"""Unit 03, the bowl's vents and where a hot bowl's vapour goes."""

from math import exp, log, pi, sqrt

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "HEAT", "LEVEL"]

LEVEL, HEAT = 11.724, 2909.6
"""A [1] and B [K] of AP-42 figure 7.1-15 for a Reid vapour pressure of 10 psi and S = 3."""
PSI = 6894.757293168
"""One pound-force per square inch [Pa]; NIST SP 811."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def _disc(bore: float) -> float:
    return pi / 4 * bore**2


def _curtain(given: Values) -> float:
    return pi * given["vent_bore"] * given["vent_lift"]


def _in_series(first: float, second: float) -> float:
    """Return the one opening that throttles as much as two, one behind the other [m2]."""
    return first * second / sqrt(first**2 + second**2)


def _vapour_pressure(temperature: float) -> float:
    """Return the vapour pressure of petrol [Pa] at a number of kelvins."""
    return PSI * exp(LEVEL - HEAT / temperature)


def _into_bore(given: Values, outside: float) -> float:
    """Return the vapour that leaves by the inside vent [kg] past an outside opening [m2]."""
    inside = _disc(given["inside_bore"])
    return given["boiled"] * inside / (inside + outside)


def _turnover(given: Values) -> float:
    """Return the time in which the purge would empty a bed at its first rate [s]."""
    return given["bed_capacity"] / (given["purge_ratio"] * given["purge_air"])


EXERCISES = (
    Exercise(
        id="vent-opening",
        ask="The outside vent is a flap over a bore of **{vent_bore}**, and at idle it stands "
        "**{vent_lift}** off its seat. The vapour must pass the bore and then the gap under the "
        "flap, called the curtain, whose area is pi times bore times lift. What single opening do "
        "these two make, one behind the other?",
        unit="mm^2",
        reference=lambda given, earlier: _in_series(_curtain(given), _disc(given["vent_bore"])),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=8.0,
        high=60.0,
        points=3,
        outcomes=("VNT-2", "SHOP-2"),
        slips=(
            Slip(
                "bore-alone",
                lambda given, earlier: _disc(given["vent_bore"]),
                0.25,
                "That is the area of the bore, but the vapour must also pass the curtain.",
            ),
            Slip(
                "curtain-alone",
                lambda given, earlier: _curtain(given),
                0.5,
                "That is the area of the curtain, but the bore behind it restricts the flow too.",
            ),
            Slip(
                "added-up",
                lambda given, earlier: _curtain(given) + _disc(given["vent_bore"]),
                0.25,
                "You added the two areas, as if they lay side by side. One behind the other they "
                "restrict the flow more than either alone.",
            ),
            Slip(
                "side-by-side-rule",
                lambda given, earlier: (
                    _curtain(given)
                    * _disc(given["vent_bore"])
                    / (_curtain(given) + _disc(given["vent_bore"]))
                ),
                0.5,
                "The squares are missing. Since the loss of pressure goes with the square of the "
                "flow, it is the squares of one over area that add.",
            ),
        ),
        hints=("Use 1/A² = 1/curtain² + 1/bore², which gives a result smaller than either area.",),
    ),
    Exercise(
        id="into-bore",
        ask="After a hot stop **{boiled}** of fuel boil off in the bowl. The vapour leaves by the "
        "outside vent that you just calculated and by an inside vent of **{inside_bore}** bore, "
        "and it divides itself as their areas do. How much of it reaches the carburettor's bore, "
        "through the inside vent?",
        unit="g",
        reference=lambda given, earlier: _into_bore(given, earlier["vent-opening"]),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.8,
        high=12.0,
        points=2,
        outcomes=("VNT-2", "VNT-3", "VNT-4"),
        follows=("vent-opening",),
        slips=(
            Slip(
                "the-other-way",
                lambda given, earlier: given["boiled"] - _into_bore(given, earlier["vent-opening"]),
                0.5,
                "That is what leaves by the outside vent, but the question asks for the part that "
                "goes into the bore.",
            ),
            Slip(
                "over-each-other",
                lambda given, earlier: (
                    given["boiled"] * _disc(given["inside_bore"]) / earlier["vent-opening"]
                ),
                0.25,
                "You divided one area by the other. A share is one part over the total, so divide "
                "by both areas together.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: (
                    given["boiled"]
                    / (1 + earlier["vent-opening"] / (pi * given["inside_bore"] ** 2))
                ),
                0.5,
                "The area of the inside vent came out four times too large, because pi r² wants "
                "the radius and not the diameter.",
            ),
        ),
        hints=("The share of the inside vent is its area, divided by both areas together.",),
    ),
    Exercise(
        id="vapour-pressure",
        ask="The fuel in the bowl has a temperature of **{bowl_temperature}**. Its vapour pressure "
        f"in psi is exp(A - B/T), with A = {LEVEL}, B = {HEAT} K and T in kelvins. What is the "
        "absolute vapour pressure?",
        unit="kPa",
        reference=lambda given, earlier: _vapour_pressure(given["bowl_temperature"]),
        tolerance=0.02,
        why="One degree is three in a hundred here; the formula itself is no better.",
        low=70.0,
        high=260.0,
        points=2,
        outcomes=("VNT-3", "SHOP-1"),
        datum="absolute",
        slips=(
            Slip(
                "psi-as-kpa",
                lambda given, earlier: _vapour_pressure(given["bowl_temperature"]) * 1e3 / PSI,
                0.5,
                "The formula gives a number of psi, and you called that number kPa.",
            ),
            Slip(
                "celsius",
                lambda given, earlier: _vapour_pressure(given["bowl_temperature"] - 273.15),
                0.25,
                "The formula needs kelvins, so add 273.15 to the degrees Celsius.",
            ),
            Slip(
                "atmosphere-taken-off",
                lambda given, earlier: _vapour_pressure(given["bowl_temperature"]) - 101_325.0,
                0.5,
                "You subtracted the pressure of the air outside. That tells you whether the fuel "
                "boils, but the question asks for the absolute vapour pressure.",
            ),
        ),
        hints=(
            "Convert the temperature first: bowl_temperature.m_as('K') is its number of kelvins.",
            "After `from math import exp`, put Q(…, 'psi') round the result so that it has a unit.",
        ),
    ),
    Exercise(
        id="purge-time",
        ask="The vapour of last night has filled a canister, which holds **{bed_capacity}**. On "
        "the next drive the engine draws **{purge_air}** of air through it. Each gram of air takes "
        "**{purge_ratio}** g of vapour from the full canister, but less and less as it empties, so "
        "the time until it is half empty is 0.693 times its capacity over the rate at the start. "
        "What is that time?",
        unit="min",
        reference=lambda given, earlier: log(2) * _turnover(given),
        tolerance=0.02,
        why="Three figures are more than enough for a bed of charcoal.",
        low=3.0,
        high=40.0,
        points=2,
        outcomes=("VNT-4",),
        slips=(
            Slip(
                "steady-rate",
                lambda given, earlier: 0.5 * _turnover(given),
                0.5,
                "You let the rate of the start continue. It falls as the canister empties, so "
                "the time is longer, with 0.693 in place of a half.",
            ),
            Slip(
                "whole-bed",
                lambda given, earlier: _turnover(given),
                0.5,
                "The 0.693 is missing, so this is not the time until half of the vapour has gone.",
            ),
            Slip(
                "no-ratio",
                lambda given, earlier: log(2) * given["bed_capacity"] / given["purge_air"],
                0.5,
                "You let every gram of air carry a whole gram of vapour, but it takes less.",
            ),
        ),
        hints=(
            "The rate at the start is the air flow, multiplied by the grams of vapour for each "
            "gram of air.",
        ),
    ),
)
