"""A car's days: kept by date, read again, laid side by side, printed, and refused in words."""

from pathlib import Path

import pytest
from fuelcircuits.errors import CardError, RangeError
from fuelcircuits.own_car.beside import beside
from fuelcircuits.own_car.example import NAME, example_car
from fuelcircuits.own_car.own_car import OwnCar
from fuelcircuits.own_car.readings import ReadingError
from fuelcircuits.own_car.rounds import Round, Rounds, open_rounds

FIRST = Round(
    "2026-04-18",
    altitude=300,
    temperature=18,
    ethanol=0.05,
    readings={"idle-vacuum": "13 inHg", "idle-mixture": "1.38"},
    seen={"shaft-wiggle": "no"},
)
SECOND = Round(
    "2026-04-25",
    readings={"idle-vacuum": "18.4 inHg", "idle-mixture": "2 % CO", "fuel-pressure": "3.5 psi"},
    work='Idle jet cleaned; it held "varnish".',
    parts="cover gasket",
)


def test_days_are_kept_in_order_and_read_again(tmp_path: Path) -> None:
    rounds = Rounds(tmp_path / "days.toml").with_round(SECOND).with_round(FIRST)
    rounds.write()
    again = open_rounds(tmp_path / "days.toml")
    assert again == rounds
    assert [one.day for one in again.every] == ["2026-04-18", "2026-04-25"]
    assert again.last == SECOND
    assert again.of("2026-04-18") == FIRST
    assert again.of("2026-05-01") is None


def test_the_same_day_is_written_over_and_no_other(tmp_path: Path) -> None:
    rounds = Rounds(tmp_path / "days.toml").with_round(FIRST).with_round(SECOND)
    changed = Round("2026-04-25", work="nothing yet")
    assert rounds.with_round(changed).every == (FIRST, changed)


def test_no_file_means_no_days(tmp_path: Path) -> None:
    assert open_rounds(tmp_path / "days.toml").every == ()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("round = [", "rounds must be readable TOML"),
        ('[[round]]\nday = "last Sunday"', "day must be like 2026-05-02, got 'last Sunday'"),
        ('[[round]]\nday = "2026-04-18"\nnose = 3', "round must have altitude"),
        (
            '[[round]]\nday = "2026-04-18"\n[round.readings]\nidle-mixture = "0"',
            "idle-mixture (Lambda at warm idle) must be between 0.50 and 3.00",
        ),
        ('[[round]]\nday = "2026-04-18"\n[round.seen]\ntyre = "yes"', "look must be one of"),
    ],
)
def test_days_that_are_wrong_say_where(tmp_path: Path, text: str, words: str) -> None:
    (tmp_path / "days.toml").write_text(text)
    with pytest.raises(CardError) as refused:
        open_rounds(tmp_path / "days.toml")
    assert words in str(refused.value)


def test_all_that_is_wrong_with_a_day_is_told_at_once() -> None:
    bad = Round("x", altitude=90e3, readings={"idle-mixture": "0", "nose": "1"}, seen={"tyre": "y"})
    with pytest.raises(ReadingError) as refused:
        bad.check()
    assert len(str(refused.value).splitlines()) == 5


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> OwnCar:
    return example_car(tmp_path_factory.mktemp("example"))


def test_before_and_after_stand_side_by_side(example: OwnCar) -> None:
    said = repr(example.before_and_after())
    assert "| | 2026-04-18 | 2026-04-25 | |" in said
    assert "Done between: Idle jets taken out" in said
    assert "| Lambda at warm idle | 1.34 | 0.98 | lower, better |" in said
    assert "| yes | no |" in said


def test_the_example_ends_with_advice_worth_making(example: OwnCar) -> None:
    found = example.report("2026-04-18")
    assert found.explained
    assert not found.healthy
    first = [one.name for one in found.suspicions[:3]]
    assert {"blocked-idle-jet", "blocked-economizer", "mixture-screw-in"} & set(first)
    assert found.steps[0].cost <= min(one.cost for one in found.steps) + 1.0
    assert found.most_telling is not None
    assert found.most_telling.bits > 0.5
    after = repr(found).split("**If that settles nothing:**")[1]
    assert found.most_telling.label in after.splitlines()[0]
    assert "**Next:**" in repr(found)


def test_after_the_work_the_example_is_healthy(example: OwnCar) -> None:
    assert example.report("2026-04-25").healthy


def test_what_is_seen_without_a_gauge_counts(example: OwnCar) -> None:
    from fuelcircuits.own_car.report import diagnose  # noqa: PLC0415

    rig = example.card.rig
    found = diagnose(rig, {}, seen={"shaft-wiggle": "yes"}, further=())
    assert found.suspicions[1].name == "worn-throttle-shaft"
    assert "Does the throttle shaft move sideways" in repr(found)
    assert "worn-throttle-shaft" not in found.hidden


def test_the_page_for_the_glove_box_holds_card_and_days(example: OwnCar, tmp_path: Path) -> None:
    page = example.glove_box(str(tmp_path / "glove-box.html")).path.read_text("utf-8")
    assert f"<h1>{NAME}</h1>" in page
    assert "1.49 mm" in page
    assert "(assumed)" in page
    assert page.index("2026-04-25") < page.index("2026-04-18")
    assert "Idle jets taken out" in page
    assert "300 m above the sea, 18 °C, E5." in page
    assert "is partly covered?</td><td>yes</td>" in page


def test_the_page_is_told_of_in_a_sentence(example: OwnCar, tmp_path: Path) -> None:
    written = example.glove_box(str(tmp_path / "glove-box.html"))
    assert repr(written) == f"Written: {written.path}. Open it in a browser and print it."
    assert "[glove-box.html](" in written._repr_markdown_()


def test_an_own_car_without_a_word_says_what_to_do(tmp_path: Path) -> None:
    car = OwnCar(str(tmp_path / "mine"))
    assert "There are not yet two days" in repr(car.before_and_after())
    with pytest.raises(RangeError, match=r"one that was written down \(none\), got 2026-05-02"):
        car.report("2026-05-02")


def test_a_change_is_foreseen_where_the_car_is(example: OwnCar) -> None:
    found = example.what_if(altitude=2200, temperature=25)
    assert found.after["full-load-mixture"] < found.before["full-load-mixture"]
    assert "Before: 300 m above the sea, 15 °C, E5. After: 2200 m" in repr(found)
    assert "richer |" in repr(found)
    leaner = example.what_if(ethanol=0.10)
    assert leaner.after["cruise-mixture"] > leaner.before["cruise-mixture"]
    with pytest.raises(ReadingError, match="ethanol must be between"):
        example.what_if(ethanol=10)


def test_two_readings_that_healthy_engines_have_are_not_called_worse() -> None:
    """0.80 to 0.95 at full load is healthy (common practice, no source: the card's own check)."""
    before, after = (
        Round(day, readings={"full-load-mixture": text})
        for day, text in (("2026-05-02", "0.86"), ("2026-05-03", "0.90"))
    )
    assert "| 0.86 | 0.90 | higher, both as healthy engines have it |" in repr(
        beside(before, after)
    )
