"""What a trainee sees and what leaves the notebook when an answer is handed over."""

import sys
from collections.abc import Callable, Iterator
from importlib.metadata import EntryPoint
from typing import Any

import pytest
from fuelcircuits.answer_sheet import sheet
from fuelcircuits.errors import RangeError
from fuelcircuits.quantities.units import Q, registry
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output
from traitlets.config import Config

UNIT = "02-float-bowl"

CLASS_MODE = [
    (Q(1.2, "N"), "Handed over: 1.2 N. The kind is right, the size is believable."),
    (Q(0.3, "lbf"), "Handed over: 0.3 lbf. The kind is right, the size is believable."),
    ("0,5 N", "Handed over: 0.5 N. The kind is right, the size is believable."),
    (Q(120_071, "mN"), "Handed over: 120070 mN. The kind is right, but"),
    (Q(5, "psi"), "Handed over: 5 psi. That is a pressure; asked is a force (N or lbf)."),
    (1.2, "Handed over: 1.2. That is a number without a unit; asked is a force (N or lbf)."),
    (Q(300, "N"), "hard to believe (expect 0.05 to 20 N)"),
    ("1,234 N", "Write it without the comma to leave no doubt."),
    (None, "Nothing handed over yet."),
    (float("nan"), "Look for a division by zero"),
    ([1, 2], "This is a list. Hand over one value."),
    ("lots", "This cannot be read: answer must begin with a number"),
]


class Hostile:
    """An object that raises whatever is asked of it."""

    def __getattr__(self, name: str) -> Any:
        raise ZeroDivisionError(name)


def handed_over(value: object) -> tuple[dict[str, Any], str]:
    """Return the record and the words that a notebook shows for `value`."""
    with capture_output() as caught:
        sheet.hand_over(UNIT, "needle-force", value, unit="N", low=0.05, high=20)
    (output,) = caught.outputs
    return output.data[sheet.MIME], output.data["text/plain"]


@pytest.fixture(scope="module", autouse=True)
def shell(tmp_path_factory: pytest.TempPathFactory) -> Iterator[InteractiveShell]:
    config = Config({"HistoryManager": {"enabled": False}})
    folder = str(tmp_path_factory.mktemp("ipython"))
    main = sys.modules["__main__"]
    yield InteractiveShell.instance(config=config, ipython_dir=folder)
    InteractiveShell.clear_instance()
    sys.modules["__main__"] = main


@pytest.fixture(autouse=True)
def class_mode() -> sheet.AnswerSheet:
    return sheet.begin(UNIT, trainee="trainee-07", mode="class")


@pytest.mark.parametrize(("value", "words"), CLASS_MODE)
def test_class_mode_tells_kind_and_size_only(value: object, words: str) -> None:
    assert words in handed_over(value)[1]


def test_class_mode_tells_a_number_from_a_percentage(capsys: pytest.CaptureFixture[str]) -> None:
    sheet.hand_over(UNIT, "share", 23.5, unit="percent", low=3, high=90)
    assert 'If you mean percent, write it: "12 %".' in capsys.readouterr().out


OPTIONS = [
    ("worn seat", "Handed over: worn-seat."),
    ("worn-seat, weak-pump", "Handed over: weak-pump, worn-seat."),
    ("worm-seat", "Not on the list: worm-seat (did you mean worn-seat?)."),
    (Q(1.2, "N"), "Write a name from the list as a text, in quotes."),
    ("", "Nothing handed over yet."),
]


@pytest.mark.parametrize(("value", "words"), OPTIONS)
def test_a_name_is_said_to_be_on_the_list_or_not(value: object, words: str) -> None:
    with capture_output() as caught:
        sheet.hand_over(UNIT, "what-is-wrong", value, options=["weak-pump", "worn-seat"])
    assert words in caught.outputs[0].data["text/plain"]


def test_the_record_holds_value_and_unit_only() -> None:
    assert handed_over(Q(1.2, "lbf"))[0] == {
        "v": 1,
        "unit": UNIT,
        "exercise": "needle-force",
        "kind": "quantity",
        "magnitude": 1.2,
        "units": "force_pound",
        "text": "",
        "detail": "",
    }


def test_a_hostile_object_is_handed_over_as_what_it_raised() -> None:
    made, words = handed_over(Hostile())
    assert (made["kind"], made["detail"]) == ("other", "ZeroDivisionError")
    assert words.startswith("This is not a number")


def test_another_display_format_does_not_change_the_record(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(registry.formatter, "default_format", "~P")
    made = sheet.record(UNIT, "fuel", Q(3, "kg/m**3"))
    assert made["units"] == "kilogram / meter ** 3"


def test_a_mode_of_another_name_is_refused() -> None:
    with pytest.raises(RangeError, match="mode must be 'class' or 'study', got 'exam'"):
        sheet.begin(UNIT, mode="exam")  # type: ignore[arg-type]


def test_tries_are_counted_and_blanks_are_not(class_mode: sheet.AnswerSheet) -> None:
    for value in (None, Q(1, "N"), Q(2, "N")):
        handed_over(value)
    assert class_mode.tries == {"needle-force": 2}


def test_outside_a_notebook_the_words_are_printed(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delitem(sys.modules, "IPython")
    sheet.hand_over(UNIT, "needle-force", Q(1, "N"), unit="N", low=0.05, high=20)
    assert "believable" in capsys.readouterr().out


def found(loaded: Callable[..., str] | None) -> Callable[..., list[EntryPoint]]:
    """Return a stand-in for `entry_points` that finds `loaded`, or nothing."""

    class Found(EntryPoint):
        def load(self) -> Any:
            return loaded

    return lambda group: [Found("tell", "nowhere:tell", group)] if loaded else []


def test_study_mode_passes_on_what_the_marking_package_says(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sheet.begin(UNIT, trainee="specimen", mode="study")
    monkeypatch.setattr(sheet, "entry_points", found(lambda *about: repr(about[:3] + about[4:])))
    assert handed_over(Q(1, "N"))[1] == "('02-float-bowl', 'specimen', 'needle-force', 1)"


def test_study_mode_without_the_marking_package_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet.begin(UNIT, mode="study")
    monkeypatch.setattr(sheet, "entry_points", found(None))
    assert "needs the marking package" in handed_over(Q(1, "N"))[1]


def test_a_failing_comment_still_hands_the_answer_over(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet.begin(UNIT, mode="study")
    monkeypatch.setattr(sheet, "entry_points", found(lambda *about: str(1 / 0)))
    made, words = handed_over(Q(1, "N"))
    assert (made["magnitude"], "could not be checked" in words) == (1.0, True)
