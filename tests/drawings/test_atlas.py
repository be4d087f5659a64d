"""The atlas: every part of a drawing has its words, and every entry of a card is there."""

import re
from xml.etree import ElementTree

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.drawings.atlas import Atlas
from fuelcircuits.drawings.card_entry import entry_text
from fuelcircuits.drawings.parts import parts
from fuelcircuits.drawings.section.exploded import exploded

from tests.places import COURSE_FOLDER

RIGS = {name: read_rig(COURSE_FOLDER / "rigs" / f"{name}.toml") for name in ("plover", "dunlin")}
each_rig = pytest.mark.parametrize("name", RIGS)


@each_rig
def test_every_link_of_the_atlas_leads_to_a_part_on_the_page(name: str) -> None:
    html = Atlas(RIGS[name]).html()
    links = set(re.findall(r'href="#(part-[a-z-]+)"', html))
    places = re.findall(r'<section id="(part-[a-z-]+)">', html)
    assert len(links) > 40
    assert links <= set(places)
    assert len(places) == len(set(places))


def test_every_part_has_its_job_and_what_wears_is_gauged_too() -> None:
    for one in parts().values():
        assert one.job, one.id
        if one.shown and one.wear:
            assert one.clean, f"{one.id} must say how it is cleaned"
            assert one.gauge, f"{one.id} must say where a gauge goes"


def test_every_entry_that_a_part_names_is_on_a_card() -> None:
    for one in parts().values():
        for path in one.card:
            assert any(entry_text(rig, path) for rig in RIGS.values()), path


def test_an_entry_is_shown_as_the_shop_writes_it() -> None:
    # the card's own text, read back from the file
    card = (COURSE_FOLDER / "rigs" / "plover.toml").read_text("utf-8")
    (jet,) = re.findall(r'\[high_speed\][^\[]*?\njet_bore = "([^"]+)"', card)
    assert entry_text(RIGS["plover"], "high_speed.jet_bore") == f"bore of the main jet: {jet}"
    assert entry_text(RIGS["plover"], "choke.set_temperature").endswith(" °C")
    assert entry_text(RIGS["plover"], "canister.capacity") == ""


@each_rig
def test_the_rig_drawn_apart_is_sound_and_names_each_part_once(name: str) -> None:
    drawn = exploded(RIGS[name])
    ElementTree.fromstring(drawn.svg)
    assert "nan" not in drawn.svg
    listed = drawn.alt.partition("Numbered: ")[2].rstrip(".").split(", ")
    names = [each.partition(" ")[2] for each in listed]
    assert len(names) == len(set(names)) > 25


def test_a_notebook_gets_no_link_within_a_drawing_because_jupyterlab_breaks_off_there() -> None:
    atlas = Atlas(RIGS["plover"])
    assert "<a " in atlas.html()
    assert re.search(r"</?a\b", atlas._repr_html_()) is None
