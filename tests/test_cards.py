import subprocess
import sys
from dataclasses import dataclass, fields
from pathlib import Path

import pytest
from fuelcircuits import cards as module
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.float_bowl import FloatBowl
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.network.rig import ABSENT
from IPython.core.interactiveshell import InteractiveShell

from tests.places import RIGS

PLOVER = (RIGS / "plover.toml").read_text(encoding="utf-8")
FLOAT = PLOVER.split("[float_bowl]")[1].split("\n[")[0]
CARD = f'name = "specimen"\n[float_bowl]{FLOAT}'


def refusal(path: Path, text: str) -> str:
    """What `read_rig` says about a card with this text."""
    path = path / "specimen.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(CardError) as caught:
        read_rig(path)
    return str(caught.value)


@pytest.mark.parametrize("card", sorted(RIGS.glob("*.toml")), ids=lambda card: card.stem)
def test_every_rig_of_the_course_is_read_and_says_it_is_invented(card: Path) -> None:
    rig = read_rig(card)
    assert rig.name == card.stem
    assert "invented" in rig.note.lower()


# Definitions of the inch-pound units (NIST SP 811) and of the degree.
def test_entries_are_in_si() -> None:
    bowl = read_rig(RIGS / "plover.toml").float_bowl
    assert isinstance(bowl, FloatBowl)
    assert bowl.seat_bore == pytest.approx(2.3e-3, rel=1e-12)
    assert bowl.fuel_pressure == pytest.approx(5 * 6894.757, rel=1e-6)
    assert bowl.needle_taper == pytest.approx(3.14159265 / 6, rel=1e-8)


def test_entry_with_a_default_may_be_left_out() -> None:
    assert "soaked" not in FLOAT
    assert read_rig(RIGS / "plover.toml").float_bowl.soaked == 0.0


def test_section_that_a_card_leaves_out_is_none(tmp_path: Path) -> None:
    (tmp_path / "specimen.toml").write_text(CARD, encoding="utf-8")
    rig = read_rig(tmp_path / "specimen.toml")
    absent = {field.name for field in fields(rig)} - {"name", "note", "float_bowl"}
    assert [getattr(rig, name) for name in sorted(absent)] == [None] * len(absent)


BORE = "specimen.toml: float_bowl.seat_bore must"


@pytest.mark.parametrize(
    ("before", "after", "message"),
    [
        (
            '"2.3 mm"',
            '"-2.3 mm"',
            f"{BORE} be between 0.5 mm and 6 mm (0.0005 and 0.006 m), got -2.3 mm",
        ),
        (
            '"2.3 mm"',
            '"1/2 in"',
            f"{BORE} be between 0.019685 in and 0.23622 in (0.0005 and 0.006 m), got 1/2 in",
        ),
        (
            '"2.3 mm"',
            '"1-1/16 in"',
            f"{BORE} be between 0.019685 in and 0.23622 in (0.0005 and 0.006 m), got 1-1/16 in",
        ),
        ('"2.3 mm"', '"0.1 m"', f"{BORE} be between 0.0005 and 0.006 m, got 0.1 m"),
        ('"2.3 mm"', '"nan mm"', f"{BORE} be a number with a unit such as m, got 'nan mm'"),
        ('"2.3 mm"', '"1e999 mm"', f"{BORE} be a finite number, got '1e999 mm'"),
        ('"2.3 mm"', '"2.3 g"', f"{BORE} be convertible to m, got 2.3 g"),
        ('"2.3 mm"', "2.3", f"{BORE} have a unit such as m, got 2.3"),
        ('"2.3 mm"', "true", f"{BORE} be text with a unit such as m, got True"),
        ('"2.3 mm"', '"2,3 mm"', f"{BORE} be written with a point for the comma, got '2,3 mm'"),
        ('"2.3 mm"', '"wide"', f"{BORE} be a number with a unit such as m, got 'wide'"),
        ('"2.3 mm"', '["2.3 mm"]', f"{BORE} be one value, got ['2.3 mm']"),
        ("seat_bore", "#", f"{BORE} be given, got nothing"),
        (
            "seat_bore",
            "seet_bore",
            "specimen.toml: float_bowl.seet_bore must be a known entry (did you mean seat_bore?), "
            "got an unknown key",
        ),
        (
            "[float_bowl]",
            "[flote_bowl]",
            "specimen.toml: flote_bowl must be a known entry (did you mean float_bowl?), "
            "got an unknown key",
        ),
        (
            "[float_bowl]",
            "[float_bowl]\nqqq = 1",
            "specimen.toml: float_bowl.qqq must be a known entry (no entry of that name is known), "
            "got an unknown key",
        ),
        ('"specimen"', "3", "specimen.toml: name must be text, got 3"),
        ('name = "specimen"', "", "specimen.toml: name must be text, got None"),
        ('name = "specimen"', 'name = "x"\nnote = 3', "specimen.toml: note must be text, got 3"),
        (
            "inlet_discharge = 0.7",
            'inlet_discharge = "0.7 m"',
            "specimen.toml: float_bowl.inlet_discharge must be convertible to dimensionless, "
            "got 0.7 m",
        ),
    ],
)
def test_fault_of_a_card_names_file_field_rule_and_value(
    tmp_path: Path, before: str, after: str, message: str
) -> None:
    assert message in refusal(tmp_path, CARD.replace(before, after, 1)).splitlines()


