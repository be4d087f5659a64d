"""Numbers of a card in a text: how they read, and what is refused in words."""

from pathlib import Path

import pytest
from fuelcircuits.errors import CardError, CircuitError
from fuelmarks.course.card_number import card_number
from fuelmarks.course.card_text import BLANK
from fuelmarks.course.limits import read_limits
from fuelmarks.course.unit_text import of_card

CARD = """
name = "heron"
note = "Invented."
[float_bowl]
float_setting = "11/32 in"
fuel_pressure = "5 psi"
[high_speed]
jet_bore = "#53 drill"
[choke]
cam_openings = ["6 deg", "4 deg"]
set_temperature = "70 degF"
[pump]
bore = "14 mm"
plate_bore = "14 mm"
stroke = "8 mm"
linkage_start = "13 deg"
linkage_rate = "8 mm/rad"
spring_rate = "300 N/m"
spring_preload = "1.5 N"
lost_motion = "9 mm"
jet_bore = "0.45 mm"
jet_length = "1.5 mm"
"""
LIMITS = """
setting  = "float_bowl.float_setting in mm to 0.1, +- 0.4"
pressure = "float_bowl.fuel_pressure in kPa and psi to 1 and 0.5, +- 10 %"
jet      = "high_speed.jet_bore in mm to 0.01, + 0.02 - 0.01"
strokes  = "reading.ten_strokes in ml to 0.1, at least - 1"
drop     = "float_bowl.drop_stop in mm"
"""


def filled(folder: Path, text: str, card: str = CARD, *, blanks: bool = False) -> str:
    (folder / "heron.toml").write_text(card)
    (folder / "limits.toml").write_text(LIMITS)
    made = of_card(folder / "heron.toml", folder, blanks=blanks).filled(text, "a-unit/unit.md")
    return made.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("asked", "shown"),
    [
        # The inch is 25.4 mm, a psi 6.894757 kPa (NIST SP 811); number 53 is 0.0595 in
        # (ANSI/ASME B94.11M).
        ("{card: setting}", "8.7 mm (0.344 in)"),
        ("{limit: setting}", "8.3 to 9.1 mm (0.328 to 0.359 in)"),
        ("{card: pressure}", "34 kPa (5.0 psi)"),
        ("{limit: pressure}", "31 to 38 kPa (4.5 to 5.5 psi)"),
        ("{card: jet}", "1.51 mm (#53 drill)"),
        ("{limit: jet}", "1.50 to 1.53 mm"),
        ("{card: choke.cam_openings.1 in deg to 1}", "4°"),
        ("{card: choke.set_temperature in degC to 1}", "21 °C"),
        ("{limit: choke.set_temperature in degC to 1, at most + 30}", "not above 51 °C"),
        ("{card: 2 * pump.stroke in mm to 1}", "16 mm"),
        # pi/4 of 14 mm squared, times 8 mm, ten times: 12.315 ml, worked by hand.
        ("{card: strokes}", "12.3 ml"),
        ("{limit: strokes}", "not below 11.3 ml"),
        ("{limit: pump.stroke in mm to 1, +- 20}", "0 to 28 mm"),
        ("{card: name}, {card: note}", "heron, Invented."),
        ("{minutes: fuel-pressure} min", "5 min"),
    ],
)
def test_a_number_reads_as_the_trade_writes_it(tmp_path: Path, asked: str, shown: str) -> None:
    assert filled(tmp_path, asked) == shown


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("{card: float_bowl.flaot_setting in mm}", "did you mean float_setting?"),
        ("{card: bowl.depth in mm}", "did you mean float_bowl?"),
        ("{card: seting}", "did you mean setting?, got 'seting'|did you mean setting?"),
        ("{card: reading.ten_stroke in ml}", "did you mean ten_strokes?"),
        ("{card: pump.stroke in kPa}", "must be of the kind of m, got 'kPa'"),
        ("{card: pump.stroke in furlong}", "unit must be one of the table"),
        ("{card: pump.stroke in mm, roughly}", "how far off is good must read"),
        ("{limit: drop}", "must say how far off is good"),
        ("{card: drop}", "heron.toml must give float_bowl.drop_stop, got nothing"),
        ("{limit: pump.cup_leak in mm^2, +- 1}", "{with: pump.cup_leak} must stand"),
        ("a row {with: pump} of", "must stand at the head of its line"),
        ("{with: pumps} of", "section must be one of"),
    ],
)
def test_what_cannot_be_filled_is_refused_with_its_line(
    tmp_path: Path, asked: str, said: str
) -> None:
    with pytest.raises(CircuitError) as refusal:
        filled(tmp_path, f"one\n\n{asked}\n")
    assert "a-unit/unit.md, line 3: " in str(refusal.value)
    assert any(one in str(refusal.value) for one in said.split("|"))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"14 mm"', '"14 psi"', "pump.bore must be convertible to m, got 14 psi"),
        ('"8 mm"', '"80 mm"', "pump.stroke must be between 1 mm and 25 mm"),
        ('"#53 drill"', '"#153 drill"', "drill number must be between 1 and 97"),
        ('"11/32 in"', '"11/0 in"', "float_bowl.float_setting must be a number with a unit"),
        ("float_setting", "flote_setting", "did you mean float_setting?"),
        ('"11/32 in"', '"9,1 mm"', "must be written with a point for the comma"),
    ],
)
def test_a_card_that_is_wrong_is_refused(tmp_path: Path, old: str, new: str, said: str) -> None:
    with pytest.raises(CardError) as refusal:
        filled(tmp_path, "{card: setting}", CARD.replace(old, new))
    assert said in str(refusal.value)
    assert "heron.toml: " in str(refusal.value)


def test_what_a_college_card_leaves_out_is_room_to_write(tmp_path: Path) -> None:
    text = "{card: drop} {limit: reading.idle_vacuum in kPa, +- 1} {card: setting}"
    assert filled(tmp_path, text, blanks=True) == f"{BLANK} {BLANK} 8.7 mm (0.344 in)"


SHEET = """## Shop

1. One.
{with: cold_start} 2. Two.
{without: cold_start} {with: pump} 3. Three.
{with: pump.cup_leak} 4. Four.
5. Five.

Words.

## After

7. Seven.
"""


def test_lines_of_a_part_the_card_has_not_fall_out_and_steps_count_on(tmp_path: Path) -> None:
    made = filled(tmp_path, SHEET)
    assert [line for line in made.splitlines() if line] == [
        "## Shop",
        "1. One.",
        "2. Three.",
        "3. Five.",
        "Words.",
        "## After",
        "7. Seven.",
    ]
    assert made.splitlines().index("## After") == SHEET.splitlines().index("## After")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("x = 3", "limits.toml: x must be a text, got 3"),
        ('x = "float_setting"', "limits.toml: x: a number of the card must read"),
        ("x = ", "limits.toml must be a file of TOML"),
    ],
)
def test_limits_that_cannot_be_used_are_refused(tmp_path: Path, line: str, said: str) -> None:
    (tmp_path / "limits.toml").write_text(line)
    with pytest.raises(CircuitError, match=said):
        read_limits(tmp_path / "limits.toml")


def test_a_share_is_of_the_number_and_not_of_the_unit() -> None:
    assert (
        card_number("pump.stroke in mm to 0.1, +- 10 %").limits(8e-3, "m") == "7.2 to 8.8\u00a0mm"
    )
