"""Handout, job sheet and key: what stands on each, and that no answer is on a trainee's paper."""

import re
import shutil
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.commands.cli import main
from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.course.personal import sheet_of
from fuelmarks.paper.code import sums
from fuelmarks.paper.printing import handout_page, job_page, key_page, print_unit
from fuelmarks.paper.text import to_html
from fuelmarks.questions import load
from fuelmarks.questions.frame.drawing import from_si
from pypdf import PdfReader

from tests.places import TOP
from tests.small_unit import TEXT, UNIT, new_course

SHOP = """## In the shop: set the level

**Caution.** Petrol vapour burns at the first spark.

1. Take the cover off. **Caution:** never press the float down.
2. Measure.

+++

| reading | pass | before |
| --- | --- | --- |
| float drop | 7.5 to 8.5 mm | |

Signed: ____________

+++

## Afterwards

$$F = p \\, \\frac{\\pi d^2}{4}$$
"""
UNSIGHTLY = ("hand_over", "Q(", "import ", "shown = 6 * 7", "### ", ":::", "$$")


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    made = new_course(tmp_path_factory.mktemp("paper"), TEXT.replace("The end.", SHOP))
    build(made, UNIT)
    return made


@pytest.fixture(scope="module")
def handout(course: Course) -> str:
    return handout_page(course, UNIT, course.trainees()[0])


def words(page: str) -> str:
    """Return what can be read on a page, without the style sheet and the tags."""
    return unescape(re.sub(r"<[^>]+>", " ", page[page.index("<body") :]))


def answers(course: Course) -> Iterator[str]:
    """Yield the answers of the first trainee, to three figures, in the unit asked for."""
    exercise_set = load(UNIT)
    sheet = sheet_of(course, exercise_set, "t001")
    for one in exercise_set:
        yield f"{from_si(sheet.answers[one.id], one.unit):.3g}"


@pytest.mark.parametrize("code", UNSIGHTLY)
def test_no_code_and_no_markup_are_left_on_paper(handout: str, code: str) -> None:
    assert code not in words(handout)


def test_handout_asks_with_the_trainees_own_numbers(course: Course, handout: str) -> None:
    shown = sheet_of(course, load(UNIT), "t001").givens_shown
    assert f"The seat has a bore of {shown['seat_bore'].text}" in words(handout)
    assert f"With {shown['supply_pressure'].text} behind it" in words(handout)


def test_two_trainees_have_different_numbers(course: Course, handout: str) -> None:
    other = words(handout_page(course, UNIT, course.trainees()[1]))
    assert re.findall(r"With .* behind", other) != re.findall(r"With .* behind", words(handout))


def test_every_question_has_a_line_for_number_and_unit(handout: str) -> None:
    lines = re.findall(r"Answer\s+Unit", words(handout))
    assert len(lines) == len(load(UNIT).exercises)
    assert words(handout).count("My choice") == 2  # before the work and after it


def test_key_holds_every_answer_slip_and_rubric(course: Course) -> None:
    key = words(key_page(course, UNIT, course.trainees()[0]))
    assert all(re.search(rf"\b{re.escape(one)}", key) for one in answers(course))
    assert "The bore is a diameter" in key
    assert "1 point: says it." in key


def test_key_gives_the_slips_wrong_value(course: Course) -> None:
    bore = sheet_of(course, load(UNIT), "t001").givens_shown["seat_bore"].value
    whole = 3.14159265 * bore**2  # the declared slip: the bore taken for a radius
    assert f"{whole:.4g} mm" in words(key_page(course, UNIT, course.trainees()[0]))


def test_nothing_of_the_key_is_on_a_trainees_paper(course: Course, handout: str) -> None:
    paper = words(handout) + words(job_page(course, UNIT))
    assert not [one for one in answers(course) if re.search(rf"(?<![\d.]){re.escape(one)}", paper)]
    assert "The bore is a diameter" not in paper
    assert "says it" not in paper
    assert "nswer key" not in paper


