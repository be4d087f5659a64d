"""The gaps of units 05 to 08, filled as a trainee should fill them, give what the text says."""

from typing import Any

import pytest
from fuelcircuits.quantities.units import Q
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import read

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)

FILLED = {
    "05-off-idle": (
        "gap_ratio = Q(35, 'kPa') / Q(100, 'kPa')",
        "gap_flow = choked * gap_area * Q(100, 'kPa') / Q(300, 'K') ** 0.5",
    ),
    "06-high-speed": (
        "gap_driving = gap_drop - head",
        "gap_ratio = no_lip * (gap_drop / gap_driving) ** 0.5",
        "gap_stop = fuel * g * Q(2, 'mm')",
    ),
    "07-power": (
        "gap_down = pi / 4 * (gap_jet**2 - gap_lean**2)",
        "gap_up = pi / 4 * (gap_jet**2 - gap_middle**2)",
        "gap_ratio = 15.6 * gap_down / gap_up",
    ),
    "08-pump": (
        "gap_shot = plunger * Q(8, 'mm')",
        "gap_pressure = Q(2.6, 'N') / plunger - Q(1.2, 'kPa')",
        "gap_flow = 0.76 * jets * (2 * gap_pressure / density) ** 0.5",
    ),
}
SAID = [  # what the text before the gaps promises
    ("05-off-idle", "gap_flow", 93, "mg/s", 0.01),
    ("06-high-speed", "gap_ratio", 14.6, "", 0.005),
    ("06-high-speed", "gap_driving", 163, "Pa", 0.005),
    ("06-high-speed", "gap_stop", 14.7, "Pa", 0.005),
    ("07-power", "gap_ratio", 13.0, "", 0.005),
]


def worked(unit: str, fillings: tuple[str, ...]) -> dict[str, Any]:
    """Return the names that the worked example and the cell with gaps leave behind."""
    cells = [cell.source for cell in read(COURSE.notebook("release", unit)).cells]
    at = next(n for n, source in enumerate(cells) if source.count("= ...") > 1)
    example = next(source for source in reversed(cells[:at]) if "Q(" in source)
    gaps = cells[at]
    for filling in fillings:
        name = filling.split(" = ")[0]
        gaps = gaps.replace(f"{name} = ...", filling)
    left: dict[str, Any] = {"Q": Q}
    exec(example, left)
    exec(gaps, left)
    return left


@pytest.mark.parametrize(("unit", "fillings"), FILLED.items())
def test_unfilled_gaps_say_so(
    unit: str, fillings: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    worked(unit, fillings[:-1])
    assert "still gaps" in capsys.readouterr().out


@pytest.mark.parametrize(("unit", "fillings"), FILLED.items())
def test_filled_gaps_are_taken(
    unit: str, fillings: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    worked(unit, fillings)
    assert "still gaps" not in capsys.readouterr().out


@pytest.mark.parametrize(("unit", "name", "value", "units", "within"), SAID)
def test_filled_gaps_give_what_the_text_says(
    unit: str, name: str, value: float, units: str, within: float
) -> None:
    found = worked(unit, FILLED[unit])[name]
    assert (found * Q(1, "")).to(units).m == pytest.approx(value, rel=within)
