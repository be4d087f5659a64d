"""Every job sheet, held to what a foreman would hold it to: safe, timed, and one limit everywhere.

What each test asks for is the judgement of the trade (common practice, no source), except where a
source stands beside it.
"""

import re
import tomllib
from collections.abc import Callable
from functools import cache

import pytest
from fuelmarks.course.card_text import TOKEN
from fuelmarks.course.course import Course
from fuelmarks.course.unit_text import filled_text, of_card

from tests.places import COURSE_FOLDER, RIGS, TOP

COURSE = Course(COURSE_FOLDER)
UNITS = COURSE.units()
HERON = TOP / "tests" / "paper" / "heron.toml"
CARDS = [RIGS / "plover.toml", RIGS / "dunlin.toml", HERON]
OFF, ON = "Battery's earth lead off", "Battery on"


def written(unit: str) -> str:
    """Return the job in the shop as it stands in the text."""
    return shop(COURSE.text(unit).read_text(encoding="utf-8"))


@cache
def sheet(unit: str) -> str:
    """Return the job in the shop with the numbers of the unit's rig."""
    return shop(filled_text(COURSE.text(unit), COURSE.root / "rigs"))


def shop(text: str) -> str:
    return text.split("## In the shop")[1].split("\n## ", maxsplit=1)[0]


def steps(text: str) -> list[str]:
    """Return the numbered steps of a sheet, in order."""
    return re.findall(r"^\d+\. (.*)$", text, flags=re.M)


def runs(step: str) -> bool:
    """Return whether the engine runs in this step."""
    plain = re.sub(r"\*\*Caution:\*\*.*", "", step)
    return bool(re.search(r"(?:^|\. |, )[Ss]tart(?:,| and| again| once|\.|$| up)|\bRev\b", plain))


each_unit = pytest.mark.parametrize("unit", UNITS)


@each_unit
def test_a_sheet_says_its_minutes_and_lessons_add_up(unit: str) -> None:
    text = sheet(unit)
    whole = re.search(r"\*\*Time\.\*\* (\d+) minutes", text)
    assert whole
    parts = [int(one) for one in re.findall(r"^### .* (\d+) minutes$", text, flags=re.M)]
    assert not parts or sum(parts) == int(whole[1])
    assert parts or int(whole[1]) <= 90, "longer than a double lesson: divide it"
    assert all(part <= 90 for part in parts)


@pytest.mark.parametrize("unit", ["08-pump", "09-choke", "11-setting-up"])
def test_what_does_not_fit_a_lesson_is_divided(unit: str) -> None:
    assert len(re.findall(r"^### ", sheet(unit), flags=re.M)) >= 2


@each_unit
def test_the_extinguisher_is_in_reach_and_the_signature_has_its_line(unit: str) -> None:
    assert "xtinguisher in reach" in sheet(unit)
    observed = "| observed work | reading | pass or not yet | watched by | date | signed |"
    assert observed in sheet(unit)


@each_unit
def test_each_outcome_of_doing_that_is_watched_at_this_job_has_its_row(unit: str) -> None:
    outcomes = tomllib.loads((COURSE.root / "outcomes.toml").read_text(encoding="utf-8"))
    watched = [code for code, one in outcomes.items() if unit in one.get("jobs", ())]
    assert re.findall(r"^\| (JOB-\d+) · .*\|$", sheet(unit), flags=re.M) == watched


@each_unit
def test_no_engine_runs_between_battery_off_and_battery_on(unit: str) -> None:
    off = False
    for step in steps(sheet(unit)):
        off = (off or OFF in step) and ON not in step
        assert not (off and runs(step)), step
    assert not off


@each_unit
def test_after_open_petrol_hoses_bowl_and_leak_check_come_before_the_start(unit: str) -> None:
    said, opened = "", False
    for step in steps(sheet(unit)):
        opened = opened or OFF in step
        said += step
        if opened and runs(step):
            for first in ("oses", "ipe", "Battery on", "Fill the bowl", "look over every joint"):
                assert first in said, (first, step)
            return
    assert not opened


@each_unit
def test_where_an_engine_runs_brake_chocks_neutral_exhaust_and_ignition_are_named(
    unit: str,
) -> None:
    text = sheet(unit)
    if not any(runs(step) for step in steps(text)):
        return
    for said in ("rake on", "hocks|hocked", "eutral", "xhaust led outside|exhaust outside"):
        assert re.search(said, text), said
    assert "fan and belts" in text
    assert "plug leads" in text


def blown(unit: str) -> list[str]:
    """Return the steps in which something is blown out."""
    listed = steps(sheet(unit))
    return [one for one in listed if re.search(r"\b[Bb]low\b", one) and "blows out" not in one]


def loaded(unit: str) -> list[str]:
    """Return the steps in which something is read while the engine works."""
    return [one for one in steps(sheet(unit)) if re.search(r"under load|at load", one)]


@each_unit
def test_an_air_gun_is_used_at_low_pressure_and_never_at_skin(unit: str) -> None:
    # 29 CFR 1910.242(b): air for cleaning below 30 psi, that is 207 kPa.
    for step in blown(unit):
        assert "2 bar (30 psi)" in step
        assert "never at skin" in step


@each_unit
def test_readings_under_load_are_read_by_a_second_person(unit: str) -> None:
    for step in loaded(unit):
        assert "rolling road" in step
        assert "second person" in step


