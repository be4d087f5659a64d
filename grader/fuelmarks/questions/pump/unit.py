"""Unit 08, the accelerator pump: shot and jet, film and cover, and two from before."""

from fuelcircuits.benches.drive.journeys import Leg

from fuelmarks.questions.frame.drive_task import driven
from fuelmarks.questions.frame.driven import ALL_KEPT
from fuelmarks.questions.frame.find_part import find_part
from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

PARTS = ("duration-spring", "pump-plunger", "inlet-check", "discharge-check", "pump-jet")
FIND = find_part("name-the-part", "pump", PARTS, "marked_part", ("PMP-1",))

AWAY = (Leg(2.0, 0.12, "low"), Leg(3.5, 0.25, "low"))
PUMPED = tuple(Leg(0.1, pedal) for pedal in (1.0, 0.0, 1.0, 0.0, 1.0, 0.0))
DRIVE = driven(
    "pull-away",
    "On the drive of this unit choose the journey “Pull away” and press “Drive it yourself”. Pull "
    "away within 15 s. “How did I drive?” tells how it went, and you may drive as often as you "
    "like. Then press “Copy this drive” and paste it into your answer. It is driven again from "
    "your pedal, step by step, and these are its limits.",
    task="pull-away",
    rig="plover",
    points=2,
    outcomes=("PMP-3",),
    why="The engine takes the pedal as fast as its speed rises, and no faster.",
    hints=("Watch the vacuum needle while the pedal goes down.",),
    examples={
        ALL_KEPT: (Leg(1.0, 0.0), *AWAY),
        "not-away": (Leg(2.0, 0.1),),
        "stalled": (Leg(1.0, 0.0), *AWAY, Leg(0.2, 0.0, "low"), Leg(4.0, 0.0, "top", 0.2)),
        "misfired": (Leg(1.0, 0.0), *PUMPED, *AWAY),
        "vacuum-lost": (Leg(1.0, 0.0), Leg(0.2, 1.0, "low"), Leg(2.0, 1.0, "low")),
    },
)

AFTER = {"shot-cover": (FIND,), "set-the-rod": (DRIVE,)}
EXERCISES = unit_of(__package__, unit="08-pump", after=AFTER)
