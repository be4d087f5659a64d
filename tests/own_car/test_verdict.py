"""What it comes to: healthy, a fault, nothing that fits, or not to be told apart yet."""

from math import exp
from types import SimpleNamespace
from typing import Any

import pytest
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.ranking import rank, weigh
from fuelcircuits.diagnosis.table import HEALTHY, SEVERITIES, Table
from fuelcircuits.faults import FAULTS
from fuelcircuits.own_car.findings import Band, Findings
from fuelcircuits.own_car.page import page

LEAK, HOME = "manifold-air-leak", 60e3
VACUUM = find("idle-vacuum")
DOUBT = VACUUM.uncertainty(HOME)
OTHERS = [name for name in FAULTS if name != LEAK][:38]


def findings(at: float, hidden: tuple[str, ...] = ()) -> Findings:
    """Return what a vacuum so many doubts from that of a healthy car says.

    A leak would show it two doubts lower, 38 other suspects twenty higher.
    """
    suspects = (HEALTHY, LEAK, *OTHERS)
    shown = [HOME, HOME - 2 * DOUBT, *(HOME + 20 * DOUBT for _ in OTHERS)]
    table = Table((VACUUM,), suspects, [[[one] for _ in SEVERITIES] for one in shown])
    weighed = weigh(table, {VACUUM.name: HOME + at * DOUBT})
    card: Any = SimpleNamespace(strange=[], free=[], left_open=lambda _: ([[]], []))
    suspicions = rank(weighed)
    bands = {one.name: Band(one.probability, one.probability) for one in suspicions}
    return Findings(
        *(card, weighed, {VACUUM.name: HOME + at * DOUBT}, suspicions, bands, {}, hidden),
        *([], [], [], []),
    )


@pytest.mark.parametrize(
    ("at", "verdict"),
    [(0.0, "healthy"), (-1.4, "healthy"), (-1.6, "open"), (-4.0, "fault"), (-9.0, "nothing fits")],
)
def test_a_healthy_car_is_called_so_only_while_nothing_speaks_against_it(
    at: float, verdict: str
) -> None:
    assert findings(at).verdict == verdict


# Between the normal densities of two readings two doubts apart the factor is exp(2) at the second
# and exp(-2) at the first: first principles. What a gauge may be off hangs a little on its reading.
@pytest.mark.parametrize(("at", "factor"), [(0.0, exp(-2.0)), (-2.0, exp(2.0))])
def test_evidence_is_how_many_times_as_readily_a_suspect_makes_the_reading(
    at: float, factor: float
) -> None:
    assert findings(at).evidence(LEAK) == pytest.approx(factor, rel=0.02)


def test_what_cannot_be_told_apart_is_said_with_the_suspects_that_speak_against_it() -> None:
    found = findings(-2.0)
    assert found.suspicions[0].name == HEALTHY
    assert found.rivals == [LEAK]
    assert "**Cannot be told apart yet.** All may be as on the card" in page(found)
    assert "manifold air leak (7 times as readily)" in page(found)


@pytest.mark.parametrize(("at", "named"), [(0.0, []), (-1.0, []), (-1.4, [LEAK])])
def test_what_little_speaks_for_is_mentioned_beside_a_healthy_car(
    at: float, named: list[str]
) -> None:
    found = findings(at)
    assert found.verdict == "healthy"
    assert found.mentioned == named
    assert (
        "Not ruled out, though little speaks for it: manifold air leak." in page(found)
    ) == bool(named)
    assert found.apart == ([HEALTHY, LEAK] if named else [])


def test_a_suspect_that_the_readings_cannot_see_is_no_rival() -> None:
    assert findings(-2.0, hidden=(LEAK,)).rivals == []
