"""``fuelmarks check`` and ``new-unit``: what an author sees, and how they end."""

from pathlib import Path

import pytest
from fuelmarks.commands.cli import main

UNIT = "20-our-float"


@pytest.fixture
def course(tmp_path: Path) -> Path:
    (tmp_path / "units").mkdir()
    assert main(["new-unit", UNIT, "--course", str(tmp_path)]) == 0
    return tmp_path


def questions(course: Path) -> Path:
    return course / "units" / UNIT / "questions.toml"


def checked(course: Path, capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    capsys.readouterr()
    code = main(["check", UNIT, "--course", str(course), "--sheets", "60"])
    return code, "".join(capsys.readouterr())


def test_skeleton_is_sound_and_shows_ten_sheets(
    course: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, said = checked(course, capsys)
    assert code == 0
    (numbers,) = (line for line in said.splitlines() if "seat_bore:" in line)
    assert numbers.count(",") == 10
    assert "answers: " in said
    assert "kinds: push is length mass time^-2" in said
    assert "1 in your words; 30 found by changing the formula" in said
    assert "In words: say-why (2 points)" in said
    assert said.splitlines()[-1] == "60 sheets drawn: 0 faults, 0 remarks; fit to be handed out"


def test_rival_is_a_fault(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = questions(course)
    path.write_text(
        path.read_text().replace("points  = 2\nhints", "tolerance = 0.5\npoints  = 2\nhints")
    )
    code, said = checked(course, capsys)
    assert code == 1
    second = said.partition("2. needle-push")[2]
    assert "FAULT: who makes the slip square-for-circle" not in said.partition("2. needle")[0]
    assert "FAULT: who makes the slip" in second
    assert said.splitlines()[-1].endswith("mend the faults first")


def test_outcome_that_is_not_in_the_list_is_a_fault(
    course: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = questions(course)
    path.write_text(path.read_text().replace("hints", 'outcomes = ["FLT-1", "FLT-9"]\nhints', 1))
    assert checked(course, capsys)[0] == 0
    (course / "outcomes.toml").write_text('[FLT-1]\ntitle = "Balances a float"\n')
    code, said = checked(course, capsys)
    assert code == 1
    assert said.count("its outcome must be in the list of outcomes") == 1
    assert "FAULT: its outcome must be in the list of outcomes, got FLT-9" in said


def test_mistake_is_refused_in_one_line(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = questions(course)
    path.write_text(path.read_text().replace("circle(seat_bore)", "circle(bore)"))
    code, said = checked(course, capsys)
    assert code == 2
    assert "question seat-area: area must use known names" in said
    assert said.count("\n") == 1


def test_text_without_a_question_is_refused(
    course: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = course / "units" / UNIT / "unit.md"
    text.write_text(text.read_text().replace("seat-area", "seat-aria"))
    code, said = checked(course, capsys)
    assert code == 2
    assert "exercise must be one of seat-area, needle-push, got 'seat-aria'" in said


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("our-float", "unit must be two digits and a name"),
        (UNIT, "unit must have a number of its own"),
        ("20-another", "unit must have a number of its own"),
        ("02-float-bowl", "which comes with this"),
    ],
)
def test_name_that_will_not_do(
    course: Path, capsys: pytest.CaptureFixture[str], name: str, said: str
) -> None:
    assert main(["new-unit", name, "--course", str(course)]) == 2
    assert said in capsys.readouterr().err
