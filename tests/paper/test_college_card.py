"""Job sheets for a carburettor of a college's own: what its card says, lacks, or has wrong."""

import re
from html import unescape
from pathlib import Path

import pytest
from fuelmarks.commands.cli import main
from fuelmarks.course.course import Course
from fuelmarks.paper.printing import job_sheet

from tests.places import COURSE_FOLDER, TOP

COURSE = Course(COURSE_FOLDER)
HERON = TOP / "tests" / "paper" / "heron.toml"
SMALL = """
name = "wagtail"
note = "Invented, and all that its college knows of it."
[float_bowl]
float_setting = "15/32 in"
fuel_pressure = "3-1/2 psi"
[high_speed]
jet_bore = "#54 drill"
"""


def words(page: str) -> str:
    """Return what can be read on a page."""
    text = unescape(re.sub(r"<[^>]+>", " ", page[page.index("<body") :]))
    return re.sub(r"\s+", " ", text)


@pytest.mark.parametrize("unit", COURSE.units())
def test_the_sheet_of_a_whole_card_leaves_nothing_open(unit: str) -> None:
    made = job_sheet(COURSE, unit, HERON)
    assert made.blank == ()
    assert "heron" in words(made.page)
    assert not re.search(r"plover|\{(?:card|limit|with|without|minutes):", made.page)


def test_a_small_card_gives_what_it_says_and_room_for_the_rest(tmp_path: Path) -> None:
    card = tmp_path / "wagtail.toml"
    card.write_text(SMALL)
    made = job_sheet(COURSE, "02-float-bowl", card)
    # 15/32 in are 11.9 mm, 3.5 psi are 24 kPa (NIST SP 811).
    assert "11.9 mm (0.469 in), part 11 11.5 to 12.3 mm (0.453 to 0.484 in)" in words(made.page)
    assert "24 kPa (3.5 psi)" in words(made.page)
    assert made.blank == ("float_bowl.drop_stop", "float_bowl.float_mass")
    assert '<span class="blank"></span>' in made.page


def test_a_sheet_of_a_part_that_is_not_on_the_card_has_no_row_of_it(tmp_path: Path) -> None:
    card = tmp_path / "wagtail.toml"
    card.write_text(SMALL)
    page = words(job_sheet(COURSE, "09-choke", card).page)
    assert "timer's lamp" not in page
    assert "timer's lamp" in words(job_sheet(COURSE, "09-choke", _rig("dunlin")).page)


def test_an_overhaul_without_choke_pump_and_rods_has_no_step_or_row_of_them(
    tmp_path: Path,
) -> None:
    whole = HERON.read_text("utf-8")
    bare = re.sub(r"^\[(?:choke|pump|power)\]\n.*?(?=^\[|\Z)", "", whole, flags=re.M | re.S)
    card = tmp_path / "bare.toml"
    card.write_text(bare, encoding="utf-8")
    parts = ("Choke:", "unloader", "Fast idle", "fast idle, second", "pump jets", "Pump:", "rods")
    every, made = (job_sheet(COURSE, "13-overhaul", one) for one in (HERON, card))
    said, left = words(every.page), words(made.page).replace("rods round", "")
    assert [each for each in parts if each not in said] == []
    assert [each for each in parts if each in left] == []
    assert made.blank == ()


def test_the_barrels_of_a_staged_carburettor_have_rows_of_their_own(tmp_path: Path) -> None:
    card = tmp_path / "staged.toml"
    more = '\n[second.high_speed]\njet_bore = "1.8 mm"\n'
    card.write_text(HERON.read_text(encoding="utf-8") + more)
    page = words(job_sheet(COURSE, "06-high-speed", card).page)
    assert "main jet, second barrel 1.80 mm" in page
    assert "main jets, both" not in page


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"15/32 in"', '"15 in"', "float_bowl.float_setting must be between"),
        ("float_setting", "float_seting", "did you mean float_setting?"),
        ('"#54 drill"', '"54"', "high_speed.jet_bore must be convertible to m, got 54"),
        ('"3-1/2 psi"', "3.5", "float_bowl.fuel_pressure must have a unit such as Pa"),
    ],
)
def test_a_wrong_card_is_refused_before_anything_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, said: str
) -> None:
    card = tmp_path / "wagtail.toml"
    card.write_text(SMALL.replace(old, new))
    asked = ["print", "02-float-bowl", "--sheet", "job", "--card", str(card)]
    assert main([*asked, "--course", str(COURSE.root)]) == 2
    refused = capsys.readouterr().err
    assert said in refused
    assert "wagtail.toml" in refused


def test_a_card_goes_with_a_job_sheet_only(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["print", "02-float-bowl", "--card", "dunlin", "--course", str(COURSE.root)]
    assert main(asked) == 2
    assert "must go with --sheet job" in capsys.readouterr().err


def test_a_card_that_is_not_there_is_told_by_its_path(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["print", "02-float-bowl", "--sheet", "job", "--card", "nowhere.toml"]
    assert main([*asked, "--course", str(COURSE.root)]) == 2
    assert "card must be a readable TOML file, got nowhere.toml" in capsys.readouterr().err


def _rig(name: str) -> Path:
    return COURSE.root / "rigs" / f"{name}.toml"
