"""Unit 12, diagnosis: a complaint, three cars with a hidden fault, and a loose hose from before."""

from fuelcircuits.benches.drive.journeys import Leg

from fuelmarks.questions.diagnosis import cases
from fuelmarks.questions.frame.drive_task import driven
from fuelmarks.questions.frame.driven import ALL_KEPT
from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

IN_TOP = (Leg(1.0, 0.0), Leg(0.6, 0.0, "top"))
FLOORED = (Leg(0.2, 1.0, "top"), Leg(0.8, 1.0, "top"))
COMPLAINT = driven(
    "bring-it-out",
    "“Something is not right with it,” says the owner of **car 3**. Drive it until the complaint "
    "shows, before you hang a gauge: on the drive of this unit choose the journey “The complaint "
    "of car 3” and press “Drive it yourself”. You have 15 s, and as many drives as you like; “How "
    "did I drive?” tells how it went. Then press “Copy this drive” and paste it into your answer. "
    "It is driven again from your pedal, with car 3 and with a healthy car, and these are its "
    "limits.",
    task="complaint",
    rig="plover",
    points=2,
    outcomes=("DIA-2",),
    why="A complaint that you can bring out at will is a test that takes a minute and no tool; "
    "that a healthy car does not share it makes it one.",
    hints=(
        "When does a circuit have most to do at once? Idle, pull away gently, floor it: each in "
        "gear and out of it.",
    ),
    examples={
        ALL_KEPT: (*IN_TOP, *FLOORED),
        "not-shown": (Leg(1.0, 0.0), Leg(2.0, 0.12, "low")),
        "stalled": (
            *IN_TOP,
            *FLOORED,
            Leg(0.2, 1.0, "top", brake=1.0),
            Leg(2.0, 1.0, "top", brake=1.0),
        ),
        "healthy-too": (*IN_TOP, *FLOORED, Leg(0.1, 0.0, "top"), Leg(0.9, 0.0, "top")),
    },
)

EXERCISES = unit_of(__package__, unit="12-diagnosis", after={"": (COMPLAINT, *cases.EXERCISES)})
