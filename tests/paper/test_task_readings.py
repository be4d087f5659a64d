"""What a lesson plan says that tasks show is what the benches show, and nothing in it is stale."""

import re
import tomllib
from pathlib import Path

import pytest
from fuelcircuits.benches import open_bench, stems_in
from fuelcircuits.cards import read_rig
from fuelmarks.course.course import Course, CourseError
from fuelmarks.paper.lesson_plan import lesson
from fuelmarks.paper.pack import lesson_page
from fuelmarks.paper.task_readings import FILE, task_readings

from tests.places import COURSE_FOLDER, RIGS

COURSE = Course(COURSE_FOLDER)
LISTED = tomllib.loads((COURSE_FOLDER / FILE).read_text(encoding="utf-8"))


@pytest.mark.parametrize("unit", COURSE.units())
def test_half_of_the_tasks_and_more_say_what_they_show_at_a_bench_of_the_unit(unit: str) -> None:
    plan = lesson(COURSE, unit)
    stems = stems_in(COURSE.text(unit).read_text(encoding="utf-8"))
    tasks = [one["task"] for one in LISTED[unit]]
    assert {one["bench"] for one in LISTED[unit]} <= set(stems)
    assert len(set(tasks)) == len(tasks)
    assert set(tasks) <= set(range(1, len(plan.tasks) + 1))
    assert 2 * len(tasks) >= len(plan.tasks)


OWN = {  # values that a task leaves to the trainee, or names in words
    "00-shop-arithmetic": {4: "90 85"},
    "01-air-path": {1: "25 30", 3: "90", 4: "90 4200"},
    "02-float-bowl": {2: "6", 3: "8 7", 4: "5 2 1.4 1.2"},
    "03-bowl-vents": {1: "50", 2: "50", 3: "0", 5: "0"},
    "04-low-speed": {3: "1.5 1", 5: "5 1"},
    "05-off-idle": {1: "15 16 18", 3: "0.28 1.5 1.25"},
    "06-high-speed": {1: "50", 4: "100"},
    "07-power": {1: "15 20 30", 2: "100", 4: "15 2.5 3 3.5 4"},
    "08-pump": {4: "2380"},
    "10-exhaust": {1: "1", 2: "0.91 1.07"},
    "11-setting-up": {2: "8 9", 3: "1.5", 4: "1.5"},
    "13-overhaul": {2: "20 60", 3: "1.61"},
}


@pytest.mark.parametrize("unit", COURSE.units())
def test_a_step_sets_what_its_task_says_or_what_it_leaves_open(unit: str) -> None:
    tasks = lesson(COURSE, unit).tasks
    for one in LISTED[unit]:
        text = tasks[one["task"] - 1].replace(",", "")
        set_to = [str(value).split()[0] for step in one["steps"] for value in step.values()]
        numbers = {value.lstrip("-") for value in set_to if re.match(r"-?\d", value)}
        said = set(re.findall(r"\d+(?:\.\d+)?", text))
        numbers -= {n for n in numbers if any(float(n) == float(each) for each in said)}
        assert numbers == set(OWN.get(unit, {}).get(one["task"], "").split()), one["task"]


def test_nothing_is_listed_of_a_unit_that_is_none() -> None:
    assert set(LISTED) == set(COURSE.units())


def test_a_step_is_what_the_bench_reads_when_it_is_set_so() -> None:
    shown = next(one for one in task_readings(COURSE, "01-air-path", "plover") if one.task == 3)
    bench = open_bench("air_path", read_rig(RIGS / "plover.toml"))
    speed = 4200 * 2 * 3.141592653589793 / 60
    for step, bore in zip(shown.steps, (25.5e-3, 30e-3), strict=True):
        state = bench.state({"throttle": 1.5707963, "speed": speed, "venturi_bore": bore})
        readings = {one.label: one.text("SI") for one in state.readings}
        assert step.readings == (readings["Air flow"], readings["Booster depression"])
    assert shown.steps[1].setting == (
        "Throttle angle 90°, Engine speed 4200 rpm, Main venturi bore 30 mm"
    )


def test_the_page_shows_settings_readings_and_the_right_prediction() -> None:
    page = lesson_page(COURSE, "05-off-idle")
    for one in task_readings(COURSE, "05-off-idle", "plover"):
        for step in one.steps:
            assert all(reading in page for reading in step.readings)
    assert page.count("<strong>Right: ") == 2
    assert "Slot width 0.28 mm" in page


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ('task = 1\nbench = "lamp"\nshow = []\nsteps = []', "bench must be one of gauges"),
        ('task = 1\nbench = "gauges"\nshow = []', "got 'no steps'"),
        ('task = 1\nbench = "gauges"\nshow = []\nsteps = []\ncolour = 1', "got 'colour'"),
        (
            'task = 1\nbench = "gauges"\nshow = []\nsteps = [{ lamp = "1" }]',
            "task 1: control must be one of vacuum, barometer",
        ),
        (
            'task = 1\nbench = "gauges"\nshow = ["Lamp"]\nsteps = [{}]',
            "show must name readings, Vacuum, metric",
        ),
        (
            'task = 1\nbench = "gauges"\nshow = []\nsteps = [{ vacuum = "1 MPa" }]',
            "manifold vacuum must be between 0 and 90000, got 1000000.0",
        ),
    ],
)
def test_an_entry_that_cannot_be_used_is_refused(tmp_path: Path, entry: str, message: str) -> None:
    (tmp_path / "units").mkdir()
    (tmp_path / "rigs").symlink_to(RIGS)
    (tmp_path / FILE).write_text(f'[["01-x"]]\n{entry}\n')
    with pytest.raises(CourseError, match=r"task_readings\.toml: 01-x") as caught:
        list(task_readings(Course.at(tmp_path), "01-x", "plover"))
    assert message in str(caught.value)
