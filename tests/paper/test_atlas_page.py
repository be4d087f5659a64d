"""The atlas as a page of its own: whole, alone, for a phone and for paper."""

import re
from pathlib import Path

import pytest
from fuelcircuits.errors import CardError
from fuelmarks.course.course import Course
from fuelmarks.paper.atlas_page import atlas_html, write_atlas

from tests.places import RIGS


@pytest.mark.parametrize("name", ["plover", "dunlin"])
def test_the_page_holds_every_part_and_asks_nobody_for_anything(name: str) -> None:
    html = atlas_html(RIGS / f"{name}.toml")
    places = re.findall(r'<section id="(part-[a-z-]+)">', html)
    assert len(places) == len(set(places)) > 40
    assert set(re.findall(r'href="#(part-[a-z-]+)"', html)) <= set(places)
    assert re.findall(r'(?:src|href)="(?!#)[^"]*"', html) == []
    assert f"<title>Atlas: {name}</title>" in html
    assert "@media print" in html
    assert "max-width: 30rem" in html


def test_it_is_written_under_the_cards_own_name(tmp_path: Path) -> None:
    (tmp_path / "units").mkdir()
    written = write_atlas(Course.at(tmp_path), RIGS / "dunlin.toml")
    assert written == tmp_path / "paper" / "atlas" / "dunlin.html"
    assert written.read_text("utf-8") == atlas_html(RIGS / "dunlin.toml")


def test_a_card_that_cannot_be_read_is_refused_by_its_name(tmp_path: Path) -> None:
    with pytest.raises(CardError, match=r"lost\.toml: card must be a readable TOML file"):
        atlas_html(tmp_path / "lost.toml")
