"""How roughly a number was written: seen from its text or from the number itself."""

import pytest
from fuelmarks.marking.written import of_number, of_text

TEXTS = [
    ("1.5 N", 0.5 / 15),
    ("0,0250 kg/s", 0.5 / 250),
    ("about 12 g/s", 0.5 / 12),
    ("1 234.5 Pa", 0.5 / 12345),
    ("1.2 x 10^-3 kg/s", 0.5 / 12),
    ("-3 kPa", 0.5 / 3),
    ("1-1/4 in", 0.0),
    ("3/8 in", 0.0),
    ("½ in", 0.0),
    ("none", 0.0),
    ("0 N", 0.0),
]
NUMBERS = [
    (1.5, 0.5 / 15),
    (2.0, 0.5 / 2),
    (1200.0, 0.5 / 1200),
    (2.5e-7, 0.5 / 25),
    (-0.31, 0.5 / 31),
    (0.0, 0.0),
]


@pytest.mark.parametrize(("text", "rough"), TEXTS)
def test_text_is_as_rough_as_its_last_figure(text: str, rough: float) -> None:
    assert of_text(text) == pytest.approx(rough)


@pytest.mark.parametrize(("number", "rough"), NUMBERS)
def test_number_is_as_rough_as_the_figures_it_needs(number: float, rough: float) -> None:
    assert of_number(number) == pytest.approx(rough)


def test_what_was_calculated_is_not_rough() -> None:
    assert of_number(1 / 3) < 1e-14
