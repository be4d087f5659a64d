"""Two suspects at once, against a dense covariance and the model with both faults in it."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.pairs import pairs
from fuelcircuits.diagnosis.ranking import weigh
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.diagnosis.table import HEALTHY, Table
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel

from tests.diagnosis.test_ranking import table
from tests.places import RIGS

READ = {"short": 9.0, "long": 7.0, "dull": 0.2}
LEEWAY = [[1.0, 0.4, 0.0], [0.4, 2.0, 0.0], [0.0, 0.0, 0.5]]
ROUGH = 0.2


def suspects(*shown: tuple[float, float, float]) -> Table:
    """Return a table of a healthy car, which shows nothing, and of suspects a, b, c."""
    made = table((0.0, 0.0, 0.0), *shown)
    checks = tuple(replace(check, share=0.0) for check in made.checks)
    return made._replace(checks=checks, suspects=(HEALTHY, *"abc"[: len(shown)]))


def test_the_two_whose_readings_add_up_come_first() -> None:
    made = suspects((9.0, 0.0, 0.0), (0.0, 7.0, 0.0), (0.0, 0.0, 8.0))
    weighed = weigh(made, READ)
    assert not weighed.explained
    assert [one.names for one in pairs(weighed, READ, "abc")] == [("a", "b")]


def test_a_pair_is_weighed_with_all_that_card_and_roughness_leave_open() -> None:
    made = suspects((8.0, 1.0, 0.0), (0.5, 5.0, 1.0))
    (pair,) = pairs(weigh(made, READ, LEEWAY, rough=ROUGH), READ, "ab", ROUGH)
    shown = np.array([8.5, 6.0, 1.0])
    off = np.array(list(READ.values())) - shown
    spread = np.diag(1.0 + (ROUGH * shown) ** 2) + np.array(LEEWAY)
    assert pair.square == pytest.approx(off @ np.linalg.solve(spread, off))


def test_nobody_is_paired_who_is_not_among_them() -> None:
    made = suspects((9.0, 0.0, 0.0), (0.0, 7.0, 0.0), (0.0, 0.0, 8.0))
    assert pairs(weigh(made, READ), READ, "ac") == []


def test_what_two_faults_show_together_is_nearly_the_sum_of_what_each_shows() -> None:
    rig = read_rig(RIGS / "plover.toml")
    home = warmed(rig, Weather.at(), Fuel(), by_vacuum=True)
    first = Subject.with_fault(home, "float-set-high", 0.3)
    second = Subject.with_fault(home, "main-jet-too-small", 0.3)
    both = Subject.with_fault(replace(home, rig=first.rig), "main-jet-too-small", 0.3)
    together = Subject(home, both.rig, both.settings)
    for name in ("off-idle-mixture", "cruise-mixture"):
        read = find(name).read
        healthy = read(Subject(home, rig))
        moved = read(first) + read(second) - 2.0 * healthy
        assert read(together) - healthy == pytest.approx(moved, abs=0.25 * find(name).floor)
