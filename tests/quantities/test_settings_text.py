"""How a bench is set, read from its own text and from what people type."""

from math import radians

import pytest
from fuelcircuits.quantities.settings_text import Dial, settings_in

DIALS = {
    "float_setting": Dial("Float setting", "mm", 2, 20),
    "mixture_screw": Dial("Mixture, turns out", "turns", 0.5, 5),
    "lost": Dial("Rod starts at", "deg", 9, 34),
}
ONE = {"mixture_screw": DIALS["mixture_screw"]}
WHOLE = {"float_setting": 9.2e-3, "mixture_screw": 2.75, "lost": radians(24)}

TYPED = [
    "float_setting=0.0092&mixture_screw=2.75&lost=0.4188790205",
    "float_setting=0.0092&mixture_screw=2.75&lost=0.4188790205&pin=1&pin.lost=0.3",
    "float setting = 9.2 mm, mixture_screw = 2.75 turns, rod starts at = 24 deg",
    "Float setting: 9,2 mm; Mixture, turns out: 2 3/4 turns out\nlost: 24°",
    "lost=24deg; float-setting=0.92 cm; mixture_screw=2¾",
]
ALONE = ["2.75", "2 3/4", "2,75 turns", "2.75 turns out", "mixture_screw=2.75", "2¾ turns"]
REFUSED = {
    "": "Write down too where this stands",
    "float_setting = 9.2 mm": "Mixture, turns out, Rod starts at",
    "float_setting = 9.2": "must be with its unit, 2 to 20 mm",
    "float_setting = 9.2 kPa": "must be 2 to 20 mm, got 9.2 kPa",
    "float_setting = 92 mm": "must be 2 to 20 mm, got 92 mm",
    "float_setting = low": "must begin with a number",
    "jet_bore = 0.6 mm": "jet_bore must be left as it was",
    "lambda = 0.93": "lambda must be left as it was",
    "2.75": "must begin with a control's name",
    "lost = 24 deg, lost = 20 deg": "must be set once",
    "mixture_screw = 0.25": "must be 0.5 to 5 turns",
}


@pytest.mark.parametrize("text", TYPED)
def test_a_text_sets_every_control(text: str) -> None:
    told = settings_in(text, DIALS)
    assert told.complaints == ()
    assert dict(told.values) == pytest.approx(WHOLE)
    assert told.text == "Float setting 9.2 mm, Mixture, turns out 2.75 turns, Rod starts at 24°"


@pytest.mark.parametrize("text", ALONE)
def test_one_control_needs_no_name(text: str) -> None:
    assert settings_in(text, ONE).values == {"mixture_screw": 2.75}


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_setting_is_told_and_not_guessed(text: str) -> None:
    told = settings_in(text, DIALS)
    assert REFUSED[text] in " ".join(told.complaints)


@pytest.mark.parametrize("text", ["=" * 5000, "a=1," * 5000, "{" * 900, "nan", "1e999", "\x00=1"])
def test_anything_is_read_without_an_error(text: str) -> None:
    assert settings_in(text, DIALS).complaints
    assert settings_in(text, ONE).complaints
