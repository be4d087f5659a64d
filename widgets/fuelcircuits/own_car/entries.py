"""The entries of a card that matter most: what each does, how it is measured, what is usual.

Where to measure is shown by a sketch beside; ranges and ways are common practice, no source.
"""

from collections.abc import Mapping
from importlib.resources import files
from types import MappingProxyType
from typing import NamedTuple

from fuelcircuits.diagnosis.check import ENGINE_RUNS, PETROL_OPEN
from fuelcircuits.own_car.entry_text import shop_unit

__all__ = ["BARRELS", "ENTRIES", "GROUPS", "SECOND_ENTRIES", "Matter", "sketch"]


class Matter(NamedTuple):
    """One entry that an owner can measure."""

    entry: str
    """Section and field, with a dot between; ``second.`` before it for the second barrel."""
    label: str
    """What it is, for people."""
    usual: tuple[float, float]
    """What most are, in the shop's unit."""
    does: str
    how: str
    drawing: str
    """Stem of its sketch."""
    jet: bool = False
    """Whether it is a jet, which may be known only by a number stamped on it."""
    caution: str = ""
    """What can hurt while it is measured."""

    @property
    def unit(self) -> str:
        """The unit that a number alone is taken in."""
        return shop_unit(self.entry)[0] or ("turns" if "turns" in self.entry else "")

    def is_usual(self, value: float) -> bool:
        """Return whether a value [SI] is one that most have."""
        one = shop_unit(self.entry)[1]
        return self.usual[0] * one <= value * (1 + 1e-9) and value <= self.usual[1] * one * (
            1 + 1e-9
        )


