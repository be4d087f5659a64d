"""The report's page as HTML, held against what notebooks make of the same Markdown."""

import re
from html import unescape

import pytest
from fuelcircuits.own_car.page_html import page_html
from fuelcircuits.own_car.unbroken import unbroken
from nbconvert.filters import markdown2html

PAGE = """\
**All as on the card** (63 %, 36 to 83 %). A healthy carburettor shows this.

- Does the shaft move? **No.**
- Is a nozzle wet? **Yes.**

| reading | on your car | so it is |
| --- | --- | --- |
| Lambda at idle | 0.95 & more | higher, < 1 |
| Fuel pressure | 5.00 psi | |

**Next:** look down the horn. **Caution.** Open petrol.

<details><summary>Faults that these readings cannot show</summary>
torn pump cup, float set low.</details>"""


def words(html: str) -> list[str]:
    return unescape(re.sub(r"<[^>]+>", " ", html)).split()


def test_it_says_what_a_notebook_shows_in_the_same_elements() -> None:
    ours, theirs = page_html(PAGE), markdown2html(PAGE)
    assert words(ours) == words(theirs)
    for tag in ("strong", "li", "tr", "th", "td", "table", "ul", "details", "summary"):
        assert len(re.findall(f"<{tag}[ >]", ours)) == len(re.findall(f"<{tag}[ >]", theirs)), tag


def test_each_cell_of_a_wide_table_names_its_head_for_a_screen_without_room() -> None:
    lines = "| next | tells | time | care |", "| - | - | - | - |", "| look | a lot | soon | fire |"
    table = "\n".join(lines)
    told = page_html(table)
    assert told.startswith('<table class="fc-wide">')
    assert re.findall('<td data-head="([^"]+)">([^<]+)', told) == [
        ("tells", "a lot"),
        ("time", "soon"),
        ("care", "fire"),
    ]
    assert "fc-wide" not in page_html(PAGE)


def test_what_is_no_markdown_of_ours_stays_text() -> None:
    assert page_html("<script>1</script>") == "<p>&lt;script&gt;1&lt;/script&gt;</p>"


@pytest.mark.parametrize(
    ("plain", "bound"),
    [
        ("14 %", "14\u00a0%"),
        ("18.5 inHg (62 kPa)", "18.5\u00a0inHg (62\u00a0kPa)"),
        ("to buy, about 5 €", "to buy, about 5\u00a0€"),
        ("| 14 | 15 |", "| 14 | 15 |"),
    ],
)
def test_a_number_and_its_unit_stay_on_one_line(plain: str, bound: str) -> None:
    assert unbroken(plain) == bound


def test_numbers_on_the_page_are_bound_to_their_units() -> None:
    assert page_html("about 14 % of 18.5 inHg") == "<p>about 14\u00a0% of 18.5\u00a0inHg</p>"