@pytest.mark.parametrize("found", [blown, loaded], ids=lambda found: found.__name__)
def test_steps_that_want_care_are_found_on_several_sheets(
    found: Callable[[str], list[str]],
) -> None:
    assert sum(bool(found(unit)) for unit in UNITS) >= 3


@each_unit
def test_tools_that_are_named_in_the_steps_are_on_the_list(unit: str) -> None:
    text = sheet(unit)
    tools = re.search(r"\*\*Tools\.\*\* (.*)", text)
    assert tools
    worked = " ".join(steps(text)).lower()
    for tool, named in {
        "hand pump": "hand vacuum pump",
        "bending tool": "bending tool",
        "manometer": "manometer",
        "protractor": "protractor",
        "lamp from": "test lamp",
        "lamp on": "test lamp",
        "jet key": "jet key",
        "with the key": "jet key",
        "micrometer": "micrometer",
        "analyser": "analyser",
        "pins": "pin gauges",
        "gasket, cover": "gasket",
    }.items():
        assert tool not in worked or named in tools[1].lower(), tool


@each_unit
def test_drills_are_no_gauges(unit: str) -> None:
    assert "drill shank" not in sheet(unit).lower()


@each_unit
def test_no_limit_of_the_card_is_typed(unit: str) -> None:
    """Numbers with a unit in a row are the card's, or belong to a gauge or to nobody's card."""
    rows = [line for line in written(unit).splitlines() if line.startswith(("| ", "{with"))]
    for row in rows:
        if "common practice" in row:
            continue
        left = TOKEN.sub("", row).split("|")
        typed = [cell for cell in left[2:4] if re.search(r"\d", cell)]
        allowed = r"within|up to 1\.7 kPa|not above 0\.1 mm|holds 30 s"
        assert not [cell for cell in typed if not re.search(allowed, cell)], row


def test_the_limits_of_one_reading_are_equal_on_all_sheets() -> None:
    of: dict[str, set[str]] = {}
    for unit in UNITS:
        for name in re.findall(r"\{limit: ([^}]*)\}", written(unit)):
            assert "." not in name, f"{unit}: {name} must be named in limits.toml"
            of.setdefault(name, set()).add(unit)
    assert len([units for units in of.values() if len(units) > 1]) >= 10


@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.stem)
@each_unit
def test_every_sheet_is_filled_from_every_card(unit: str, card: object) -> None:
    of = of_card(card, COURSE.root / "units", blanks=True)  # type: ignore[arg-type]
    made = of.filled(written(unit), unit)
    assert not re.search(r"\{\w+:", made)
    assert of.missing == []


def step_with(unit: str, *words: str) -> int:
    """Return the place of the first step that has all `words`."""
    found = [at for at, step in enumerate(steps(sheet(unit))) if all(w in step for w in words)]
    assert found, words
    return found[0]


def test_main_jets_come_out_after_the_rods() -> None:
    assert step_with("06-high-speed", "Lift the power piston") < step_with(
        "06-high-speed", "Turn the main jets out"
    )


def test_the_cleaner_is_back_before_its_loss_is_measured_and_open_choke_is_asked_warm() -> None:
    back = step_with("01-air-path", "Put the cleaner and every hose back")
    assert back < step_with("01-air-path", "at 2500 rpm")
    assert step_with("01-air-path", "choke plate must stand upright") > step_with(
        "01-air-path", "warm up"
    )


def test_a_healthy_rig_passes_the_cleaners_limit() -> None:
    for card in CARDS:
        of = of_card(card, COURSE.root / "units")
        value = of.filled("{card: reading.cleaner_loss in Pa to 0.1}", "x").split()[0]
        limit = of.filled("{limit: cleaner-loss}", "x").split()[2]
        assert float(value) < float(limit)


def test_the_timer_works_warm_and_only_the_diaphragm_stays_without_vacuum() -> None:
    dunlin = of_card(RIGS / "dunlin.toml", COURSE.root / "units").filled(written("09-choke"), "x")
    cold, warm = re.findall(r"\| timer's lamp, (?:cold|warm) start (\| \d+\ss \|.*)", dunlin)
    assert cold == warm
    assert "vacuum at the diaphragm, warm start | none" in dunlin


def test_a_plain_piston_may_leak_and_is_judged_at_the_flange() -> None:
    assert "ten seconds" not in sheet("07-power")
    assert "A plain piston leaks" in sheet("07-power")


def test_cold_settings_come_before_hot_ones() -> None:
    cold, hot = sheet("11-setting-up").split("### Then: hot")
    for setting in ("float setting", "pull-off", "unloader", "cam", "index"):
        assert setting in cold
    assert all(word in hot for word in ("idle speed", "fast idle"))


def test_a_choke_that_is_shut_is_kept_from_emptying_the_manometer() -> None:
    opened = step_with("05-off-idle", "Open the choke fully")
    assert opened < step_with("05-off-idle", "read the chamber's vacuum")
    assert "catch bottle" in sheet("05-off-idle")


def test_both_kinds_of_float_are_on_the_sheet() -> None:
    assert "Some floats hang in the bowl" in sheet("02-float-bowl")
    assert "Take the gasket off" in sheet("02-float-bowl")
