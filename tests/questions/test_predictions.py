"""The keys of predictions, each held to what its bench shows, or to a sum that stands here."""

from collections.abc import Callable, Mapping
from functools import cache
from math import hypot, pi, radians
from typing import Any

import pytest
from fuelcircuits.benches import open_bench
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shop_book import book_of
from fuelcircuits.diagnosis.table import HEALTHY
from fuelmarks.course.course import Course
from fuelmarks.course.foretold import asked_in, key_to

from tests.places import RIGS, TOP

COURSE = Course.at(TOP / "course")
UNITS = COURSE.units()
MINUTE = 2 * pi / 60  # rpm in rad/s
JET = read_rig(RIGS / "plover.toml").high_speed.jet_bore


@cache
def bench(stem: str, rig: str) -> Any:
    return open_bench(stem, read_rig(RIGS / f"{rig}.toml"))


def state(stem: str, rig: str = "plover", **changed: Any) -> State:
    return bench(stem, rig).state(changed)  # type: ignore[no-any-return]


def shown(stem: str, label: str, **changed: Any) -> float:
    readings = {one.label: one.value for one in state(stem, **changed).readings}
    value = readings[label]
    assert isinstance(value, float)
    return value


def area(bore: float) -> float:
    return pi * bore**2 / 4


def head(lip: float, mouth: float | None = None, full: bool = True) -> float:
    """Pressure that holds up the fuel in a nozzle [Pa]: to the lip, or once full to the mouth."""
    return 745 * 9.81 * (mouth if full and mouth is not None else lip)


def change(stem: str, label: str, **changed: Any) -> float:
    return shown(stem, label, **changed) - shown(stem, label)


def small_hose_speeds_up() -> bool:
    speeds = [shown("around", "Idle speed, stop left alone", hose=area) for area in (0.0, 2e-6)]
    return 0 < speeds[1] - speeds[0] < 80 * MINUTE


def worst(**changed: Any) -> float:
    one = next(one for one in state("pump", **changed).readings if one.label.endswith("the shot"))
    assert isinstance(one.value, list)
    return float(max(one.value))


def twice_the_air() -> float:
    """How many times the pull grows from a throttle where half of the air flows."""
    half = shown("air_path", "Air flow", throttle=radians(20))
    low, high = radians(20), radians(60)
    for _ in range(30):
        middle = (low + high) / 2
        enough = shown("air_path", "Air flow", throttle=middle) > 2 * half
        low, high = (low, middle) if enough else (middle, high)
    label = "Booster depression"
    return shown("air_path", label, throttle=low) / shown("air_path", label, throttle=radians(20))


def wider_venturi() -> float:
    """Share of air that a venturi of 30 mm brings at full throttle and 4,200 rpm."""
    full: dict[str, Any] = {"throttle": radians(83), "speed": 4200 * MINUTE}
    air = [shown("air_path", "Air flow", venturi_bore=bore, **full) for bore in (25.5e-3, 30e-3)]
    return air[1] / air[0] - 1


def richer_by_bleed() -> bool:
    gone = [change_at(opening, air_bleed=0.4e-3) for opening in (0.10, 0.15, 0.20)]
    return 0 > gone[0] > gone[1] > gone[2]


def change_at(throttle: float, **changed: Any) -> float:
    label = "Mixture (lambda)"
    return shown("high_speed", label, throttle=throttle, **changed) - shown(
        "high_speed", label, throttle=throttle
    )


def stronger_spring() -> bool:
    spring = bench("power", "plover").values()["spring"]
    found = [
        shown("power", "Mixture (lambda)", throttle=0.15, spring=more * spring)
        for more in (1.0, 1.1, 1.5, 2.0)
    ]
    return abs(found[1] - found[0]) < 0.005 and found[3] < found[0] - 0.05


def shot_outlasts_the_foot() -> bool:
    moments = state("pump", duration=0.1).moments
    begun = next(one.time for one in moments if "opens" in one.words)
    over = next(one.time for one in moments if "over" in one.words)
    return over - begun > 3 * 0.1


def late_rod() -> float:
    """Worst lambda of a rod that starts at 27 degrees, as a share of the way to no pump."""
    slow: dict[str, Any] = {"duration": 1.5}
    good, late = worst(**slow), worst(lost=radians(27), **slow)
    none = worst(pump="none", **slow)
    return (late - good) / (none - good)


def fast_idle_falls() -> bool:
    set_first: dict[str, Any] = {"cam": "cam", "fast_screw": 1.2}
    gauges = [
        next(g.value for g in state("setting_up", idle_screw=turns, **set_first).gauges)
        for turns in (2.4, 1.6)
    ]
    return bool(gauges[1] < gauges[0] - 100 * MINUTE)


def torque_given_up() -> float:
    label = "Torque, of the most"
    found = [shown("exhaust", label, petrol_lambda=at) for at in (0.91, 1.07)]
    return found[0] - found[1]


def torn_pull_off() -> bool:
    """Say whether a torn pull-off floods the engine for two or three minutes, and no longer."""
    times = state("choke", "dunlin").times
    assert times is not None
    torn, good = (delivered(pull_off=state) for state in ("torn", "good"))
    share = [each / healthy for each, healthy in zip(torn, good, strict=True)]
    flooded = max(now for now, each in zip(times, share, strict=True) if each < 0.98)
    return share[0] < 0.6 and 120 < flooded < 180


