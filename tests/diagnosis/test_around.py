"""What is wrong around a carburettor shows where the trade looks for it, and nowhere else."""

from functools import cache

import pytest
from fuelcircuits import faults
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.around_checks import AROUND_CHECKS
from fuelcircuits.diagnosis.checks import CHECKS, OWN, find
from fuelcircuits.diagnosis.prior import AROUND_SHARE, prior
from fuelcircuits.diagnosis.ranking import rank, weigh
from fuelcircuits.diagnosis.shop_book import book_of
from fuelcircuits.diagnosis.subject import Subject, Warmed, warmed
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import AROUND, FAULTS
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.vapour_share import burnable_share

from tests.places import RIGS

LOWER, SAME, HIGHER = -1, 0, 1


@cache
def stand() -> Warmed:
    return warmed(read_rig(RIGS / "plover.toml"), Weather.at(), Fuel())


def off(name: str, check: str, severity: float = 0.6) -> int:
    """Return which way a reading lies off the healthy one, as far as its gauge tells."""
    one = find(check)
    sound = one.read(Subject.with_fault(stand(), "", 0.0))
    far = one.read(Subject.with_fault(stand(), name, severity)) - sound
    return 0 if abs(far) < 2 * one.uncertainty(sound) else 1 if far > 0 else -1


# Common practice, no source: what a vacuum gauge, a tachometer and an analyser make of each.
@pytest.mark.parametrize(
    ("name", "check", "way"),
    [
        ("late-ignition", "free-idle", LOWER),
        ("late-ignition", "free-vacuum", LOWER),
        ("late-ignition", "idle-mixture", SAME),
        ("late-ignition", "needle-swing", SAME),
        ("late-ignition", "held-vacuum", SAME),
        ("late-ignition", "timing", HIGHER),
        ("early-ignition", "free-idle", HIGHER),
        ("early-ignition", "timing", LOWER),
        ("weak-cylinder", "needle-swing", HIGHER),
        ("weak-cylinder", "one-cylinder-out", LOWER),
        ("weak-cylinder", "compression", LOWER),
        ("weak-cylinder", "idle-mixture", SAME),
        ("vacuum-hose-off", "hoses-pinched", HIGHER),
        ("vacuum-hose-off", "crankcase-hose-pinched", SAME),
        ("vacuum-hose-off", "idle-mixture", HIGHER),
        ("vacuum-hose-off", "free-vacuum", LOWER),
        ("crankcase-valve-stuck-open", "crankcase-hose-pinched", HIGHER),
        ("crankcase-valve-stuck-open", "hoses-pinched", SAME),
        ("crankcase-valve-stuck-open", "idle-mixture", HIGHER),
        ("recirculation-stuck-open", "free-vacuum", LOWER),
        ("recirculation-stuck-open", "idle-mixture", SAME),
        ("recirculation-stuck-open", "recirculation-blanked", HIGHER),
        ("exhaust-restricted", "free-vacuum", SAME),
        ("exhaust-restricted", "free-idle", SAME),
        ("exhaust-restricted", "held-vacuum", LOWER),
        ("exhaust-restricted", "exhaust-pressure", HIGHER),
        ("exhaust-restricted", "pull", LOWER),
        ("heat-riser-stuck-shut", "riser-heat", HIGHER),
        ("heat-riser-stuck-shut", "pull", LOWER),
        ("heat-riser-stuck-open", "riser-heat", LOWER),
        ("stale-fuel", "fuel-density", HIGHER),
        ("stale-fuel", "free-idle", SAME),
    ],
)
def test_a_cause_moves_what_the_trade_looks_at(name: str, check: str, way: int) -> None:
    assert off(name, check) == way


def test_a_small_leak_speeds_the_idle_up_and_a_large_one_stalls_it() -> None:
    # Common practice: a rich idle gains from a little air; and a hose right off stops it.
    assert off("vacuum-hose-off", "free-idle", 0.15) == HIGHER
    assert off("vacuum-hose-off", "free-idle", 0.6) == LOWER
    assert Subject.with_fault(stand(), "vacuum-hose-off", 1.0).left_alone is None


