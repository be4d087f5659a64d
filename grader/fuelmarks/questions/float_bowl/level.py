"""Unit 02, what moves the level: pump pressure, a soaked float, hot fuel."""

from fuelmarks.questions.float_bowl.balance import GRAVITY, lever_ratio
from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["DEPTH_GAUGE", "EXERCISES", "SWELLING", "hot_density"]

SWELLING = 0.90
"""What petrol's density loses a kelvin [kg/(m3 K)]: 0.89 to 0.92 by ASTM D1250, table 54B."""
DEPTH_GAUGE = "A depth gauge reads to 0.1 mm, so nothing finer is asked."


def _stiffness(given: Values) -> float:
    """Return the buoyancy that a metre of extra immersion brings [N/m]."""
    return given["fuel_density"] * GRAVITY * given["float_area"]


def _extra_pull(given: Values, earlier: Values) -> float:
    """Return what the new pump's extra push asks of the float [N]."""
    grown = given["new_pressure"] / given["supply_pressure"] - 1
    return grown * earlier["needle-force"] * lever_ratio(given)


def hot_density(given: Values, cool: float = 288.15) -> float:
    """Return the density at the bowl's temperature if the given one holds at `cool` [K]."""
    return given["fuel_density"] - SWELLING * (given["bowl_temperature"] - cool)


def _deeper(given: Values, earlier: Values, hot: float) -> float:
    """Return how much deeper a float of the same buoyancy sits in fuel of density `hot` [m]."""
    return earlier["buoyancy"] / _stiffness(given) * (given["fuel_density"] / hot - 1)


EXERCISES = (
    Exercise(
        id="pump-level-shift",
        ask="A new pump holds **{new_pressure}** instead of {supply_pressure}. Seen from above "
        "the float covers **{float_area}**, its sides are upright, and the fuel has a density of "
        "**{fuel_density}**. With the needle just shut the float stays where it was, so the fuel "
        "has to rise around it until the extra buoyancy balances the extra push. By how much does "
        "the level rise? (Lever and seat are those above.)",
        unit="mm",
        reference=lambda given, earlier: _extra_pull(given, earlier) / _stiffness(given),
        tolerance=0.04,
        why=DEPTH_GAUGE,
        low=0.1,
        high=8.0,
        points=3,
        outcomes=("FLT-2",),
        follows=("needle-force",),
        rounded_to=0.1,
        slips=(
            Slip(
                "no-lever",
                lambda given, earlier: (
                    _extra_pull(given, earlier) / lever_ratio(given) / _stiffness(given)
                ),
                0.5,
                "The extra force on the needle went straight to the float. The lever makes it "
                "smaller first, by the ratio of the two arms.",
            ),
            Slip(
                "whole-pressure",
                lambda given, earlier: (
                    (given["new_pressure"] / given["supply_pressure"])
                    * earlier["needle-force"]
                    * lever_ratio(given)
                    / _stiffness(given)
                ),
                0.5,
                "You used the whole of the new pressure. The level already holds the old "
                "pressure, so only the difference moves it.",
            ),
        ),
        hints=(
            "Find the extra force on the needle first, then bring it over the lever to the float.",
            "A float that goes deeper by h pushes aside h times its area more fuel.",
        ),
    ),
    Exercise(
        id="soaked-level-shift",
        ask="An old float has soaked up **{soaked_mass}** of fuel, whose weight acts at the "
        "middle of the float. The float still covers {float_area}, in fuel of {fuel_density}. By "
        "how much does the level rise before the needle shuts?",
        unit="mm",
        reference=lambda given, earlier: (
            given["soaked_mass"] / (given["fuel_density"] * given["float_area"])
        ),
        tolerance=0.04,
        why=DEPTH_GAUGE,
        low=0.5,
        high=8.0,
        points=2,
        outcomes=("FLT-2",),
        rounded_to=0.1,
        slips=(
            Slip(
                "over-the-lever",
                lambda given, earlier: (
                    given["soaked_mass"]
                    * lever_ratio(given)
                    / (given["fuel_density"] * given["float_area"])
                ),
                0.5,
                "The lever does not come into this, because the extra weight already sits at the "
                "float, where the buoyancy acts.",
            ),
            Slip(
                "water-for-fuel",
                lambda given, earlier: given["soaked_mass"] / (1000.0 * given["float_area"]),
                0.5,
                "You calculated with the density of water, but the float swims in petrol, which is "
                "lighter.",
            ),
        ),
        hints=(
            "The float must push aside as many more grams of fuel as it has grown heavier.",
            "Mass over density is the extra volume, and volume over area is the extra depth.",
        ),
    ),
    Exercise(
        id="hot-level-shift",
        ask="The density of {fuel_density} was measured at 15 °C, and for each kelvin above that "
        f"it falls by {SWELLING:.2f} kg/m³. In slow traffic the bowl warms to "
        "**{bowl_temperature}**. The float still needs the buoyancy you found, so more of it must "
        "stand in the lighter fuel. It covers {float_area}, and g is 9.81 m/s². By how much does "
        "the level rise?",
        unit="mm",
        reference=lambda given, earlier: _deeper(given, earlier, hot_density(given)),
        tolerance=0.04,
        why=DEPTH_GAUGE,
        low=0.05,
        high=3.0,
        points=3,
        outcomes=("FLT-2", "FLT-3"),
        follows=("buoyancy",),
        rounded_to=0.1,
        slips=(
            Slip(
                "whole-depth",
                lambda given, earlier: (
                    earlier["buoyancy"] / (hot_density(given) * GRAVITY * given["float_area"])
                ),
                0.5,
                "That is how deep the float now sits altogether, but the question asks how much "
                "deeper it sits than in cold fuel.",
            ),
            Slip(
                "from-zero",
                lambda given, earlier: _deeper(given, earlier, hot_density(given, 273.15)),
                0.5,
                "You counted the warming from 0 °C. The density was measured at 15 °C, so only "
                "the degrees above that count.",
            ),
        ),
        hints=(
            "The hot density comes first: count the kelvins above 15 °C and take off what they "
            "cost.",
            "The volume under the fuel is buoyancy over (density times g). Find it hot and cold, "
            "and divide the difference by the area.",
        ),
    ),
)
