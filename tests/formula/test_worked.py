"""Worked answers: the learner's numbers, the units shown, and a line where units mix."""

from collections.abc import Mapping

from fuelcircuits.quantities.trade_units import scale
from fuelmarks.formula.grammar import read
from fuelmarks.formula.kinds import kind_of_unit, prove
from fuelmarks.formula.worked import Line, worked_lines
from fuelmarks.formula.writing import as_mathml, as_text


def lines(text: str, givens: Mapping[str, tuple[float, str]], unit: str) -> list[Line]:
    formula, units = read(text), {name: each for name, (_, each) in givens.items()}
    values = {
        name: scale(each).factor * number + scale(each).offset if each else number
        for name, (number, each) in givens.items()
    }
    kinds = prove(formula, {name: kind_of_unit(each) for name, each in units.items()}, unit)
    return worked_lines(formula, values, units, kinds, unit)


def test_numbers_that_fit_are_put_in_as_they_stand() -> None:
    ring = lines(
        "needle = seat - taper * pitch * turns  # the needle\n"
        "ring = circle(seat) - circle(needle)  # the ring",
        {"seat": (1.55, "mm"), "taper": (0.35, ""), "pitch": (0.75, "mm"), "turns": (2.25, "")},
        "mm^2",
    )
    assert [line.text for line in ring] == [
        "1.55 mm − 0.35 · 0.75 mm · 2.25",
        "π/4 · (1.55 mm)² − π/4 · (0.9594 mm)²",
    ]
    assert [line.result for line in ring] == ["0.9594 mm", "1.164 mm²"]
    assert not any(line.conversions for line in ring)


def test_mixed_units_are_turned_into_si_first() -> None:
    (line,) = lines(
        "flow = 0.73 * circle(bore) * sqrt(2 * density * drop)  # the flow",
        {"bore": (1.4, "mm"), "density": (750, "kg/m^3"), "drop": (12, "inH2O")},
        "g/s",
    )
    assert [(one.shown, one.turned) for one in line.conversions] == [
        ("1.4 mm", "0.0014 m"),
        ("12 inH2O", "2989 Pa"),
    ]
    assert line.result == "0.002379 kg/s = 2.379 g/s"


def test_a_temperature_is_counted_from_absolute_zero() -> None:
    (line,) = lines("a = 2 * warm", {"warm": (50.0, "degC")}, "K")
    assert (line.conversions[0].turned, line.result) == ("323.15 K", "646.3 K")


def test_a_temperature_below_zero_is_taken_off_in_brackets() -> None:
    (line,) = lines("cold = warm - dawn", {"warm": (19.0, "degC"), "dawn": (-11.0, "degC")}, "K")
    assert (line.text, line.result) == ("19 °C − (−11 °C)", "30 K")
    assert "<mo>(</mo><mn>−11 °C</mn><mo>)</mo>" in line.mathml


def test_power_and_torque_are_written_in_units_of_the_shop() -> None:
    _turning, power, use = lines(
        "turning = 2 * pi * speed\npower = torque * turning\nuse = flow / power",
        {"speed": (2000, "1/min"), "torque": (110, "N*m"), "flow": (2, "g/s")},
        "g/kWh",
    )
    assert power.result == "23040 W = 23.04 kW"
    assert [one.turned for one in use.conversions] == ["0.002 kg/s", "23040 W"]
    assert use.result == "8.681·10⁻⁸ kg/J = 312.5 g/kWh"


def test_angles_and_shares_are_put_in_as_they_are_shown() -> None:
    covered, share = lines(
        "covered = cos(open) / cos(shut)\nshare = 1 - covered",
        {"open": (31.0, "deg"), "shut": (8.0, "deg")},
        "percent",
    )
    assert (covered.text, covered.result) == ("cos(31°) / cos(8°)", "0.8656")
    assert (share.text, share.result) == ("1 − 0.8656", "13.44 %")
    assert not covered.conversions + share.conversions


def test_a_step_is_written_in_the_unit_of_a_number_it_comes_from() -> None:
    seat, force = lines(
        "seat = circle(bore)  # the seat\nforce = pressure * seat  # the force",
        {"pressure": (30, "kPa"), "float_area": (15, "cm^2"), "bore": (2.2, "mm")},
        "N",
    )
    assert seat.result == "3.801 mm²"
    assert force.conversions[1].shown == "3.801 mm²"


def test_brackets_stand_where_they_are_needed() -> None:
    node = read("a = -(b - c) * d / (e + f)**2 + sqrt(b / c) - bore_of(d)").steps[0].node
    assert as_text(node, str) == "(−(b − c)) · d / (e + f)² + √(b / c) − √(4 · d / π)"


def test_mathml_holds_no_mark_up_of_a_name() -> None:
    shown = as_mathml(read("a = b").steps[0].node, lambda name: "<script>")
    assert "<script>" not in shown
    assert "&lt;script&gt;" in shown
