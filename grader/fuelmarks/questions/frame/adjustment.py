"""Questions that are answered by setting a bench: the answer is how its controls stand.

What the bench reads at a trainee's settings is worked out by the bench's own physics, on the card
of the rig, with everything the question left alone put back where it stood. So nothing that a
notebook says of a reading is believed. An author declares one in a block::

    [[question]]
    id      = "set-the-idle"
    ask     = "The bench stands as the car came in. Set it to **{asked_gas}** of CO."
    bench   = "low_speed"
    points  = 3

      [question.stands]                  # a given's name, or a value
      jet_bore    = "worn_jet"
      screw_turns = "3.5"

      [[question.want]]
      reading = "Carbon monoxide"        # of the bench's table or gauges
      target  = "asked_gas"              # a given's name, or a value
      within  = "0.3 percent"
      by      = "screw_turns"            # the control that sets it
      below   = "set lean"               # what it means to be below the target, and above it
      above   = "set rich"
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any, Literal, TypeAlias

from fuelcircuits.benches import Bench, open_bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import Measure
from fuelcircuits.benches.frame.state import Reading, State
from fuelcircuits.own_car.scaling import rig_named
from fuelcircuits.quantities.settings_text import TURNS, Dial

from fuelmarks.questions.frame.exercise import Exercise, Form, Formula, Slip, Values

__all__ = ["MOMENTS", "Adjustment", "Amount", "Moment", "Want", "bench_on"]

Moment: TypeAlias = Literal["", "first", "last", "highest", "lowest"]
PICKS: Mapping[Moment, Callable[[Sequence[float]], float]] = {
    "": lambda row: row[0],
    "first": lambda row: row[0],
    "last": lambda row: row[-1],
    "highest": max,
    "lowest": min,
}
"""Which of the readings of a run counts."""
MOMENTS = tuple(PICKS)
UNITS = {"°": "deg", "%": "percent", "°C": "degC"}
"""Units of dials as people type them."""


@dataclass(frozen=True)
class Amount:
    """A number in SI, or the given that it is."""

    value: Any = None
    given: str = ""

    def of(self, given: Values) -> Any:
        """Return what it is on a sheet with these givens; a number in six figures."""
        found = given[self.given] if self.given else self.value
        return found if isinstance(found, bool | str) else float(f"{found:.6g}")


@dataclass(frozen=True)
class Want:
    """What one reading of the bench shall come to, and which control sets it."""

    reading: str
    target: Amount
    within: float
    by: str
    below: str
    above: str
    at: Moment = ""

    def off(self, read: float, given: Values) -> float:
        """Return how far a reading is from the target, in what may be; above it is more."""
        return (read - float(self.target.of(given))) / self.within


@dataclass(frozen=True, kw_only=True)
class Adjustment(Exercise):
    """A question answered by how a bench is set; see the top of this file."""

    unit: str = field(default="", init=False)
    tolerance: float = field(default=0.0, init=False)
    low: float = field(default=0.0, init=False)
    high: float = field(default=0.0, init=False)
    reference: Formula = field(default_factory=lambda: _no_number, init=False, repr=False)
    slips: tuple[Slip, ...] = field(default=(), init=False, repr=False)
    bench: str
    rig: str
    stands: Mapping[str, Amount]
    wants: tuple[Want, ...]
    known: dict[Any, dict[str, float]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    """Settings that were found to meet it, by the givens."""

    @property
    def form(self) -> Form:
        """Return that it is answered by settings."""
        return "setting"

    @cached_property
    def moves(self) -> tuple[str, ...]:
        """The controls that are to be set, each once."""
        return tuple(dict.fromkeys(want.by for want in self.wants))

    @cached_property
    def dials(self) -> Mapping[str, Dial]:
        """What each of them takes, as one reads it on the bench."""
        controls = bench_on(self.bench, self.rig).controls()
        return {name: _dial(controls[name]) for name in self.moves}

    def left(self, given: Values) -> dict[str, Any]:
        """Return how the bench stands as the job came in."""
        start = bench_on(self.bench, self.rig).starts
        return start | {name: each.of(given) for name, each in self.stands.items()}

    def read(self, given: Values, moved: Mapping[str, float]) -> tuple[float, ...]:
        """Return what each wanted reading is, in SI, with these controls moved.

        Raises `CircuitError` where the model has no state.
        """
        bench = bench_on(self.bench, self.rig)
        state = bench.told({**self.left(given), **moved}, "SI")
        return tuple(_read(state, want)[0] for want in self.wants)

    def measures(self) -> tuple[Measure, ...]:
        """Return the kind of quantity of each wanted reading."""
        bench = bench_on(self.bench, self.rig)
        state = bench.told(bench.starts, "SI")
        return tuple(_read(state, want)[1] for want in self.wants)


def _no_number(_given: Values, _earlier: Values) -> float:
    """Return what stands for the answer among a sheet's numbers; the settings are no number."""
    return 0.0


@lru_cache(maxsize=32)
def bench_on(stem: str, rig: str) -> Bench:
    """Return a bench on a teaching rig as the package has it; nobody sets it."""
    return open_bench(stem, rig_named(rig))


def _dial(control: Control) -> Dial:
    """Return what a control takes, in the unit of its dial."""
    shown = control.measure.metric
    counted = shown.unit == "" and "turns" in control.label
    unit = TURNS if counted else UNITS.get(shown.unit, shown.unit)
    ends = (round(shown.show(end), 9) for end in (control.low, control.high))
    return Dial(control.label, unit, *ends)


def _read(state: State, want: Want) -> tuple[float, Measure]:
    """Return a reading of a state, and its kind; raise `KeyError` if there is none."""
    named: tuple[Reading | Gauge, ...] = (*state.gauges, *state.readings)
    found = {one.label: one for one in named}[want.reading]
    if not isinstance(found.value, list):
        return found.value, found.measure
    return float(PICKS[want.at](found.value)), found.measure
