"""Questions written as a block of TOML, without Python: read, proved, and made into exercises.

A block lies beside a unit's text as ``questions.toml``, or comes with this package::

    [given]
    seat_bore = "2.2 to 2.8 step 0.1 mm | the bore of the needle seat"

    [[question]]
    id      = "seat-area"
    ask     = "The seat has a bore of **{seat_bore}**. What is its area?"
    formula = "area = circle(seat_bore)   # the area of the seat"
    unit    = "mm^2"
    expect  = "3 to 7"
    points  = 2
"""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.trade_units import scale

from fuelmarks.formula.functions import CONSTANTS
from fuelmarks.formula.grammar import read
from fuelmarks.formula.method import Method
from fuelmarks.questions.frame.adjusted import adjustment_from
from fuelmarks.questions.frame.constant import constant_from, filled, table_from
from fuelmarks.questions.frame.entries import Entries
from fuelmarks.questions.frame.exercise import (
    Exercise,
    ExerciseSet,
    Given,
    Prediction,
    Slip,
    Written,
)
from fuelmarks.questions.frame.named import choice_from, prediction_from, written_from
from fuelmarks.questions.frame.sketched import sketch_from
from fuelmarks.questions.frame.worded import BlockError, expected, given_from

__all__ = ["Block", "read_block"]

TOLERANCE, FIGURES, SHARE = 0.02, 3, 0.5
PARTS = (
    *("title", "card", "prediction", "given", "drawn", "constant", "table", "question", "change"),
)
SORTS = ("formula", "options", "rubric", "bench")


@dataclass(frozen=True)
class Block:
    """What a block holds; `changes` are tables that say what becomes of questions known before."""

    title: str
    givens: tuple[Given, ...]
    exercises: tuple[Exercise, ...]
    written: tuple[Written, ...] = ()
    changes: tuple[Mapping[str, object], ...] = ()
    predictions: tuple[Prediction, ...] = ()


def read_block(text: str, name: str, base: ExerciseSet | None = None) -> Block:
    """Return the block in `text`; `name` is the file's, for messages.

    The block may name the givens and the answers of the questions in `base`, which stand before.

    Raises
    ------
    BlockError
        If the block cannot be used: file, question, rule and value.
    """
    try:
        plain = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BlockError(f"{name} must be TOML, got: {error}") from error
    try:
        return _Reader(plain, base).block()
    except CircuitError as error:
        raise BlockError(f"{name}: {error}") from error


