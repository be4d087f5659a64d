"""Kinds are proved: unlike terms, roots of something with a unit, and the wrong kind are told."""

import pytest
from fuelmarks.formula.functions import Table
from fuelmarks.formula.grammar import FormulaError, read
from fuelmarks.formula.kinds import PLAIN, kind_in_words, kind_of_unit, prove

UNITS = {"bore": "mm", "pressure": "psi", "density": "kg/m^3", "share": "percent", "warm": "degC"}
KINDS = {name: kind_of_unit(unit) for name, unit in UNITS.items()}


def test_flow_of_a_jet_is_a_mass_flow() -> None:
    formula = read("flow = share * circle(bore) * sqrt(2 * density * pressure)")
    assert prove(formula, KINDS, "g/s")["flow"] == kind_of_unit("kg/s")


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [
        ("a = bore + pressure", "mm", "like kinds, got length and length^-1 mass time^-2"),
        ("a = pressure * circle(bore)", "kPa", "as kPa asks"),
        ("a = sin(bore)", "", "must give sin a plain number, got length"),
        ("a = exp(pressure)", "", "must give exp a plain number"),
        ("a = bores", "mm", "got bores"),
        ("g = bore", "mm", "a name of its own, got g"),
        ("bore = bore", "mm", "a name of its own, got bore"),
        ("a = drill(bore)", "mm", "must give drill a plain number"),
    ],
)
def test_what_does_not_fit_is_refused_in_words(text: str, unit: str, said: str) -> None:
    with pytest.raises(FormulaError) as refusal:
        prove(read(text), KINDS, unit)
    assert said in str(refusal.value)


def test_a_table_has_kinds_of_its_own() -> None:
    table = Table((250.0, 300.0), (0.2, 0.8), "K", "", "the share that evaporates")
    formula = read("a = evaporated(warm)", frozenset({"evaporated"}))
    assert prove(formula, KINDS, "percent", {"evaporated": table})["a"] == PLAIN
    wrong = read("a = evaporated(bore)", frozenset({"evaporated"}))
    with pytest.raises(FormulaError, match="must give evaporated temperature, got length"):
        prove(wrong, KINDS, "", {"evaporated": table})


def test_kinds_are_spelt() -> None:
    assert kind_in_words(kind_of_unit("N/m")) == "mass time^-2"
    assert kind_in_words(kind_of_unit("")) == "a plain number"
