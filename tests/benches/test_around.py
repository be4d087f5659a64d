"""The bench around the carburettor: its readings are the checks', its needle the engine's."""

from typing import Any

import pytest
from fuelcircuits.benches.around.bench import AroundBench
from fuelcircuits.benches.frame.drawing import asked
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.network.rig import Rig

from tests.benches.checks import ends, purely, shows, whole
from tests.places import RIGS

BENCH = AroundBench(read_rig(RIGS / "plover.toml"))


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def value(found: State, label: str) -> float:
    return float(next(line.value for line in found.readings if line.label == label))


def test_every_number_is_given_at_every_end() -> None:
    assert asked(BENCH.drawing()) == set(state().numbers)
    assert [
        whole(BENCH, BENCH.compute(one, "SI"))
        for one in ends(BENCH)
        if whole(BENCH, BENCH.compute(one, "SI"))
    ] == []


def test_it_says_numbers_with_units_and_the_same_ones_each_time() -> None:
    assert shows(state(weak=0.5)) == []
    assert purely(BENCH, BENCH.values() | {"spark_late": 0.1})


def test_the_needle_swings_with_a_weak_cylinder_alone() -> None:
    for changed in ({"spark_late": 0.14}, {"hose": 3e-6}, {"recirculation": 3e-6}):
        vacuum = state(**changed).chart.panels[0].curves[0].y
        assert max(vacuum) == pytest.approx(min(vacuum))
    vacuum = state(weak=0.5).chart.panels[0].curves[0].y
    assert max(vacuum) - min(vacuum) == pytest.approx(
        value(state(weak=0.5), "Swing of the needle"), rel=0.05
    )


def test_a_screw_hides_a_small_leak_at_idle_and_at_no_other_load() -> None:
    leak = {"hose": 2e-6}
    turns = BENCH.values()["screw_turns"]
    hidden = state(**leak, screw_turns=turns + 1.0)
    sound, leaking = state(), state(**leak)
    lean = value(leaking, "Lambda at idle") - value(sound, "Lambda at idle")
    assert lean > 0.05
    assert abs(value(hidden, "Lambda at idle") - value(sound, "Lambda at idle")) < 0.5 * lean
    assert value(hidden, "Vacuum at a held 2500 rpm") < value(sound, "Vacuum at a held 2500 rpm")


def test_a_hose_right_off_stalls_it_and_says_so() -> None:
    found = state(hose=16e-6)
    assert found.alarm
    assert "stalls" in found.verdict
    assert value(found, "Idle speed, stop left alone") == 0.0


def test_a_card_without_an_engine_is_refused() -> None:
    with pytest.raises(CardError, match="engine must be given for this bench"):
        AroundBench(Rig("bare"))
