"""Unit 02, what moves the level: pump pressure, a soaked float, hot fuel."""

from fuelmarks.exercises.exercise import Exercise, Slip, Values
from fuelmarks.exercises.float_balance import GRAVITY, lever_ratio

__all__ = ["EXERCISES"]

SWELLING = 0.90
"""What petrol's density loses a kelvin [kg/(m3 K)]: 0.89 to 0.92 by ASTM D1250, table 54B."""
DEPTH_GAUGE = "A depth gauge reads to 0.1 mm, so nothing finer is asked."


def _stiffness(given: Values) -> float:
    """Return the buoyancy that a metre of extra immersion brings [N/m]."""
    return given["fuel_density"] * GRAVITY * given["float_area"]


def _hot_density(given: Values, cool: float = 288.15) -> float:
    """Return the density at the bowl's temperature if the given one holds at `cool` [K]."""
    return given["fuel_density"] - SWELLING * (given["bowl_temperature"] - cool)


EXERCISES = (
    Exercise(
        id="pump-level-shift",
        ask="A new pump holds **{new_pressure}** instead of {supply_pressure}. Seen from above, "
        "the float covers **{float_area}**. By how much does the fuel level rise, with the "
        "needle just shut? The float stays where it was; it only needs to be deeper in the fuel. "
        "Take the lever, the seat and the fuel from above, and the float's sides as upright.",
        unit="mm",
        reference=lambda given, earlier: (
            (given["new_pressure"] - given["supply_pressure"])
            * earlier["seat-area"]
            * lever_ratio(given)
            / _stiffness(given)
        ),
        tolerance=0.04,
        why=DEPTH_GAUGE,
        low=0.1,
        high=8.0,
        points=3,
        outcomes=("FLT-2",),
        follows=("seat-area",),
        rounded_to=0.1,
        slips=(
            Slip(
                "no-lever",
                lambda given, earlier: (
                    (given["new_pressure"] - given["supply_pressure"])
                    * earlier["seat-area"]
                    / _stiffness(given)
                ),
                0.5,
                "The extra force on the needle went straight to the float. The lever makes it "
                "smaller by the ratio of the two arms.",
            ),
            Slip(
                "whole-pressure",
                lambda given, earlier: (
                    given["new_pressure"]
                    * earlier["seat-area"]
                    * lever_ratio(given)
                    / _stiffness(given)
                ),
                0.5,
                "You used the whole new pressure. The level already holds the old one: only the "
                "difference moves it.",
            ),
        ),
        hints=(
            "Extra force on the needle, then over the lever to the float.",
            "A float that goes h deeper pushes aside area times h more fuel.",
        ),
    ),
    Exercise(
        id="soaked-level-shift",
        ask="An old float has soaked up **{soaked_mass}** of fuel. The float still covers "
        "{float_area} of a fuel of {fuel_density}. By how much does the level rise before the "
        "needle shuts? The extra weight acts at the middle of the float.",
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
                "The lever ratio does not belong here: the extra weight already sits at the "
                "float, where the buoyancy acts.",
            ),
            Slip(
                "water-for-fuel",
                lambda given, earlier: given["soaked_mass"] / (1000.0 * given["float_area"]),
                0.5,
                "You took the density of water. The float swims in petrol.",
            ),
        ),
        hints=("The float must push aside as much more fuel as it has grown heavier.",),
    ),
    Exercise(
        id="hot-density",
        ask="The density of {fuel_density} was measured at 15 °C. For each kelvin above that "
        f"it falls by {SWELLING:.2f} kg/m³. How dense is the fuel in a bowl at "
        "**{bowl_temperature}**?",
        unit="kg/m^3",
        reference=lambda given, earlier: _hot_density(given),
        tolerance=0.004,
        why="Hot and cold fuel differ by a few parts in a hundred, so the band is narrow here.",
        low=600.0,
        high=800.0,
        points=2,
        outcomes=("FLT-3", "SHOP-1"),
        slips=(
            Slip(
                "from-zero",
                lambda given, earlier: _hot_density(given, 273.15),
                0.5,
                "You counted the warming from 0 °C. The density holds at 15 °C: only the "
                "degrees above that count.",
            ),
            Slip(
                "denser-when-hot",
                lambda given, earlier: 2 * given["fuel_density"] - _hot_density(given),
                0.5,
                "The change went the wrong way: fuel swells when it is warm and gets lighter.",
            ),
        ),
        hints=("First the kelvins above 15 °C, then what they take off, then what is left.",),
    ),
    Exercise(
        id="hot-level-shift",
        ask="The float needs the same buoyancy in hot fuel as in cold. By how much deeper must it "
        "be in fuel as hot as that, and so by how much does the level rise? Use the volume under "
        "the fuel and the hot density from above; the float covers {float_area}.",
        unit="mm",
        reference=lambda given, earlier: (
            earlier["displaced-volume"]
            * (given["fuel_density"] / earlier["hot-density"] - 1)
            / given["float_area"]
        ),
        tolerance=0.04,
        why=DEPTH_GAUGE,
        low=0.05,
        high=3.0,
        points=2,
        outcomes=("FLT-3",),
        follows=("displaced-volume", "hot-density"),
        rounded_to=0.1,
        slips=(
            Slip(
                "whole-depth",
                lambda given, earlier: (
                    earlier["displaced-volume"]
                    * given["fuel_density"]
                    / (earlier["hot-density"] * given["float_area"])
                ),
                0.5,
                "That is how deep the float now sits in all. Asked is by how much deeper.",
            ),
        ),
        hints=("Volume under the fuel, hot: the cold volume times cold over hot density.",),
    ),
)
