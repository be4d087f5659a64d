"""The atlas among the site's pages: every way to a part arrives, and every way back too."""

import re

import pytest
from fuelcircuits.benches import BENCHES
from fuelcircuits.cards import read_rig
from fuelcircuits.drawings.atlas import Atlas
from fuelcircuits.drawings.parts import part_with, parts
from fuelmarks.course.course import Course
from fuelmarks.course.unit_text import filled_text

from course.site.atlas import ATLAS, Atlases, card_link
from tests.places import COURSE_FOLDER, RIGS

COURSE = Course(COURSE_FOLDER)
ATLASES = Atlases(RIGS)
LINK = re.compile(r'<a href="\.\./atlas/(\w+)\.html#(part-[a-z-]+)"')


@pytest.fixture(scope="module")
def places() -> dict[str, set[str]]:
    """Return the anchors on the page of each atlas."""
    pages = {rig: Atlas(read_rig(RIGS / f"{rig}.toml")).html() for rig in ATLAS}
    return {rig: set(re.findall(r'<section id="([^"]+)"', page)) for rig, page in pages.items()}


def test_what_a_bench_names_is_found_by_hand_too() -> None:
    # read off the benches' own controls and readings, by eye
    found = ATLASES.named["float_bowl"]
    assert found["float"] == ("Float setting", "Float soaked", "Float drop")
    assert found["needle-seat"] == ("Seat bore",)
    assert found["needle"] == ("Needle lift", "Force on the needle")
    assert ATLASES.named["low_speed"]["idle-air-bleed"] == ("Idle air bleed",)
    assert ATLASES.named["pump"]["pump-jet"] == ("Pump jet",)
    # Its needles and jets are no parts of a carburettor; its gauges go to three of them.
    assert set(ATLASES.named["gauges"]) == {"manifold", "fuel-inlet", "idle-chamber"}
    assert ATLASES.named["cold_start"]["idle-air-bleed"] == (
        "Idle air valve",
        "Idle air passage open",
    )
    assert ATLASES.named["around"]["mixture-screw"] == ("Mixture screws open",)
    assert ATLASES.named["drive"]["metering-rod"] == ("metering rod",)
    assert "Swing of the vacuum needle at idle" in ATLASES.named["diagnosis"]["manifold"]
    assert "needle" not in ATLASES.named["diagnosis"]  # that of the gauge is not the inlet's
    assert ATLASES.named["exhaust"] == {}  # it knows gas, and no part
    assert ATLASES.beside("exhaust") == ""


@pytest.mark.parametrize("stem", [*BENCHES, "drive"])
def test_every_part_that_a_bench_names_is_in_the_atlas_it_leads_to(
    stem: str, places: dict[str, set[str]]
) -> None:
    led = LINK.findall(ATLASES.beside(stem))
    assert {place for _, place in led} == {f"part-{name}" for name in ATLASES.named[stem]}
    assert all(place in places[rig] for rig, place in led)


@pytest.mark.parametrize("rig", ATLAS)
def test_the_atlas_leads_back_to_every_bench_that_names_a_part(rig: str) -> None:
    page = ATLASES.page(rig)
    rows = dict(re.findall(r'<section id="part-([a-z-]+)">(.*?)</section>', page))
    for stem, named in ATLASES.named.items():
        for name in named:
            if name in rows:
                assert f'href="../benches/{stem}.html"' in rows[name], (stem, name)
    back = re.findall(r'href="\.\./benches/(\w+)\.html"', page)
    assert set(back) == {stem for stem, named in ATLASES.named.items() if set(named) & set(rows)}
    assert len(set(back)) > 10


@pytest.mark.parametrize("unit", COURSE.units())
def test_a_number_of_the_card_leads_to_its_part_and_the_text_stays_as_it_was(
    unit: str, places: dict[str, set[str]]
) -> None:
    linked = filled_text(COURSE.text(unit), RIGS, card_link)
    assert all(place in places[rig] for rig, place in LINK.findall(linked))
    without = re.sub(r'<a href="\.\./atlas/[^>]*>(.*?)</a>', r"\1", linked)
    assert without == filled_text(COURSE.text(unit), RIGS)


def test_numbers_of_the_card_lead_to_parts_in_most_units() -> None:
    linked = [filled_text(COURSE.text(unit), RIGS, card_link) for unit in COURSE.units()]
    assert sum(bool(LINK.search(one)) for one in linked) > len(linked) / 2


def test_each_other_name_of_a_part_is_said_by_some_bench_and_by_one_part_alone() -> None:
    labels = {
        label for named in ATLASES.named.values() for each in named.values() for label in each
    }
    said = [name for one in parts().values() for name in one.called]
    assert len(set(said)) == len(said) > 20
    assert [name for name in said if not any(name in label.lower() for label in labels)] == []


def test_an_entry_without_a_part_is_no_link() -> None:
    assert card_link("reading.idle_vacuum", "60 kPa", "plover") == "60 kPa"
    assert card_link("pump.jet_bore", "0.60 mm", "heron") == "0.60 mm"
    assert 'part-main-jet" title="main jet' in card_link("high_speed.jet_bore", "1", "dunlin")


def test_a_part_has_one_number_for_every_rig() -> None:
    numbers = [one.number for one in parts().values() if one.shown]
    assert numbers == list(range(1, len(numbers) + 1))
    for rig in ATLAS:
        html = Atlas(read_rig(RIGS / f"{rig}.toml")).html()
        listed = re.findall(r'id="part-([a-z-]+)"><h2>(\d+) ', html)
        drawn = re.findall(r'href="#part-([a-z-]+)"><circle[^>]*/><text[^>]*>(\d+)</text>', html)
        assert min(len(listed), len(drawn)) > 40
        assert all(int(number) == parts()[name].number for name, number in [*listed, *drawn])


def test_an_entry_of_the_second_barrel_is_of_the_same_part() -> None:
    assert part_with("second.high_speed.jet_bore") == part_with("high_speed.jet_bore")
    assert part_with("choke.cam_edges.1") == parts()["fast-idle-cam"]
    assert part_with("reading.idle_vacuum") is None