def test_all_faults_of_a_card_are_told_at_once(tmp_path: Path) -> None:
    wrong = CARD.replace('"2.3 mm"', '"-2.3 mm"').replace('"46 mm"', '"46 g"').replace("drop_", "d")
    assert len(refusal(tmp_path, wrong).splitlines()) == 4


def test_rule_between_entries_is_told_with_the_section(tmp_path: Path) -> None:
    message = refusal(tmp_path, CARD.replace('"32 mm"', '"12 mm"'))
    assert message.startswith("specimen.toml: float_bowl: float length less height must be between")


def test_table_given_as_a_value_is_refused(tmp_path: Path) -> None:
    message = refusal(tmp_path, 'name = "x"\nfloat_bowl = 3\n')
    assert message == "specimen.toml: float_bowl must be a table of entries, got 3"


def test_file_that_is_no_card_is_refused(tmp_path: Path) -> None:
    assert "specimen.toml: card must be a readable TOML file" in refusal(tmp_path, "name = ")


def test_card_that_does_not_exist_is_refused(tmp_path: Path) -> None:
    with pytest.raises(CardError, match=r"nowhere\.toml: card must be a readable TOML file"):
        read_rig(tmp_path / "nowhere.toml")


@dataclass(frozen=True)
class Row(Section):
    """A section with a row of numbers, a word and a switch."""

    lifts: tuple[float, ...] = entry("m", 0.0, 1.0, "lifts of a cam")
    kind: str = "plain"
    sealed: bool = False


@dataclass(frozen=True)
class Specimen:
    """A rig with such a section."""

    name: str
    note: str = ""
    row: Row = ABSENT


def test_row_of_values_words_and_switches_are_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "Rig", Specimen)
    card = tmp_path / "specimen.toml"
    card.write_text(
        'name = "x"\n[row]\nlifts = ["1 mm", "1 in"]\nkind = "air"\nsealed = true\n',
        encoding="utf-8",
    )
    assert read_rig(card).row == Row((1e-3, 25.4e-3), "air", True)  # type: ignore[attr-defined]


def test_a_notebook_shows_the_faults_of_a_card_and_no_traceback(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    card = tmp_path / "specimen.toml"
    card.write_text(CARD.replace('"2.3 mm"', '"23 mm"'), encoding="utf-8")
    cell = f"from fuelcircuits.cards import read_rig\nread_rig({str(card)!r})"
    InteractiveShell().run_cell(cell)  # type: ignore[no-untyped-call]
    said = capsys.readouterr().out.splitlines()
    assert said[-2] == "The card cannot be used yet:"
    assert said[-1].startswith(BORE)


def test_importing_the_package_leaves_the_units_library_alone() -> None:
    probe = "import sys, fuelcircuits; sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", probe], check=False).returncode == 0


TWO = f"""{PLOVER}
[second.air_path]
venturi_bore = "27 mm"
opens_at = "45 deg"
[second.high_speed]
jet_bore = "#52 drill"
"""


def test_a_second_barrel_differs_in_what_its_tables_say_and_in_nothing_else(tmp_path: Path) -> None:
    (tmp_path / "two.toml").write_text(TWO, encoding="utf-8")
    rig = read_rig(tmp_path / "two.toml")
    assert rig.second is not None
    assert rig.second.air_path.venturi_bore == pytest.approx(27e-3)
    assert rig.second.air_path.opens_at == pytest.approx(0.785398, rel=1e-5)
    assert rig.second.air_path.throttle_bore == rig.air_path.throttle_bore
    assert rig.second.high_speed.jet_bore == pytest.approx(0.0635 * 0.0254)  # ANSI B94.11M
    assert rig.second.low_speed is None
    assert read_rig(RIGS / "plover.toml").second is None


@pytest.mark.parametrize(
    ("table", "message"),
    [
        ("[second]\njet = 3", "second must be tables such as [second.air_path], got"),
        ("[second.air_paht]\nbore = 3", "second.air_paht must be a known entry (did you mean air_"),
        ('[second.power]\nlean_step = "1 mm"', "power must be given where second.power is"),
        ('[second.high_speed]\njet = "1 mm"', "second.high_speed.jet must be a known entry"),
        ('[second.high_speed]\njet_bore = "#99"', "drill number must be between 1 and 97, got 99"),
    ],
)
def test_what_is_wrong_with_a_second_barrel_is_said(
    tmp_path: Path, table: str, message: str
) -> None:
    sections = PLOVER.split("[power]")[0]
    assert message in refusal(tmp_path, f"{sections}{table}\n")
