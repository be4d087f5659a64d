"""A name on a file or a folder names a trainee, or nobody; a guess is not made."""

import pytest
from fuelmarks.classroom.owner import delivered_as
from fuelmarks.course.class_list import Trainee

UNIT = "05-off-idle"
CLASS = (
    Trainee("t001", "Ada", "Floatwell"),
    Trainee("t002", "Zoë", "O'Needle"),
    Trainee("t0021", "Bram", "Jetson"),
    Trainee("1", "Cleo", "Ventura"),
    Trainee("idle", "Dov", "Chokeley"),
    Trainee("kit", "Kit"),
    Trainee("t900", "Ada", "Floatwell"),
)
NAMED = {
    "t001": {"t001"},
    "T001": {"t001"},
    "t001-last try (1)": {"t001"},
    "last try_t001": {"t001"},
    "t0021": {"t0021"},
    "t00217": set(),
    "at001": set(),
    "1": {"1"},
    f"{UNIT} (1)": set(),
    "week 1": set(),
    f"{UNIT}": set(),
    f"idle {UNIT}": {"idle"},
    "kit": {"kit"},
    "kitchen": set(),
    "Ada Floatwell": {"t001", "t900"},
    "FLOATWELL, ada_81234_assignsubmission_file_": {"t001", "t900"},
    "Zoe ONeedle": set(),
    "zoe o'needle": {"t002"},
    "Zoë O'Needle": {"t002"},
    "Ada": set(),
    "returned": set(),
}


@pytest.mark.parametrize(("name", "whose"), NAMED.items(), ids=NAMED)
def test_a_folder_names_whom_it_names(name: str, whose: set[str]) -> None:
    assert delivered_as((name, f"{UNIT}.ipynb"), UNIT, CLASS) == whose


@pytest.mark.parametrize(("name", "whose"), NAMED.items(), ids=NAMED)
def test_a_file_does_too(name: str, whose: set[str]) -> None:
    assert delivered_as(("returned", f"{name}.ipynb"), UNIT, CLASS) == whose


def test_the_nearest_name_counts() -> None:
    assert delivered_as(("t001", "more", "t002.ipynb"), UNIT, CLASS) == {"t002"}
    assert delivered_as(("t001", "more", "x.ipynb"), UNIT, CLASS) == {"t001"}
