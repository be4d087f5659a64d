"""How a class has predicted: how many chose which answer at first, and how many at the end."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fuelmarks.book.record import ClassRecord, Entry
from fuelmarks.course.foretold import Asked, Foretold, key_to
from fuelmarks.questions import Prediction

__all__ = ["Chosen", "Spread", "foretold_rows", "predictions_table", "spreads"]

NEITHER = Foretold("")


@dataclass(frozen=True)
class Chosen:
    """One answer, whether it is right, and how many chose it before and after."""

    letter: str
    words: str
    right: bool
    then: int
    now: int


@dataclass(frozen=True)
class Spread:
    """One prediction over the class; `open_then` and `open_now` wrote none of its letters."""

    asked: Asked
    key: Prediction
    chosen: tuple[Chosen, ...]
    open_then: int
    open_now: int


def spreads(record: ClassRecord) -> list[Spread]:
    """Return the spread of each prediction over those whose notebook was marked."""
    return [_spread(record, asked, key) for asked, key in _keyed(record)]


def foretold_rows(record: ClassRecord, entry: Entry) -> list[tuple[Asked, Prediction, Foretold]]:
    """Return what one trainee has predicted, beside question and key; without those left empty."""
    rows = ((asked, key, entry.foretold.get(asked.name)) for asked, key in _keyed(record))
    return [(asked, key, said) for asked, key, said in rows if said]


def predictions_table(record: ClassRecord) -> list[list[str]]:
    """Return everybody's letters, a line for each trainee below a line of headings."""
    keyed = list(_keyed(record))
    head = ["id", "first name", "last name"]
    for asked, key in keyed:
        head += [f"{asked.title} at first (right: {key.right})", f"{asked.title} at the end"]
    return [head, *(_line(entry, keyed) for entry in record.entries)]


def _keyed(record: ClassRecord) -> Iterator[tuple[Asked, Prediction]]:
    """Yield each prediction with its key."""
    for asked in record.asked:
        if key := key_to(record.exercise_set, asked.name):
            yield asked, key


def _spread(record: ClassRecord, asked: Asked, key: Prediction) -> Spread:
    """Return the spread of one prediction."""
    said = [entry.foretold.get(asked.name, NEITHER) for entry in record.in_notebooks]
    then, now = [one.then for one in said], [one.now for one in said]
    chosen = tuple(
        Chosen(letter, words, letter == key.right, then.count(letter), now.count(letter))
        for letter, words in asked.options.items()
    )
    return Spread(
        asked,
        key,
        chosen,
        len(said) - sum(one.then for one in chosen),
        len(said) - sum(one.now for one in chosen),
    )


def _line(entry: Entry, keyed: Sequence[tuple[Asked, Prediction]]) -> list[str]:
    """Return one trainee's letters."""
    one = entry.trainee
    said = [entry.foretold.get(asked.name, NEITHER) for asked, _ in keyed]
    letters = [letter for each in said for letter in (each.then, each.now)]
    return [one.id, one.first_name, one.last_name, *letters]
