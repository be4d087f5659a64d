"""A part's bench, opened at a moment of a drive, shows what the drive showed.

What the steady bench cannot show is listed here by part, and said to whoever opens it. Fuel in the
bowl of a warm car is at 40 °C, that of the benches at 25 °C, so lambda agrees within 2.5 %.
"""

from dataclasses import replace
from math import pi
from typing import Any

import pytest
from fuelcircuits.benches import bench_class, open_bench
from fuelcircuits.benches.air_path import found as air_path
from fuelcircuits.benches.bowl_vents import found as bowl_vents
from fuelcircuits.benches.drive.bench import DriveBench
from fuelcircuits.benches.drive.parts import PARTS
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.exhaust import found as exhaust
from fuelcircuits.benches.float_bowl import found as float_bowl
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.high_speed import found as high_speed
from fuelcircuits.benches.low_speed import found as low_speed
from fuelcircuits.benches.off_idle import found as off_idle
from fuelcircuits.benches.power import found as power
from fuelcircuits.benches.pump import found as pump
from fuelcircuits.faults import FAULTS, fitting

from tests.benches.drive.outings import CARDS

LEFT = {
    "float_bowl": {"ethanol"},
    "bowl_vents": {"inside_blocked", "canister_suction"},
    "low_speed": {"kind"},
    "high_speed": {"nozzle", "slope"},
    "exhaust": {"ethanol", "spread", "false_air"},
}
"""Controls of each bench that a drive has nothing for, and that stay where they start."""
CRUISE = {"speed": 220.0, "pedal": 0.2, "gear": "top"}
"""Speed that goes with this throttle on the flow stand, within 3 %."""


def at(rig: str, **outing: Any) -> tuple[DriveBench, Row]:
    """Return a drive that has just begun, as a warm engine has run, and its moment."""
    drive = DriveBench(CARDS[rig])
    return drive, Row(*drive.begin(outing)["now"])


def put(drive: DriveBench, stem: str, row: Row) -> Any:
    """Return the bench of a part with the controls that were handed to it."""
    told = drive.ask("open", stem=stem, row=list(row))
    made: Bench = open_bench(stem, drive.rig)
    made.put(**told["values"])
    return made


@pytest.mark.parametrize("stem", PARTS)
def test_every_control_takes_something_or_is_left_by_name(stem: str) -> None:
    part, every = PARTS[stem], set(bench_class(stem).inputs())
    entries = (*part.sizes.values(), *part.moved.values(), *part.lost.values())
    set_by = {*part.takes, *part.sizes, *part.moved, *part.lost, *part.states}
    assert every - set_by == LEFT.get(stem, set())
    assert set_by <= every
    for entry in (*entries, *(each for words in part.states.values() for each in words)):
        assert part.entry(CARDS["plover"], entry) is not None


@pytest.mark.parametrize("rig", CARDS)
@pytest.mark.parametrize("part", [part for part in PARTS if PARTS[part].sizes])
def test_a_size_is_the_one_that_the_bench_itself_starts_from(rig: str, part: str) -> None:
    made, section = open_bench(part, CARDS[rig]), getattr(CARDS[rig], PARTS[part].section)
    sizes = {name: getattr(section, entry) for name, entry in PARTS[part].sizes.items()}
    if rig == "dunlin" and part == "high_speed":
        assert sizes.pop("air_bleed") == 0  # its nozzle is a plain tube
    assert {name: made.values()[name] for name in sizes} == sizes


@pytest.mark.parametrize("rig", CARDS)
@pytest.mark.parametrize("outing", [CRUISE, CRUISE | {"pedal": 0.6, "speed": 300.0}])
def test_under_way_the_benches_read_what_the_drive_shows(rig: str, outing: dict[str, Any]) -> None:
    drive, row = at(rig, **outing)
    path = put(drive, "air_path", row)
    air = air_path.whole(path.card, path.values())
    assert air.flow == pytest.approx(row.air, rel=0.035)
    assert air.losses.manifold == pytest.approx(row.vacuum, rel=0.07)
    rod = put(drive, "power", row)
    lifted = power.point(rod.card, rod.values())
    assert lifted.vacuum == pytest.approx(row.vacuum, rel=0.035)
    assert lifted.lift == pytest.approx(row.lift, abs=1e-3)
    assert lifted.mixture == pytest.approx(row.mixture, rel=0.025)
    nozzle = put(drive, "high_speed", row)
    assert high_speed.point(nozzle.card, nozzle.values()).mixture == pytest.approx(
        row.mixture, rel=0.025
    )
    bowl = put(drive, "float_bowl", row)
    settled = float_bowl.whole(bowl.card, bowl.values())
    assert settled.demand == pytest.approx(row.fuel, rel=1e-3)
    assert settled.high == pytest.approx(row.level, abs=0.15e-3)
    probe = put(drive, "exhaust", row)
    assert exhaust.point(probe.values()).mixture == pytest.approx(row.mixture, rel=1e-3)


