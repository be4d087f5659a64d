"""What the driven carburettor answers: plain data for every question, refusals in words."""

import json
from typing import Any
from xml.etree import ElementTree

import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.drive.bench import DriveBench
from fuelcircuits.benches.drive.drawing import place
from fuelcircuits.benches.drive.parts import PARTS
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.drive.trace import feet_in
from fuelcircuits.benches.drive.words import said
from fuelcircuits.benches.frame.drawing import SET, rules
from fuelcircuits.cards import read_card
from fuelcircuits.errors import CardError

from tests.benches.drive.outings import CARDS, driven, journey, short

FEET = [[20, 0.2, "low", 0.0, True, False], [10, 0.0, "low", 0.0, True, False]]


@pytest.fixture(scope="module")
def bench() -> DriveBench:
    return DriveBench(CARDS["plover"])


def going(bench: DriveBench, **outing: Any) -> dict[str, Any]:
    assert "refused" not in bench.ask("begin", outing=outing)
    return bench.ask("go", feet=FEET)


def test_every_answer_is_plain_data(bench: DriveBench) -> None:
    about, first, told = bench.about(), bench.first(), going(bench)
    row = told["now"]
    asked = [
        about,
        first,
        told,
        bench.ask("journey", name="hill"),
        bench.ask("save"),
        bench.ask("tell"),
        *(bench.ask("open", stem=stem, row=row) for stem in PARTS),
    ]
    for answer in asked:
        assert "refused" not in answer
        assert json.loads(json.dumps(answer, allow_nan=False)) == answer


def test_a_row_comes_for_every_second_step(bench: DriveBench) -> None:
    told = going(bench)
    assert [row[0] for row in told["rows"]] == pytest.approx([0.04 * at for at in range(1, 16)])
    assert told["steps"] == 30
    assert [each["now"] for each in told["before"]] == told["rows"][:-1]
    assert told["now"] == told["rows"][-1]


def test_steps_in_one_message_or_in_many_come_to_the_same(bench: DriveBench) -> None:
    whole = going(bench)["now"]
    bench.ask("begin", outing={})
    for foot in feet_in(FEET):
        last = bench.ask("go", feet=[[1, *foot]])
    assert last["now"] == whole


def test_what_is_saved_is_driven_again(bench: DriveBench) -> None:
    told = going(bench, altitude=1000.0, fault="blocked-pump-jet", severity=0.5)
    loaded = bench.ask("load", text=bench.ask("save")["text"])
    assert "refused" not in bench.ask("begin", outing=loaded["outing"])
    assert bench.ask("go", feet=loaded["feet"])["now"] == told["now"]


def test_two_cars_go_on_side_by_side(bench: DriveBench) -> None:
    bench.ask("begin", outing={"fault": "torn-pump-cup"})
    bench.ask("begin", outing={}, car="healthy")
    other = bench.ask("go", feet=FEET, car="healthy", quiet=True)
    assert set(other) == {"rows"}
    assert bench.ask("go", feet=FEET)["now"] != other["rows"][-1]
    assert bench.ask("tell")["fault"] == "torn-pump-cup"


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"do": "begin", "outing": {"outside": 20}}, "outside must be between 253.15 and 313.15 K"),
        ({"do": "go", "feet": FEET, "car": "third"}, "drive must have begun"),
        ({"do": "journey", "name": "moon"}, "journey must be one of floored, pull-away"),
        ({"do": "load", "text": "{}"}, 'trace must say "drive": 1'),
        ({"do": "load", "text": short("dunlin").text}, "must be plover, which is here, got dunlin"),
        ({"do": "open", "stem": "gauges", "row": [0.0] * 26}, "part must be one of air_path"),
    ],
)
def test_what_cannot_be_done_is_refused_in_words(
    bench: DriveBench, asked: dict[str, Any], words: str
) -> None:
    assert words in " ".join(bench.ask(**asked)["refused"])


def test_a_card_without_a_section_is_refused() -> None:
    with pytest.raises(CardError, match="bare: engine must be given for this bench"):
        DriveBench(read_card('name = "bare"', "bare.toml"))


def test_every_number_of_the_drawing_is_there(bench: DriveBench) -> None:
    text = bench.about()["drawing"]
    numbers = place(driven(short())[-1], 0.0)
    root = ElementTree.fromstring(text)
    asked: set[str] = set()
    for part in root.iter():
        for _, rule in rules(part.get(SET, "")):
            asked |= {piece.split("]")[0] for piece in rule.split("[")[1:]}
        asked |= {part.attrib["data-march"]} if "data-march" in part.attrib else set()
    assert asked <= set(numbers)
    assert set(numbers) <= asked
    assert {each.get("data-part") for each in root.iter()} - {None} <= {*PARTS}


def test_both_barrels_are_drawn_alike(bench: DriveBench) -> None:
    root = ElementTree.fromstring(bench.about()["drawing"])
    turned = [each for each in root.iter() if "[throttle]" in each.get(SET, "")]
    assert len(turned) == 2


@pytest.mark.parametrize("stem", PARTS)
def test_a_part_s_bench_takes_the_values_of_any_moment(bench: DriveBench, stem: str) -> None:
    kind = bench_class(stem)
    for name in ("floored", "cold-start"):
        for row in journey(name, "plover", seconds=4.0)[::40]:
            told = bench.ask("open", stem=stem, row=list(row))
            for control, value in told["values"].items():
                kind.inputs()[control].checked(value)
            assert told["line"].startswith(f"bench = {kind.__name__}(")


def states(rows: list[Row]) -> list[str]:
    words = [said(row).words for row in rows]
    return [each for at, each in enumerate(words) if at == 0 or each != words[at - 1]]


def test_a_saved_notebook_says_which_cell_to_run(bench: DriveBench) -> None:
    shown, _ = bench._repr_mimebundle_()
    assert "application/vnd.jupyter.widget-view+json" in shown
    assert "Run the cell above it" in shown["text/plain"]


def test_words_follow_a_cold_start() -> None:
    told = states(journey("cold-start", "plover", seconds=4.0))
    assert told[:2] == ["The engine stands.", "The starter turns the engine."]
    assert any("main nozzles feed" in each for each in told)


def test_words_name_the_pump_when_floored_and_the_misfire_without_it() -> None:
    well = states(journey("floored", "plover", seconds=4.0))
    assert any("pump" in each for each in well)
    dry = [said(row) for row in journey("floored", "dunlin", "blocked-pump-jet", 4.0)]
    assert any(each.alarm and each.words.startswith("Too lean") for each in dry)