_BLOWN = "Goggles on before anything is blown through: petrol in the eye burns."
_PIN = (
    "Blow the jet clean. Find the thickest pin gauge that goes through by its own weight; a drill "
    "shank will do, never its cutting end."
)
ENGINE = (
    Matter(
        "engine.displacement",
        "Displacement, all cylinders",
        (0.6, 7.5),
        "It sets how much air, and so how much fuel, passes.",
        "From the papers, or bore² × stroke × cylinders × 0.785.",
        "engine",
    ),
    Matter(
        "engine.cylinders",
        "Cylinders",
        (2, 8),
        "It belongs to the name of the engine; the model counts displacement.",
        "Count the plugs.",
        "engine",
    ),
    Matter(
        "engine.idle_speed",
        "Idle speed, warm",
        (550, 1000),
        "At a higher idle the throttle stands wider and uncovers more of the slot.",
        "From the sticker or the handbook: as it should be, not as it is.",
        "idle_speed",
    ),
)
AIR = (
    Matter(
        "air_path.venturi_bore",
        "Venturi, narrowest place",
        (18, 38),
        "The smaller it is, the harder the air pulls at the nozzle.",
        "Inside gauge or telescopic gauge from above, choke held open, at the waist and not at "
        "the booster. Often cast in the barrel as a number in millimetres.",
        "venturi",
    ),
    Matter(
        "air_path.throttle_bore",
        "Throttle bore, at the plate",
        (26, 48),
        "It sets how fast the slot is uncovered, and how much air the open throttle passes.",
        "Carburettor off, from below, across the bore beside the shaft.",
        "throttle",
    ),
)
MAIN = (
    Matter(
        "high_speed.jet_bore",
        "Main jet",
        (0.9, 2.2),
        "All the fuel of road and full load comes through it.",
        _PIN,
        "main_jet",
        jet=True,
        caution=_BLOWN,
    ),
    Matter(
        "high_speed.air_bleed_bore",
        "Main air bleed (air corrector)",
        (0.6, 2.2),
        "Its air keeps the mixture from growing rich as the air grows.",
        "A pin gauge by hand, from above; it sits at the top of the main well. Write 0 if the well "
        "has none.",
        "main_bleed",
        jet=True,
    ),
    Matter(
        "power.lean_step",
        "Metering rod, thickest part",
        (0.5, 1.3),
        "It takes up part of the main jet on the road and leaves it at full load.",
        "Rod out with its piston; micrometer on the thick step. Write 0 if nothing hangs in the "
        "main jet.",
        "rod",
    ),
)
IDLE = (
    Matter(
        "low_speed.jet_bore",
        "Idle jet",
        (0.35, 0.85),
        "All the fuel of idle and light throttle comes through it.",
        _PIN,
        "idle_jet",
        jet=True,
        caution=_BLOWN,
    ),
    Matter(
        "low_speed.air_bleed_bore",
        "Idle air bleed",
        (0.7, 1.9),
        "Its air makes the idle fuel a froth: larger is leaner.",
        "A pin gauge by hand, from above, beside the main air bleed.",
        "idle_bleed",
        jet=True,
    ),
    Matter(
        "low_speed.screw_turns",
        "Mixture screw, turns out from its seat",
        (1.0, 4.0),
        "It trims the idle. It is set by the tachometer, so yours may differ from the book.",
        "Turn it in gently until it just touches and count the turns, then back by as many. "
        "Sealed screws stay sealed.",
        "screw",
    ),
)
FUEL = (
    Matter(
        "float_bowl.float_setting",
        "Float setting, cover's face to the float",
        (4, 20),
        "It sets at what height the needle shuts.",
        "Cover off and upside down, gasket as the book says, the float's own weight on the "
        "needle; gauge rod between face and float.",
        "float",
        caution=PETROL_OPEN,
    ),
    Matter(
        "float_bowl.specified_level",
        "Fuel level, below the cover's face",
        (8, 30),
        "Every jet and nozzle counts from it: a millimetre is a few per cent of mixture.",
        "From the book; else at a sight plug, or with a rule in the open bowl after a run.",
        "level",
        caution=PETROL_OPEN,
    ),
    Matter(
        "float_bowl.fuel_pressure",
        "Fuel pressure",
        (10, 50),
        "It pushes the needle open against the float.",
        "Gauge on a T-piece at the inlet, engine idling.",
        "pressure",
        caution=f"{ENGINE_RUNS} Petrol under pressure: rag round the union, no spark near.",
    ),
    Matter(
        "float_bowl.seat_bore",
        "Needle seat",
        (1.3, 2.8),
        "It must pass the fuel of full load, and the pressure pushes on it.",
        "Number stamped on its hexagon, or a pin gauge through it.",
        "seat",
        caution=PETROL_OPEN,
    ),
)
GROUPS: Mapping[str, tuple[Matter, ...]] = MappingProxyType(
    {
        "Engine": ENGINE,
        "Air": AIR,
        "Main circuit": MAIN,
        "Idle circuit": IDLE,
        "Bowl and fuel": FUEL,
    }
)
"""What matters, in the order in which it is asked for."""
ENTRIES: Mapping[str, Matter] = MappingProxyType(
    {one.entry: one for group in GROUPS.values() for one in group}
)
"""The same by the entry's name."""
BARRELS: Mapping[str, str] = MappingProxyType(
    {
        "one": "one barrel",
        "alike": "two alike, on one shaft",
        "late": "two that differ, the second opened late by a link",
    }
)
"""How many barrels there are, and how they go together."""
SECOND_ENTRIES: Mapping[str, Matter] = MappingProxyType(
    {
        one.entry: one
        for one in (
            Matter(
                "second.air_path.opens_at",
                "Link: first plate's angle as the second opens",
                (25, 60),
                "Until there the engine runs on the first barrel alone.",
                "Degree wheel on the first shaft; open it slowly until the second lever moves. "
                "Closed plates stand at about 10°. Opened by a vacuum box instead: give the "
                "angle at which it usually opens on the road; the model knows links only.",
                "link",
            ),
            Matter(
                "second.air_path.venturi_bore",
                "Second venturi, narrowest place",
                (18, 38),
                AIR[0].does,
                AIR[0].how,
                "venturi",
            ),
            Matter(
                "second.air_path.throttle_bore",
                "Second throttle bore",
                (26, 48),
                AIR[1].does,
                AIR[1].how,
                "throttle",
            ),
            Matter(
                "second.high_speed.jet_bore",
                "Second main jet",
                (0.9, 2.2),
                MAIN[0].does,
                _PIN,
                "main_jet",
                jet=True,
                caution=_BLOWN,
            ),
            Matter(
                "second.high_speed.air_bleed_bore",
                "Second main air bleed",
                (0.6, 2.2),
                MAIN[1].does,
                MAIN[1].how,
                "main_bleed",
                jet=True,
            ),
        )
    }
)
"""What is asked of a second barrel that differs."""


def sketch(drawing: str) -> str:
    """Return a sketch of where and how something is measured, as SVG."""
    return files(__package__).joinpath("sketches", f"{drawing}.svg").read_text("utf-8")