@pytest.mark.parametrize("rig", CARDS)
def test_at_idle_the_low_benches_read_what_the_drive_shows(rig: str) -> None:
    drive, row = at(rig)
    screw, slot = put(drive, "low_speed", row), put(drive, "off_idle", row)
    idle = low_speed.point(screw.card, screw.values())
    port = off_idle.point(slot.card, slot.values())
    for found in (idle, port):
        assert found.mixture == pytest.approx(row.mixture, rel=0.025)
        assert found.manifold_vacuum == pytest.approx(row.vacuum, rel=0.025)
        assert found.chamber_vacuum == pytest.approx(row.port, rel=0.025)
    assert port.speed == pytest.approx(row.speed, rel=0.01)
    assert idle.fuel == pytest.approx(row.fuel, rel=0.01)


@pytest.mark.parametrize("rig", CARDS)
def test_half_way_along_the_slot_the_port_reads_what_the_drive_shows(rig: str) -> None:
    drive, row = at(rig, **CRUISE)
    slot = put(drive, "off_idle", row)
    port = off_idle.point(slot.card, slot.values())
    assert port.chamber_vacuum == pytest.approx(row.port, rel=0.025)
    assert port.mixture == pytest.approx(row.mixture, rel=0.025)


def test_altitude_comes_along_to_every_bench_that_asks_for_air() -> None:
    drive, row = at("plover", altitude=2000.0)
    told = {stem: drive.ask("open", stem=stem, row=list(row))["values"] for stem in PARTS}
    took = {stem for stem, values in told.items() if values.get("altitude") == 2000.0}
    assert took == set(PARTS) - {"float_bowl", "exhaust"}


HIGH_UP = {
    "under way": (CRUISE | {"altitude": 1200.0}, (power, high_speed, off_idle)),
    "at idle": ({"altitude": 2000.0}, (low_speed, off_idle, bowl_vents)),
}


@pytest.mark.parametrize("rig", CARDS)
@pytest.mark.parametrize(("outing", "benches"), HIGH_UP.values(), ids=HIGH_UP)
def test_high_up_the_benches_read_what_the_drive_shows(
    rig: str, outing: dict[str, Any], benches: tuple[Any, ...]
) -> None:
    drive, row = at(rig, **outing)
    for module in benches:
        stem = module.__name__.split(".")[-2]
        made = put(drive, stem, row)
        read = module.point(made.card, made.values()).mixture
        assert read == pytest.approx(row.mixture, rel=0.025)
        sea = module.point(made.card, made.values() | {"altitude": 0.0}).mixture
        assert read < 0.99 * sea


def test_high_up_the_pump_s_bench_begins_where_the_drive_is() -> None:
    drive, row = at("plover", **CRUISE, altitude=1200.0)
    made = put(drive, "pump", row)
    assert pump.whole(made.card, made.values()).bare.mixture[0] == pytest.approx(
        row.mixture, rel=0.025
    )


def test_what_a_bench_has_no_control_for_is_told_to_the_number() -> None:
    drive, row = at("plover", **CRUISE)
    notes = drive.ask("open", stem="off_idle", row=list(row))["notes"]
    assert "Air outside was 25 °C, and is 15 °C there." in notes
    shop = drive.ask("open", stem="off_idle", row=list(row), system="US")["notes"]
    assert "Air outside was 77 °F, and is 59 °F there." in shop
    slot = put(drive, "off_idle", row)
    stand = f"Engine speed was 2101 rpm, and is {slot_speed(slot):.0f} rpm there."
    assert stand in notes


def slot_speed(slot: Any) -> float:
    """Return the speed at which the off-idle bench runs [rpm]."""
    return off_idle.point(slot.card, slot.values()).speed * 60 / (2 * pi)


def test_the_pump_s_bench_makes_the_tip_in_that_was_driven_and_shows_its_moment() -> None:
    drive, _ = at("plover", **CRUISE)
    before = Row(*drive.ask("go", feet=[[25, 0.2, "top", 0.0, True, False]])["now"])
    pressed = [[1, 0.2 + 0.05 * step, "top", 0.0, True, False] for step in range(1, 9)]
    drive.ask("go", feet=pressed)
    row = drive.ask("go", feet=[[20, 0.6, "top", 0.0, True, False]])["now"]
    told = drive.ask("open", stem="pump", row=row)
    tip = {name: told["values"][name] for name in ("opened_from", "opened", "duration", "speed")}
    assert tip == pytest.approx(
        {"opened_from": 0.2, "opened": 0.6, "duration": 0.16, "speed": before.speed}, rel=1e-3
    )
    assert told["at"] == pytest.approx(0.5 + 0.16 + 20 * 0.02)
    assert told["line"].endswith("bench.at = 1.06; bench")