class _Reader:
    """Makes the parts of a block, each from those before it."""

    def __init__(self, plain: Mapping[str, Any], base: ExerciseSet | None) -> None:
        self.whole = Entries("block", plain, PARTS)
        self.givens = tuple(
            given_from(name, str(words), drawn=sort == "drawn")
            for sort in ("given", "drawn")
            for name, words in self.whole.table(sort).items()
        )
        self.constants = {
            name: constant_from(name, str(words))
            for name, words in self.whole.table("constant").items()
        }
        self.tables = {
            name: table_from(name, each) for name, each in self.whole.table("table").items()
        }
        self.given_before = base.givens if base else ()
        self.units = {one.name: one.unit for one in self.given_before}
        self.words = {one.name: one.meaning for one in self.given_before}
        self.taken = set(self.units)
        for exercise in base or ():
            if exercise.method is None:
                self._once(exercise.id)
            else:
                self._answered(exercise, exercise.id.replace("-", " "))
        for one in self.givens:
            if one.name in self.taken:
                raise BlockError(f"given must have a name of its own, got {one.name}")
            self.taken.add(one.name)
            self.units[one.name], self.words[one.name] = one.unit, one.meaning

    def block(self) -> Block:
        """Return the whole block."""
        exercises: list[Exercise] = []
        written: list[Written] = []
        for asked in self.whole.list_of_tables("question"):
            where = f"question {asked.get('id', '?')}"
            plain = filled(where, asked, self._given_names(), self.constants)
            found = [sort for sort in SORTS if sort in plain]
            if len(found) != 1:
                got = " and ".join(found) or "none"
                raise BlockError(f"{where} must have one of {', '.join(SORTS)}, got {got}")
            if found == ["rubric"]:
                written.append(written_from(where, plain))
                self._once(written[-1].id)
            elif found == ["options"]:
                exercises.append(choice_from(where, plain, self._given_names()))
                self._once(exercises[-1].id)
            elif found == ["bench"]:
                exercises.append(adjustment_from(where, plain, self._given_units()))
                self._once(exercises[-1].id)
            else:
                exercises.append(self._question(plain))
        changes = tuple(self.whole.list_of_tables("change"))
        title = self.whole.text("title", "")
        foretold = tuple(self._predictions())
        return Block(title, self.givens, tuple(exercises), tuple(written), changes, foretold)

    def _predictions(self) -> Iterator[Prediction]:
        """Yield the keys of the predictions; raise `BlockError` if one has two."""
        seen: set[str] = set()
        for plain in self.whole.list_of_tables("prediction"):
            one = prediction_from(f"prediction {plain.get('id', '?')}", plain)
            if one.id in seen:
                raise BlockError(f"prediction must have an id of its own, got {one.id} twice")
            seen.add(one.id)
            yield one

    def _given_names(self) -> set[str]:
        """Return the names of all givens, those from before too."""
        return {one.name for one in (*self.given_before, *self.givens)}

    def _given_units(self) -> dict[str, str]:
        """Return the units of all givens by name."""
        return {one.name: one.unit for one in (*self.given_before, *self.givens)}

    def _once(self, name: str) -> None:
        """Note the name of a question; raise `BlockError` if it is taken."""
        if name.replace("-", "_") in self.taken:
            raise BlockError(f"question must have an id of its own, got {name}")
        self.taken.add(name.replace("-", "_"))

    def _answered(self, exercise: Exercise, called: str) -> None:
        """Let the next questions name the answer to this one."""
        self._once(exercise.id)
        self.units[exercise.variable] = exercise.unit
        self.words[exercise.variable] = f"your {called}"

    def _question(self, plain: Mapping[str, Any]) -> Exercise:
        """Return one question; the next ones may name its answer."""
        entries = Entries(f"question {plain.get('id', '?')}", plain, QUESTION)
        name = entries.name("id")
        method = self._method(entries)
        low, high = expected(entries.where, entries.text("expect"))
        exercise = Exercise(
            id=name,
            ask=entries.text("ask"),
            unit=method.unit,
            reference=method,
            tolerance=entries.number("tolerance", TOLERANCE, 1e-6, 0.5),
            why=entries.text("why", ""),
            low=low,
            high=high,
            points=int(entries.number("points", 1, 1, 100)),
            outcomes=entries.texts("outcomes"),
            follows=self._follows(method),
            slips=tuple(self._slip(name, method, each) for each in entries.list_of_tables("slip")),
            hints=entries.texts("hints"),
            rounded_to=entries.number("rounded_to", 0.0, 0.0, 1e6),
            datum=entries.choice("datum", ("", "absolute", "gauge", "difference")),  # type: ignore[arg-type]
            figures=int(entries.number("figures", FIGURES, 1, 6)),
            harmless=entries.texts("harmless"),
            sketch=sketch_from(entries.where, entries.text("sketch", ""), self._given_names()),
        )
        self._answered(exercise, entries.text("called", name.replace("-", " ")))
        return exercise

    def _method(self, entries: Entries) -> Method:
        """Return the proved method of a question."""
        unit = entries.text("unit", "")
        if unit:
            scale(unit)
        formula = read(entries.text("formula"), frozenset(self.tables))
        made = Method(
            formula, unit, dict(self.units), dict(self.words), self.constants, self.tables
        )
        try:
            made.proved()
        except CircuitError as error:
            raise BlockError(f"{entries.where}: {error}") from error
        return made

    def _follows(self, method: Method) -> tuple[str, ...]:
        """Return the ids of the earlier questions whose answers the formula names."""
        own = {one.name for one in (*self.given_before, *self.givens)}
        earlier = [name for name in method.formula.needs if name in self.units and name not in own]
        return tuple(name.replace("_", "-") for name in earlier)

    def _slip(self, question: str, method: Method, plain: Mapping[str, Any]) -> Slip:
        """Return a slip in the author's words."""
        entries = Entries(f"question {question}: slip {plain.get('name', '?')}", plain, SLIP)
        wrong = method.instead(read(entries.text("instead"), frozenset(self.tables)))
        unknown = set(wrong.formula.needs) - set(method.known_kinds()) - set(CONSTANTS)
        if unknown:
            listed = ", ".join(sorted(unknown))
            raise BlockError(f"{entries.where} must use known names, got {listed}")
        return Slip(
            entries.name("name"),
            wrong,
            entries.number("share", SHARE, 0.0, 1.0),
            entries.text("comment"),
        )


QUESTION = (
    *("id", "ask", "formula", "unit", "expect", "points", "tolerance", "figures", "rounded_to"),
    *("why", "outcomes", "datum", "called", "hints", "harmless", "slip", "sketch"),
)
SLIP = ("name", "instead", "share", "comment")
