"""How what a bench has worked out becomes what it shows, the same way for all of them."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple, Protocol

from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import System, Value
from fuelcircuits.benches.frame.state import AWAITED, Chart, Curve, Moment, Reading, State

__all__ = ["Run", "RunWords", "Shown", "Words", "along", "no_gauges"]


class Words(Protocol):
    """A module of words: what is said of what a bench has found."""

    def readings(self, found: Any, /) -> tuple[Reading, ...]:
        """Return the table."""

    def gauges(self, found: Any, /) -> tuple[Gauge, ...]:
        """Return the dials."""

    def alarm(self, found: Any, /) -> bool:
        """Return whether the verdict is a warning."""

    def verdict(self, found: Any, system: System, /) -> str:
        """Return in one sentence what the circuit does."""

    def drawn(self, found: Any, system: System, /) -> str:
        """Return the drawing in words."""

    def plotted(self, found: Any, system: System, /) -> str:
        """Return the plot in words."""


class RunWords(Protocol):
    """A module of words of a time bench; what is known before the march comes first."""

    def readings(self, known: Any, found: Any, /) -> tuple[Reading, ...]:
        """Return the table; without `found` only what is known."""

    def gauges(self, found: Any, /) -> tuple[Gauge, ...]:
        """Return the dials."""

    def alarm(self, found: Any, /) -> bool:
        """Return whether the verdict is a warning."""

    def moments(self, known: Any, found: Any, /) -> tuple[Moment, ...]:
        """Return what happens when."""

    def verdict(self, found: Any, system: System, /) -> str:
        """Return in one sentence how the run goes."""

    def drawn(self, known: Any, found: Any, system: System, /) -> str:
        """Return the drawing in words."""

    def plotted(self, found: Any, system: System, /) -> str:
        """Return the plot in words."""


def no_gauges(_found: Any) -> tuple[Gauge, ...]:
    """Return the dials of a bench that has none."""
    return ()


class Shown(NamedTuple):
    """The parts of a bench that make a state of what it has found."""

    words: Words
    place: Callable[[Any], Mapping[str, Value]]
    chart: Callable[[Any], Chart]

    def state(self, found: Any, system: System) -> State:
        """Return all that the browser shows; curves may still be without points."""
        words = self.words
        return State(
            readings=words.readings(found),
            numbers=self.place(found),
            chart=self.chart(found),
            verdict=words.verdict(found, system),
            drawn=words.drawn(found, system),
            plotted=words.plotted(found, system),
            alarm=words.alarm(found),
            gauges=words.gauges(found),
        )


class Run(NamedTuple):
    """The same of a time bench, which knows some of its run before it is marched."""

    words: RunWords
    place: Callable[[Any, Any], Mapping[str, Value]]
    chart: Callable[[Any, Any], Chart]

    def state(self, known: Any, found: Any, system: System) -> State:
        """Return all that the browser shows; without `found` what only the march tells is awaited.

        Parameters
        ----------
        known
            What is known before the run is marched, its `times` among it.
        found
            The run, or None.
        system
            The side of the units switch.
        """
        words = self.words
        return State(
            readings=words.readings(known, found),
            numbers=self.place(known, found),
            chart=self.chart(known, found),
            verdict=words.verdict(found, system) if found else AWAITED,
            drawn=words.drawn(known, found, system),
            plotted=words.plotted(found, system) if found else AWAITED,
            alarm=bool(found) and words.alarm(found),
            gauges=words.gauges(found) if found else (),
            times=known.times,
            moments=words.moments(known, found),
        )


def along(role: str, times: Sequence[float], values: Any, label: str = "") -> Curve:
    """Return a curve over a run, without points where its values are still to be marched."""
    return Curve(role, None if values is None else times, values, label)
