"""Unit 11, readings held against the card: guarded limits, a vent that moves, a ratio's doubt."""

from math import degrees, hypot

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]


def _limit(given: Values) -> float:
    """Return the largest level that the card allows [m]."""
    return given["level_setting"] + given["level_tolerance"]


def _lost(given: Values) -> float:
    """Return the lift that the vent loses when the stop opens the throttle [m]."""
    return given["vent_rate"] * given["stop_change"]


def _share(given: Values) -> float:
    """Return the relative standard uncertainty of the ratio [1]."""
    return hypot(given["air_doubt"], given["fuel_doubt"])


EXERCISES = (
    Exercise(
        id="highest-reading",
        ask="The card says **{level_setting}**, **±{level_tolerance}**. You want to be sure, in "
        "95 cases of a hundred or better, that the true level is not above the upper limit of the "
        "card, so you keep away from it by twice your combined standard uncertainty. What is the "
        "highest reading that you may accept?",
        unit="mm",
        reference=lambda given, earlier: _limit(given) - 2 * earlier["level-uncertainty"],
        tolerance=0.0025,
        why="A depth gauge is read to half a tenth of a millimetre.",
        low=6.0,
        high=14.0,
        points=2,
        outcomes=("SET-3",),
        follows=("level-uncertainty",),
        slips=(
            Slip(
                "limit-alone",
                lambda given, earlier: _limit(given),
                0.5,
                "That is the limit of the card. If the reading is just there, the true level may "
                "well lie beyond it.",
            ),
            Slip(
                "wrong-side",
                lambda given, earlier: _limit(given) + 2 * earlier["level-uncertainty"],
                0.5,
                "You went beyond the limit. The doubt counts against you, so you have to stay "
                "inside the limit by that much.",
            ),
            Slip(
                "once-for-twice",
                lambda given, earlier: _limit(given) - earlier["level-uncertainty"],
                0.5,
                "You kept away by one standard uncertainty, which is safe in only about two cases "
                "of three. For 95 in a hundred it takes two.",
            ),
        ),
        hints=(
            "Find the upper limit of the card first, then step back from it by twice the doubt.",
        ),
    ),
    Exercise(
        id="vent-left",
        ask="You set the outside vent to **{vent_lift}** at closed throttle. Then the idle speed "
        "was too low, so you turned the stop in, and now the throttle stands **{stop_change}** "
        "further open. The linkage takes **{vent_rate}** off the lift. What lift is left?",
        unit="mm",
        reference=lambda given, earlier: given["vent_lift"] - _lost(given),
        tolerance=0.02,
        why="A feeler gauge steps by half a tenth of a millimetre.",
        low=0.1,
        high=4.0,
        points=2,
        outcomes=("SET-3", "VNT-2"),
        rounded_to=0.05,
        slips=(
            Slip(
                "lift-added",
                lambda given, earlier: given["vent_lift"] + _lost(given),
                0.5,
                "You added the change. This vent is open only at closed throttle, so it loses "
                "lift as the throttle opens.",
            ),
            Slip(
                "lost-alone",
                lambda given, earlier: _lost(given),
                0.5,
                "That is the lift that was lost, while the question asks for what is left.",
            ),
            Slip(
                "degrees-for-radians",
                lambda given, earlier: (
                    given["vent_lift"] - given["vent_rate"] * degrees(given["stop_change"])
                ),
                0.25,
                "The angle went in as a number of degrees, but the rate is given for each radian.",
            ),
        ),
        hints=(
            "The lift that is lost is the rate times the angle, and the angle has to be in "
            "radians.",
        ),
    ),
    Exercise(
        id="ratio-uncertainty",
        ask="According to air meter and fuel scale, the idle mixture is **{idle_ratio}** to one. "
        "The air meter has a standard uncertainty of **{air_doubt}** and the fuel scale one of "
        "**{fuel_doubt}**, and in a ratio these shares combine as squares. What is the standard "
        "uncertainty of the air-fuel ratio, in parts of air to one of fuel?",
        unit="",
        reference=lambda given, earlier: given["idle_ratio"] * _share(given),
        tolerance=0.03,
        why="An uncertainty is written with one or two figures; the band forgives rounding.",
        low=0.02,
        high=3.0,
        points=2,
        outcomes=("SET-2",),
        slips=(
            Slip(
                "shares-added",
                lambda given, earlier: (
                    given["idle_ratio"] * (given["air_doubt"] + given["fuel_doubt"])
                ),
                0.5,
                "You added the shares. They are independent, so square them, add the squares, and "
                "take the root.",
            ),
            Slip(
                "left-as-a-share",
                lambda given, earlier: _share(given),
                0.5,
                "That is the doubt as a share of the ratio. The question asks for the doubt "
                "itself, in parts of air.",
            ),
            Slip(
                "air-alone",
                lambda given, earlier: given["idle_ratio"] * given["air_doubt"],
                0.5,
                "You left the fuel scale out, although it is in doubt as well.",
            ),
        ),
        hints=("Combine the two shares first, then take that share of the ratio.",),
    ),
)
