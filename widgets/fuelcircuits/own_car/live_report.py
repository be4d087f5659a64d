"""The report below the form of a day: once asked for, it follows what is written there."""

import asyncio
from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

import ipywidgets

from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.field import said
from fuelcircuits.own_car.following import Followed
from fuelcircuits.own_car.page import brief, page
from fuelcircuits.own_car.page_html import page_html
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
        self.button = ipywidgets.Button(description="What is likely wrong?")
        self.button.layout.width = "auto"
        self.button.on_click(self._asked)
        self.told, self.found = ipywidgets.HTML(), ipywidgets.HTML()
        self.parts = (self.button, self.told, self.found)
        self._live = False
        self._later: asyncio.TimerHandle | None = None

    def follow(self) -> None:
        """Take it that the day has changed: report anew, if a report was asked for."""
        if self._live:
            self.told.value = said("Something has changed; the report follows.")
            self._after(STILL, self._begin)

    def _asked(self, _button: Any) -> None:
        self._live = True
        self._begin()

    def _begin(self) -> None:
        try:
            day = self.now()
            self._step(day, self.steps(day))
        except CircuitError as error:
            self._refuse(error)

    def _step(self, day: Round, left: Iterator[float | Followed]) -> None:
        """Go one step, show it, and go on a moment later, as long as the day is the same.

        A kernel may hear of a change in another thread, while a step is being worked out.
        """
        try:
            step, same = next(left, None), self.now() == day
        except CircuitError as error:
            self._refuse(error)
            return
        if not same:
            self.follow()
        elif step is not None:
            self._show(step)
            self._after(BETWEEN, lambda: self._step(day, left))

    def _show(self, step: float | Followed) -> None:
        if isinstance(step, float):
            self.told.value = said(
                f"Working out what every fault would show on your car: {100 * step:.0f} %. That is "
                "done once for a card."
            )
            return
        shown, words = (
            (page, "The report is whole, and follows what you change above.")
            if step.whole
            else (brief, "These are the suspects; the next step is being looked for …")
        )
        self.found.value = f"{FRAME}{page_html(shown(step.report))}</div>"
        self.told.value = said(words)

    def _refuse(self, error: CircuitError) -> None:
        self.found.value = ""
        self.told.value = "".join(said(line, "wrong") for line in str(error).splitlines())

    def _after(self, seconds: float, act: Callable[[], None]) -> None:
        """Act so many seconds later instead of what was to be done; at once where nothing waits."""
        if self._later:
            self._later.cancel()
        try:
            self._later = asyncio.get_running_loop().call_later(seconds, act)
        except RuntimeError:  # no loop runs, as in a script
            act()