def test_job_sheet_is_the_shop_section_alone(course: Course) -> None:
    job = words(job_page(course, UNIT))
    assert "Take the cover off" in job
    assert "7.5 to 8.5 mm" in job
    assert "Afterwards" not in job
    assert "Some words" not in job


def test_unit_without_a_job_has_no_job_sheet(tmp_path: Path) -> None:
    plain = new_course(tmp_path)
    build(plain, UNIT)
    with pytest.raises(CourseError, match="must have a section"):
        job_page(plain, UNIT)


def test_each_caution_stands_in_a_box_and_says_so(course: Course) -> None:
    boxes = re.findall(r'class="caution".*?</span>', job_page(course, UNIT), re.S)
    assert [re.sub(r"<[^>]+>", "", one)[-18:-1] for one in boxes] == [
        "t the first spark",
        "ss the float down",
    ]
    assert all("<strong>Caution" in one for one in boxes)


def test_formulas_are_mathml() -> None:
    html = to_html("$$F = \\frac{a}{2}$$ and $x^2$", Path())
    assert html.count("<math") == 2
    assert "<mfrac>" in html


@pytest.mark.parametrize(
    ("code", "line"),
    [
        ('bore = Q(2.2, "mm")', ("bore", "2.2 mm", "", False)),
        ("lift = ...  # by the lever", ("lift", "", "by the lever", True)),
        ("area = pi * bore**2 / 4", ("area", "π × bore² / 4", "", True)),
        ('load = mass * Q(9.81, "m/s**2")', ("load", "mass × (9.81 m/s²)", "", True)),
    ],
)
def test_code_becomes_a_sum(code: str, line: tuple[str, str, str, bool]) -> None:
    assert list(sums(code)) == [line]


@pytest.mark.parametrize(
    "code",
    ["%matplotlib inline", "area.to('mm^2')", "import math", "one, two = Car(1), Car(int(two))"],
)
def test_code_without_a_result_leaves_nothing(code: str) -> None:
    assert list(sums(code)) == []


def test_a_name_cannot_break_out_of_the_style_sheet(course: Course) -> None:
    page = handout_page(course, UNIT, type(course.trainees()[0])("t001", '"}</style><b>'))
    assert page.count("</style>") == 1


def test_chromium_prints_the_handout_with_name_and_page_numbers(course: Course) -> None:
    (path,) = print_unit(course, UNIT, "handout", "t001")
    pages = [page.extract_text() for page in PdfReader(path).pages]
    assert f"1 of {len(pages)}" in pages[0]
    assert all("First1 Last1" in page for page in pages)
    assert "how hard does the fuel push" in " ".join(" ".join(pages).split())


def test_without_chromium_the_page_is_kept_and_the_exit_code_is_2(
    course: Course, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", "")
    asked = ["print", UNIT, "--sheet", "key", "--trainee", "t002", "--course", str(course.root)]
    assert main(asked) == 2
    assert "chromium must be on PATH" in capsys.readouterr().err
    assert (course.root / "paper" / UNIT / "key" / "t002.html").exists()


def test_a_stranger_gets_no_paper(course: Course) -> None:
    with pytest.raises(CourseError, match="got 'nobody'"):
        list(print_unit(course, UNIT, "handout", "nobody"))


def test_key_holds_the_worked_answer_in_mathematics(tmp_path: Path) -> None:
    unit = "02-float-bowl"
    course = new_course(tmp_path)
    shutil.copytree(TOP / "course" / "units" / unit, course.root / "units" / unit)
    shutil.copy(TOP / "course" / "units" / "limits.toml", course.root / "units")
    shutil.copytree(TOP / "course" / "rigs", course.root / "rigs")
    key = key_page(course, unit, Trainee("specimen"))
    assert key.count('<math displaystyle="true">') == 25
    assert "<mfrac><mi>π</mi><mn>4</mn></mfrac>" in key
    assert "Three figures are enough, with one more on the way." in key