@pytest.mark.parametrize("name", AROUND)
def test_a_cause_around_says_what_it_means_and_none_of_it_is_nothing(name: str) -> None:
    fault, rig, fuel = faults.find(name), stand().rig, Fuel()
    assert fault.circuit
    assert "at worst" in fault.meaning
    assert faults.apply(rig, name, 0.0) == rig
    assert faults.fuel(fuel, name, 0.0) == fuel
    assert (faults.apply(rig, name) != rig) != (faults.fuel(fuel, name) != fuel)
    with pytest.raises(RangeError, match="severity must be between"):
        faults.fuel(fuel, name, 1.5)


def test_causes_around_are_no_faults_of_a_carburettor() -> None:
    assert not set(AROUND) & set(FAULTS)
    assert not set(AROUND) & set(faults.fitting(stand().rig))
    assert not {check.name for check in AROUND_CHECKS} & set(OWN)
    assert len(OWN) == len(CHECKS)
    with pytest.raises(RangeError, match="check must be"):
        find("timing", OWN)


def test_every_check_says_its_minutes_doubt_and_hazard() -> None:
    for check in AROUND_CHECKS:
        assert check.minutes > 0
        assert check.floor > 0
        assert check.caution
        assert check.low <= check.high
    assert "voltage" in find("one-cylinder-out").caution
    assert "extinguisher" in find("fuel-density").caution


def test_stale_fuel_burns_less_in_a_cold_engine_and_hardly_less_in_a_warm_one() -> None:
    # Common practice: it starts badly on a cold morning and runs well once it is warm.
    stale = faults.fuel(Fuel(), "stale-fuel")

    def burns(fuel: Fuel, coolant: float) -> float:
        at = {"coolant": coolant, "outside": min(coolant, 288.15)}
        return burnable_share(stand().rig, fuel, 13.0, 40e3, **at)

    assert burns(stale, 268.15) < 0.93 * burns(Fuel(), 268.15)
    assert burns(stale, 360.0) > 0.95 * burns(Fuel(), 360.0)


def test_the_book_is_what_the_model_says() -> None:
    whole = book_of("plover")
    book = whole.narrowed(whole.suspects, [check.name for check in AROUND_CHECKS])
    for name in ("late-ignition", "weak-cylinder", "recirculation-stuck-open"):
        car = Subject.with_fault(stand(), name, 1.0)
        for check, kept in zip(book.checks, book.rows(name)[-1], strict=True):
            assert check.read(car) == pytest.approx(kept, abs=0.05 * check.uncertainty(kept))


def test_the_prior_keeps_causes_around_in_one_group() -> None:
    inner = ["blocked-idle-jet", "mixture-screw-in"]
    few = prior([HEALTHY, *inner, "late-ignition"], 0.4)
    many = prior([HEALTHY, *inner, *AROUND], 0.4)
    assert sum(few) == pytest.approx(1.0)
    assert sum(many) == pytest.approx(1.0)
    assert few[:3] == pytest.approx(many[:3])
    assert sum(many[3:]) == pytest.approx(0.6 * AROUND_SHARE)
    assert prior([HEALTHY, *inner], 0.4) == pytest.approx([0.4, 0.3, 0.3])
    assert prior(inner, 0.4) == pytest.approx([0.5, 0.5])
    assert prior([HEALTHY], 0.4) == [1.0]
    assert prior(list(AROUND)[:4], 0.4) == pytest.approx([0.25] * 4)


def test_ranking_names_the_cause_from_its_readings() -> None:
    book = book_of("plover")
    at = [check.name for check in book.checks]
    row = book.rows("late-ignition")[6]
    read = {name: row[at.index(name)] for name in ("free-vacuum", "timing", "idle-mixture")}
    assert rank(weigh(book, read))[0].name == "late-ignition"