def delivered(**changed: Any) -> list[float]:
    readings = state("choke", "dunlin", **changed).readings
    found = next(one.value for one in readings if one.label == "Lambda delivered")
    assert isinstance(found, list)
    return found


def loose_shaft_tells_at_idle() -> bool:
    book = book_of("plover")
    names = [check.name for check in book.checks]
    healthy, loose = book.rows(HEALTHY)[0], book.rows("worn-throttle-shaft")[-1]
    idle, cruise, full = (
        loose[names.index(one)] / healthy[names.index(one)]
        for one in ("idle-mixture", "cruise-mixture", "full-load-mixture")
    )
    return idle - 1 > 3 * (cruise - 1) > 3 * (full - 1)


# The words that the right answer must hold, and what proves it.
FACTS: Mapping[str, tuple[str, Callable[[], bool]]] = {
    "twice-the-bore": ("four", lambda: area(2 * 1.5e-3) / area(1.5e-3) == pytest.approx(4)),
    "into-the-hills": (
        "lower",
        lambda: change("gauges", "Absolute in the manifold", barometer=85e3) < -10e3,
    ),
    "twice-the-air": ("four", lambda: 3.7 < twice_the_air() < 4.5),
    "bigger-venturi": ("hardly", lambda: 0 < wider_venturi() < 0.01),
    "pump-pressure": (
        "rises",
        lambda: (
            shown("float_bowl", "Fuel below gasket face", fuel_pressure=41e3)
            < shown("float_bowl", "Fuel below gasket face", fuel_pressure=28e3) - 2e-4
        ),
    ),
    "more-demand": ("lower", lambda: change("float_bowl", "Float drop", demand=9e-3) > 2e-4),
    "bowl-pressure": ("richer", lambda: change("bowl_vents", "Lambda", gasket_leak=20e-6) < -0.01),
    "blocked-air-hole": (
        "richer",
        lambda: change("low_speed", "Lambda", air_bleed_bore=0.4e-3) < -0.1,
    ),
    "narrow-economizer": (
        "grows",
        lambda: (
            change("low_speed", "Chamber vacuum", economizer_bore=1.4e-3) > 200
            and change("low_speed", "Lambda", economizer_bore=1.4e-3) > 0.1
        ),
    ),
    "narrow-slot": ("richer", lambda: change("off_idle", "Lambda", slot_width=0.24e-3) < -0.1),
    "stuck-ball": (
        "richer",
        lambda: (
            shown("off_idle", "Lambda", throttle=radians(20), ball="shut")
            < shown("off_idle", "Lambda", throttle=radians(20)) - 0.01
        ),
    ),
    "blocked-bleed": ("richer and richer", richer_by_bleed),
    # Hydrostatics: both must be lifted over the lip, and a full tube counts from its mouth.
    "two-slopes": (
        "stops at a smaller",
        lambda: head(lip=4.2e-3) == head(lip=4.2e-3, mouth=2e-3, full=False) > head(4.2e-3, 2e-3),
    ),
    "rod-and-vacuum": (
        "spring lifts",
        lambda: (
            shown("power", "Manifold vacuum", throttle=0.6)
            < shown("power", "Manifold vacuum", throttle=0.15)
            and shown("power", "Rod raised", throttle=0.6)
            > shown("power", "Rod raised", throttle=0.15) + 1e-3
        ),
    ),
    "stronger-spring": ("richer", stronger_spring),
    "length-of-shot": ("longer than the foot moves", shot_outlasts_the_foot),
    "late-rod": ("as lean as with no pump", lambda: late_rod() > 0.8),
    "frosty-mixture": ("3.5", lambda: 3.0 < 13 / 4 < 3.75),
    "torn-pull-off": ("normal after two or three minutes", torn_pull_off),
    "leaking-pipe": (
        "leaner",
        lambda: change("exhaust", "Lambda the analyser works out", false_air=0.2) > 0.05,
    ),
    "price-of-thrift": ("fourteenth", lambda: 1 / 16 < torque_given_up() < 1 / 12),
    "two-doubts": ("0.5 mm", lambda: hypot(0.3, 0.4) == pytest.approx(0.5)),
    "wrong-order": ("too slow", fast_idle_falls),
    "worn-main-jet": ("7 %", lambda: 0.065 < area(JET + 0.05e-3) / area(JET) - 1 < 0.075),
    "loose-shaft": ("at idle", loose_shaft_tells_at_idle),
    "hose-and-speed": ("rises a little", small_hose_speeds_up),
    "needle-tells": (
        "takes too little",
        lambda: (
            shown("around", "Swing of the needle", weak=0.5) > 2e3
            and shown("around", "Swing of the needle", spark_late=0.14, hose=2e-6) == 0.0
        ),
    ),
    # Common practice, no source: the quick reading that divides the list comes first.
    "first-test": ("three minutes", lambda: find("idle-vacuum").minutes == 3),
}


@pytest.mark.parametrize("unit", UNITS)
def test_every_prediction_has_a_key_that_the_bench_bears_out(unit: str) -> None:
    keys = COURSE.questions(unit)
    for asked in asked_in(COURSE, unit):
        key = key_to(keys, asked.name)
        assert key is not None
        words, proves = FACTS[asked.name]
        assert words in asked.options[key.right], asked.name
        assert [words in one for one in asked.options.values()].count(True) == 1, asked.name
        assert proves(), asked.name
