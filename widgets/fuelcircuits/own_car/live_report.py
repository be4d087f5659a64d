"""The report below the form of a day: once asked for, it follows what is written there."""

import asyncio
from collections.abc import Callable, Iterator
from threading import Lock
from typing import TypeAlias

import ipywidgets

from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.field import said
from fuelcircuits.own_car.following import Followed
from fuelcircuits.own_car.page import brief, page
from fuelcircuits.own_car.page_html import page_html
from fuelcircuits.own_car.press import Press
from fuelcircuits.own_car.rounds import Round

__all__ = ["LiveReport", "Steps"]

Steps: TypeAlias = Callable[[Round], Iterator[float | Followed]]
"""The steps to the report on a day."""
FRAME = '<div class="own-report" style="line-height: 1.4">'
STILL, BETWEEN = 0.6, 0.01
"""Seconds without a change before the report follows, and between two steps, in which the kernel
hears what else is asked."""


class LiveReport:
    """A button, a line that tells how far it is, and the report.

    Parameters
    ----------
    now
        Gives the day as the form holds it; raises `CircuitError` if it cannot be used.
    steps
        Gives the steps to its report.
    """

    def __init__(self, now: Callable[[], Round], steps: Steps) -> None:
        self.now, self.steps = now, steps
        self.button = Press(lambda _held: self._asked(), description="What is likely wrong?")
        self.told, self.found = ipywidgets.HTML(), ipywidgets.HTML()
        self.parts = (self.button, self.told, self.found)
        self._live = False
        self._newest = object()
        self._lock = Lock()

    def follow(self) -> None:
        """Take it that the day has changed: report anew, if a report was asked for."""
        if self._live:
            turn = self._turn()
            self._tell(turn, said("Something has changed; the report follows."))
            _after(STILL, lambda: self._begin(turn))

    def _asked(self) -> None:
        self._live = True
        self._begin(self._turn())

    def _turn(self) -> object:
        """Return a new turn; what was begun before it goes no further, and shows nothing more."""
        with self._lock:
            self._newest = object()
            return self._newest

    def _begin(self, turn: object) -> None:
        if turn is not self._newest:
            return
        try:
            left = self.steps(self.now())
        except CircuitError as error:
            self._refuse(turn, error)
        else:
            self._step(turn, left)

    def _step(self, turn: object, left: Iterator[float | Followed]) -> None:
        """Go one step, show it, and go on a moment later, as long as no newer turn has come.

        A kernel may hear of a change in another thread, while a step is being worked out.
        """
        if turn is not self._newest:
            return
        try:
            step = next(left, None)
        except CircuitError as error:
            self._refuse(turn, error)
            return
        if step is not None:
            self._show(turn, step)
            _after(BETWEEN, lambda: self._step(turn, left))

    def _show(self, turn: object, step: float | Followed) -> None:
        if isinstance(step, float):
            words = (
                f"Working out what every fault would show on your car: {100 * step:.0f} %. That is "
                "done once for a card."
            )
            self._tell(turn, said(words))
            return
        shown, words = (
            (
                page,
                "The report is whole, and follows what you change in this form and in the card's.",
            )
            if step.whole
            else (brief, "These are the suspects; the next step is being looked for …")
        )
        self._tell(turn, said(words), f"{FRAME}{page_html(shown(step.report))}</div>")

    def _refuse(self, turn: object, error: CircuitError) -> None:
        self._tell(turn, "".join(said(line, "wrong") for line in str(error).splitlines()), "")

    def _tell(self, turn: object, told: str, found: str | None = None) -> None:
        """Show how far it is, and the report if there is another, unless a newer turn has come."""
        with self._lock:
            if turn is not self._newest:
                return
            self.told.value = told
            if found is not None:
                self.found.value = found


def _after(seconds: float, act: Callable[[], None]) -> None:
    """Act so many seconds later; at once where nothing can wait."""
    try:
        asyncio.get_running_loop().call_later(seconds, act)
    except RuntimeError:  # no loop runs, as in a script
        act()
