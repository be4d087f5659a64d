"""The bench on paper: rules carried out, words beside the picture, nothing fetched."""

import base64
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.benches.frame.drawing import asked, fill
from fuelcircuits.benches.frame.figure import StaticFigure
from fuelcircuits.cards import read_rig

from tests.places import RIGS

RIG = read_rig(RIGS / "plover.toml")


@pytest.fixture(scope="module")
def figure() -> StaticFigure:
    return FloatBowlBench(RIG).figure()


def test_rules_set_attributes_and_words() -> None:
    part = fill('<g data-set="transform = rotate([turn] 1 2); text = [turn] deg"/>', {"turn": 4.25})
    assert (part.get("transform"), part.text) == ("rotate(4.250 1 2)", "4.250 deg")


@pytest.mark.parametrize(("speed", "visible"), [(0.0, False), (12.0, True), (-12.0, True)])
def test_flow_marks_are_hidden_where_nothing_flows(speed: float, visible: bool) -> None:
    part = fill('<path data-march="inlet"/>', {"inlet": speed})
    assert (part.get("visibility") != "hidden") == visible


def test_drawing_tells_the_numbers_it_asks_for() -> None:
    drawing = '<g data-set="d = M [a] 2 h [b]; opacity = 1"><path data-march="c"/></g>'
    assert asked(drawing) == {"a", "b", "c"}


def test_a_number_that_is_missing_is_an_error() -> None:
    with pytest.raises(KeyError, match="turn"):
        fill('<g data-set="x = [turn]"/>', {})


def test_figure_has_a_text_alternative(figure: StaticFigure) -> None:
    root = ElementTree.fromstring(figure.svg)
    assert (root.get("role"), root.get("aria-label")) == ("img", figure.alt)
    assert "16.2 mm below the gasket face" in figure.alt


def test_figure_leaves_no_rule_open_and_fetches_nothing(figure: StaticFigure) -> None:
    for value in re.findall(r'\s(?:d|x|y|width|height|transform)="([^"]*)"', figure.svg):
        assert "[" not in value
    assert re.findall(r'href="(?!#)|@import|<image|url\((?!#)', figure.svg) == []


def test_figure_is_shown_in_a_notebook_and_saved(figure: StaticFigure, tmp_path: Path) -> None:
    shown = figure._repr_mimebundle_()
    assert set(shown) == {"image/svg+xml", "text/markdown", "text/plain"}
    data = re.search(r"base64,([^\"]+)", shown["text/markdown"])
    assert data
    assert base64.b64decode(data[1]).decode() == shown["image/svg+xml"] == figure.svg
    assert figure.save(tmp_path / "bench.svg").read_text(encoding="utf-8") == figure.svg


def test_figure_is_the_same_every_time(figure: StaticFigure) -> None:
    assert FloatBowlBench(RIG).figure() == figure
