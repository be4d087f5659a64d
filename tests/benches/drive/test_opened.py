"""A part's bench, opened at a moment of a drive, shows what the drive showed.

What the steady bench cannot show is listed here by part, and said to whoever opens it. Fuel in the
bowl of a warm car is at 40 °C, that of the benches at 25 °C, so lambda agrees within 2.5 %.
"""

from dataclasses import fields, replace
from typing import Any

import pytest
from fuelcircuits.benches import bench_class, open_bench
from fuelcircuits.benches.air_path import found as air_path
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
from fuelcircuits.faults import FAULTS, fitting

from tests.benches.drive.outings import CARDS

LEFT = {
    "air_path": {"cleaner_blocked"},
    "float_bowl": {"ethanol"},
    "bowl_vents": {
        "cleaner_blocked",
        "inside_blocked",
        "outside_setting",
        "outside_hang",
        "solenoid_pull",
        "canister_suction",
        "gasket_leak",
    },
    "pump": {"opened", "duration"},
    "choke": {"turned"},
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
    part, controls = PARTS[stem], set(bench_class(stem).controls())
    assert controls - {*part.takes, *part.sizes} == LEFT.get(stem, set())
    assert {*part.takes, *part.sizes} <= controls
    section = getattr(CARDS["plover"], part.section)
    assert set(part.sizes.values()) <= {each.name for each in fields(section)}


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


def test_altitude_comes_along_where_the_bench_has_it() -> None:
    drive, row = at("plover", **CRUISE, altitude=2000.0)
    nozzle, path = put(drive, "high_speed", row), put(drive, "air_path", row)
    assert nozzle.altitude == path.altitude == 2000.0
    lean = high_speed.point(nozzle.card, nozzle.values())
    assert lean.mixture == pytest.approx(row.mixture, rel=0.03)


def test_a_control_that_cannot_follow_says_so_in_the_units_shown() -> None:
    drive, row = at("plover")
    told = drive.ask("open", stem="power", row=list(row))
    assert told["values"]["speed"] == 125
    words = "Engine speed was 700 rpm, and stands at the bench's lowest, 1194 rpm."
    assert told["notes"][0] == words
    cold = at("plover", engine="cold", outside=253.15)
    pump = {"stem": "pump", "row": list(cold[1]._replace(coolant=250.0))}
    assert "Coolant was -23 °C" in " ".join(cold[0].ask("open", **pump)["notes"])
    assert "Coolant was -10 °F" in " ".join(cold[0].ask("open", **pump, system="US")["notes"])


def test_a_control_that_follows_says_nothing() -> None:
    drive, row = at("plover", **CRUISE)
    told = drive.ask("open", stem="power", row=list(row))
    assert told["notes"] == [PARTS["power"].leaves]


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
    assert told["notes"][-1].startswith("The fault came along: ")
    other = drive.ask("open", stem="exhaust", row=list(row))
    assert other["notes"][-1].startswith("The fault stayed on the drive: ")


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
