"""Unit 03, the bowl's vents and where a hot bowl's vapour goes."""

from math import exp, log, pi, sqrt

from fuelmarks.exercises.exercise import Exercise, Slip, Values

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
        ask="The outside vent is a flap over a bore of **{vent_bore}**. At idle it stands "
        "**{vent_lift}** off its seat. Find the curtain, pi times bore times lift, and the area "
        "of the bore. Then put the two in series to get the opening that counts.",
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
                "That is the bore. The vapour must also pass the gap under the flap.",
            ),
            Slip(
                "curtain-alone",
                lambda given, earlier: _curtain(given),
                0.5,
                "That is the curtain. The bore behind it throttles too.",
            ),
            Slip(
                "added-up",
                lambda given, earlier: _curtain(given) + _disc(given["vent_bore"]),
                0.25,
                "You added the two. One behind the other they throttle more, not less.",
            ),
            Slip(
                "side-by-side-rule",
                lambda given, earlier: (
                    _curtain(given)
                    * _disc(given["vent_bore"])
                    / (_curtain(given) + _disc(given["vent_bore"]))
                ),
                0.5,
                "The squares are missing: pressure loss goes with flow squared, so it is the "
                "squares of one over area that add.",
            ),
        ),
        hints=("1/A² = 1/curtain² + 1/bore². The result is smaller than either.",),
    ),
    Exercise(
        id="into-bore",
        ask="On a hot stop the bowl boils off **{boiled}** of fuel. It leaves by the outside vent "
        "you just worked out and by an inside vent of **{inside_bore}** bore, each taking its "
        "share of the open area. How much ends up in the carburettor's bore?",
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
                "That is what leaves by the outside vent. Asked is what goes into the bore.",
            ),
            Slip(
                "over-each-other",
                lambda given, earlier: (
                    given["boiled"] * _disc(given["inside_bore"]) / earlier["vent-opening"]
                ),
                0.25,
                "A share is one part over all parts: put both areas under the line.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: (
                    given["boiled"]
                    / (1 + earlier["vent-opening"] / (pi * given["inside_bore"] ** 2))
                ),
                0.5,
                "The inside vent came out four times too large: radius, not diameter.",
            ),
        ),
        hints=("Share of the inside vent: its area over both areas together.",),
    ),
    Exercise(
        id="vapour-pressure",
        ask="The fuel in the bowl stands at **{bowl_temperature}**. Its vapour pressure in psi is "
        f"exp(A - B/T), with A = {LEVEL}, B = {HEAT} K and T in kelvin. What is the vapour "
        "pressure, absolute?",
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
                "The formula gives psi. You called the number kPa.",
            ),
            Slip(
                "celsius",
                lambda given, earlier: _vapour_pressure(given["bowl_temperature"] - 273.15),
                0.25,
                "The formula wants kelvin: add 273.15 to degrees Celsius.",
            ),
            Slip(
                "atmosphere-taken-off",
                lambda given, earlier: _vapour_pressure(given["bowl_temperature"]) - 101_325.0,
                0.5,
                "You took the air outside off. That tells you whether it boils; asked is the "
                "absolute vapour pressure.",
            ),
        ),
        hints=(
            "Kelvin first: T = bowl_temperature.m_as('K').",
            "from math import exp; put Q(…, 'psi') round the result.",
        ),
    ),
    Exercise(
        id="purge-time",
        ask="Last night's vapour has filled a canister of **{bed_capacity}**. On the drive the "
        "engine draws **{purge_air}** of air through it, and each gram of air takes "
        "**{purge_ratio}** g of vapour from a full bed, less as the bed empties. After what time "
        "is the bed half empty? It is 0.693 times capacity over the first rate.",
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
                "You let the first rate go on. It falls as the bed empties, so it takes longer: "
                "0.693 in place of a half.",
            ),
            Slip(
                "whole-bed",
                lambda given, earlier: _turnover(given),
                0.5,
                "The 0.693 is missing.",
            ),
            Slip(
                "no-ratio",
                lambda given, earlier: log(2) * given["bed_capacity"] / given["purge_air"],
                0.5,
                "You let a gram of air carry a gram of vapour. It takes less.",
            ),
        ),
        hints=("First rate: air flow times grams of vapour for each gram of air.",),
    ),
)
