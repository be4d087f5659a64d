"""What a driver notices of faulty vents: at the start after a hot stop, and on the road.

What each fault does is common practice, no source; the bounds are judged. Both rigs are asked,
each for the faults that its kind of vents can have.
"""

from functools import cache

import pytest
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.drive import drive
from fuelcircuits.physics.motion.moving import Controls, Motion
from fuelcircuits.physics.motion.pedal import Leg
from fuelcircuits.physics.motion.restart import restart
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.motion.start import Start, begun

from tests.physics.motion.journeys import DAY, RPM
from tests.physics.motion.test_complaints import with_fault

HEALTHY = ""
LONGEST = 8.0  # s on the starter


@cache
def restarted(name: str, fault: str) -> list[Motion]:
    """Return a quarter of an hour's soak, a start with the pedal a little down, and the idle."""
    whole, key = with_fault(name, fault), Controls(0.05, starter=True)
    soak = soak_run(whole.rig, whole.weather, Fuel(), [0.0, 900.0])
    begin = begun(whole, Start.after(whole.rig, soak))
    legs = [Leg(LONGEST, key, 0.05), Leg(3.0, Controls(), 0.1), Leg(9.0, Controls(), 0.25)]
    return drive(whole, begin, legs, key)


def cranked_for(name: str, fault: str) -> float:
    """Return how long the starter turns before most cycles fire for good [s]."""
    wet = [now.time for now in restarted(name, fault) if now.burning.fires < 0.5]
    return min(max(wet), LONGEST)


@cache
def settled(name: str, fault: str, pedal: float, rpm: float) -> float:
    """Return lambda after long at one pedal and speed, warm."""
    whole = with_fault(name, fault)
    begin = begun(whole, Start.warm(whole.rig, DAY), Controls(pedal, rpm * RPM))
    return begin.burning.mixture


@pytest.mark.parametrize(
    ("name", "fault", "longer"),
    [
        ("plover", "outside-vent-stuck-shut", 0.7),
        ("plover", "heat-insulator-missing", 0.4),
        ("dunlin", "vent-solenoid-stuck", 1.5),
        ("dunlin", "heat-insulator-missing", 0.4),
        ("dunlin", "inside-vent-blocked", 4.0),
    ],
)
def test_it_takes_longer_to_start_hot(name: str, fault: str, longer: float) -> None:
    assert cranked_for(name, HEALTHY) < 5.0
    assert cranked_for(name, fault) > cranked_for(name, HEALTHY) + longer


@pytest.mark.parametrize(
    ("name", "fault"),
    [
        ("plover", HEALTHY),
        ("plover", "outside-vent-stuck-shut"),
        ("plover", "heat-insulator-missing"),
        ("dunlin", HEALTHY),
        ("dunlin", "vent-solenoid-stuck"),
        ("dunlin", "heat-insulator-missing"),
    ],
)
def test_a_foot_on_the_pedal_starts_it_a_little_sooner_than_the_closed_form_says(
    name: str, fault: str
) -> None:
    """More air and less idle fuel than with the pedal left alone."""
    whole = with_fault(name, fault)
    soak = soak_run(whole.rig, whole.weather, Fuel(), [0.0, 900.0])
    told = restart(whole.rig, whole.weather, Fuel(), soak).cranking[-1]
    assert told - 1.5 < cranked_for(name, fault) < told


@pytest.mark.parametrize(
    ("name", "fault", "pedal", "rpm", "richer"),
    [
        ("plover", "outside-vent-stuck-open", 0.3, 2500, 0.010),
        ("plover", "outside-vent-set-wide", 0.1, 1500, 0.015),
        ("plover", "cover-gasket-leak", 0.3, 2500, 0.010),
        ("dunlin", "cover-gasket-leak", 0.1, 1500, 0.003),
        ("dunlin", "vent-solenoid-dead", 0.3, 2500, 0.010),
    ],
)
def test_a_bowl_that_no_longer_feels_the_horn_is_richer_on_the_road(
    name: str, fault: str, pedal: float, rpm: float, richer: float
) -> None:
    healthy = settled(name, HEALTHY, pedal, rpm)
    assert healthy - 0.06 < settled(name, fault, pedal, rpm) < healthy - richer


def test_a_blocked_purge_leaves_the_bed_full_and_takes_the_idle_its_air() -> None:
    sound, blocked = (restarted("dunlin", each) for each in (HEALTHY, "canister-purge-blocked"))
    assert sound[-1].load < sound[0].load - 1e-4
    assert blocked[-1].load == pytest.approx(blocked[0].load, rel=1e-3)
    assert blocked[-1].speed < sound[-1].speed - 5 * RPM


def test_a_torn_path_for_heat_or_vapour_is_over_once_the_intake_is_drawn_out() -> None:
    """Idle after the soak: what stood in the intake is gone within some ten seconds."""
    for fault in (HEALTHY, "vent-solenoid-stuck", "heat-insulator-missing"):
        assert restarted("dunlin", fault)[-1].burning.mixture > 0.85
