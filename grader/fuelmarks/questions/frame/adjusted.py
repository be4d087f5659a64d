"""Questions of a block that are answered by setting a bench, as an author declares them."""

from collections.abc import Mapping
from typing import Any

from fuelcircuits.benches import BENCHES, Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.scaling import RIGS
from fuelcircuits.quantities.settings_text import TURNS
from fuelcircuits.quantities.trade_units import scale

from fuelmarks.questions.frame.adjustment import MOMENTS, Adjustment, Amount, Want, bench_on
from fuelmarks.questions.frame.entries import Entries
from fuelmarks.questions.frame.worded import BlockError, number_with_unit

__all__ = ["adjustment_from"]

ENTRIES = (*("id", "ask", "bench", "rig", "stands", "want", "points", "why", "outcomes", "hints"),)
WANT = ("reading", "at", "target", "within", "by", "below", "above")


def adjustment_from(
    where: str, plain: Mapping[str, object], units: Mapping[str, str]
) -> Adjustment:
    """Return the question that `plain` describes; `units` are those of the givens by name.

    Raises
    ------
    BlockError
        For a bench, control, reading, given or number that cannot be used.
    """
    entries = Entries(where, plain, ENTRIES)
    stem, rig = entries.text("bench"), entries.choice("rig", RIGS)
    if stem not in BENCHES:
        raise BlockError(f"{where}: bench must be one of {', '.join(BENCHES)}, got {stem!r}")
    bench = bench_on(stem, rig)
    made = Adjustment(
        id=entries.name("id"),
        ask=entries.text("ask"),
        bench=stem,
        rig=rig,
        stands=_stands(entries, bench, units),
        wants=tuple(_want(where, one, bench, units) for one in entries.list_of_tables("want")),
        points=int(entries.number("points", 1, 1, 100)),
        why=entries.text("why", ""),
        outcomes=entries.texts("outcomes"),
        hints=entries.texts("hints"),
    )
    if not made.wants:
        raise BlockError(f"{where} must have a [[question.want]], got none")
    return made


def _stands(entries: Entries, bench: Bench, units: Mapping[str, str]) -> dict[str, Amount]:
    """Return how the bench stands as the job came in, checked as far as it is known."""
    found = {}
    for name, said in entries.table("stands").items():
        control = bench.inputs().get(name)
        if control is None:
            listed = ", ".join(bench.inputs())
            raise BlockError(f"{entries.where}: stands must name {listed}, got {name!r}")
        if not isinstance(control, Control):
            found[name] = Amount(_checked(entries.where, control.checked, said))
            continue
        found[name] = _amount(
            f"{entries.where}: {name}", str(said), units, control.measure.metric.unit
        )
        if not found[name].given:
            _checked(entries.where, control.checked, found[name].value)
    return found


def _checked(where: str, check: Any, value: Any) -> Any:
    try:
        return check(value)
    except CircuitError as error:
        raise BlockError(f"{where}: {error}") from error


def _amount(where: str, said: str, units: Mapping[str, str], shown: str) -> Amount:
    """Return a given, or a number with its unit in SI; `shown` is the unit on the dial."""
    if said in units:
        return Amount(given=said)
    number, unit = number_with_unit(where, said)
    if bool(unit) == (shown in ("", TURNS)):
        raise BlockError(
            f"{where} must be a given or a number in {shown or 'no unit'}, got {said!r}"
        )
    way = scale(unit)
    return Amount(way.factor * number + way.offset)


def _want(where: str, plain: Mapping[str, Any], bench: Bench, units: Mapping[str, str]) -> Want:
    """Return what one reading shall come to."""
    entries = Entries(f"{where}: want {plain.get('reading', '?')}", plain, WANT)
    state = bench.told(bench.starts, "SI")
    shown: tuple[Reading | Gauge, ...] = (*state.gauges, *state.readings)
    named = {one.label: one.measure for one in shown}
    reading, by = entries.text("reading"), entries.text("by")
    if reading not in named:
        listed = ", ".join(named)
        raise BlockError(f"{entries.where}: reading must be one of {listed}, got {reading!r}")
    if by not in bench.controls():
        listed = ", ".join(bench.controls())
        raise BlockError(f"{entries.where}: by must be one of {listed}, got {by!r}")
    unit = named[reading].metric.unit
    within = _amount(f"{entries.where}: within", entries.text("within"), {}, unit).value
    if not within > 0:
        raise BlockError(f"{entries.where}: within must be above 0, got {entries.text('within')!r}")
    return Want(
        reading,
        _amount(f"{entries.where}: target", entries.text("target"), units, unit),
        within,
        by,
        entries.text("below"),
        entries.text("above"),
        entries.choice("at", MOMENTS),  # type: ignore[arg-type]
    )