def test_without_a_tip_in_the_pump_s_bench_begins_where_the_throttle_is() -> None:
    drive, row = at("plover", **CRUISE)
    told = drive.ask("open", stem="pump", row=list(row))
    assert told["values"]["opened_from"] == pytest.approx(0.2, abs=1e-3)
    assert {"opened", "duration"} & set(told["values"]) == set()
    assert told["at"] is None


def test_the_choke_s_bench_shows_the_time_since_the_start() -> None:
    drive, _ = at("plover", engine="cold", outside=268.15)
    drive.ask("go", feet=[[30, 0.0, "neutral", 0.0, True, False]])
    drive.ask("go", feet=[[100, 0.0, "neutral", 0.0, True, True]])
    row = drive.ask("go", feet=[[50, 0.0, "neutral", 0.0, True, False]])["now"]
    told = drive.ask("open", stem="choke", row=row)
    assert told["at"] == pytest.approx(3.0)
    assert told["values"]["pedal"] == "left"
    warm, first = at("plover")
    assert warm.ask("open", stem="choke", row=list(first))["at"] is None


def test_a_control_that_cannot_follow_says_so_in_the_units_shown() -> None:
    drive, row = at("plover", engine="cold", outside=253.15)
    pump = {"stem": "pump", "row": list(row._replace(coolant=250.0))}
    assert "Coolant was -23 °C, and stands at the bench's lowest, -20 °C." in told_of(drive, pump)
    assert "Coolant was -10 °F" in told_of(drive, pump | {"system": "US"})


def told_of(drive: DriveBench, asked: dict[str, Any]) -> str:
    return " ".join(drive.ask("open", **asked)["notes"])


def test_a_control_that_follows_says_nothing() -> None:
    drive, row = at("plover", **CRUISE)
    notes = drive.ask("open", stem="power", row=list(row))["notes"]
    assert not any("stands at the bench's" in note for note in notes)
    assert notes[-1] == PARTS["power"].leaves


STATES = {
    "torn-pump-cup": ("pump", {"pump": "cup"}),
    "power-rod-stuck-down": ("power", {"rod": "down"}),
    "bleed-valve-stuck-open": ("off_idle", {"ball": "ajar"}),
    "pull-off-torn": ("choke", {"pull_off": "torn"}),
    "choke-heat-dead": ("choke", {"heat": "off"}),
}


@pytest.mark.parametrize("fault", STATES)
def test_a_known_fault_sets_the_word_that_stands_for_it(fault: str) -> None:
    stem, words = STATES[fault]
    drive, row = at("plover", fault=fault, severity=0.5, **CRUISE)
    told = drive.ask("open", stem=stem, row=list(row))
    assert told["values"] | words == told["values"]
    assert told["notes"][-1].startswith("The fault came along, as bad as the bench has it. ")


def test_without_air_there_is_no_mixture_to_hand_over() -> None:
    drive, row = at("plover", engine="cold")
    assert drive.ask("open", stem="exhaust", row=list(row))["values"] == {}


def changed(stem: str) -> list[str]:
    """Return the faults that change a size for which a bench has a control."""
    rig, part = CARDS["plover"], PARTS[stem]
    section = getattr(rig, part.section)
    faulty = {name: getattr(FAULTS[name].apply(rig, 1.0), part.section) for name in fitting(rig)}
    return [
        name
        for name, other in faulty.items()
        if any(getattr(other, each) != getattr(section, each) for each in part.sizes.values())
    ]


@pytest.mark.parametrize("stem", ["low_speed", "off_idle", "high_speed", "pump", "float_bowl"])
def test_a_known_fault_comes_along_where_the_bench_has_its_control(stem: str) -> None:
    names = changed(stem)
    assert names
    drive, row = at("plover", fault=names[0], severity=0.4)
    told = drive.ask("open", stem=stem, row=list(row))
    assert set(told["values"]) & set(PARTS[stem].sizes)
    assert told["notes"][-1].startswith("The fault came along. ")
    other = drive.ask("open", stem="exhaust", row=list(row))
    assert other["notes"][-1].startswith("The fault stayed on the drive. ")


def test_a_hidden_fault_is_not_given_away() -> None:
    for draw in range(6):
        drive, row = at("plover", fault="hidden", draw=draw)
        for stem, part in PARTS.items():
            told = drive.ask("open", stem=stem, row=list(row))
            assert set(told["values"]) <= set(part.takes)
            assert told["notes"][-1].startswith("What is wrong with the car stays hidden")


def test_a_part_that_a_card_has_not_is_no_door() -> None:
    bare: dict[str, Any] = {"power": None}
    drive = DriveBench(replace(CARDS["plover"], **bare))
    assert set(drive.about()["parts"]) == set(PARTS) - {"power"}
