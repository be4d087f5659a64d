"""Cold-start enrichment: truth table of timer, switch, vacuum (common practice, no source)."""

from dataclasses import replace

import pytest
from fuelcircuits.physics.circuits.cold_start import ColdStart, egr_allowed, idle_air_open

SYSTEM = ColdStart()
COLD, WARM = 273.15, 350.0


@pytest.mark.parametrize(
    ("coolant", "time", "cranking", "share"),
    [
        (COLD, -1.0, False, 1.0),  # ignition on, not yet cranked
        (COLD, -1.0, True, 0.0),
        (COLD, 0.0, False, 0.0),
        (COLD, 34.9, False, 0.0),
        (COLD, 35.1, False, 1.0),
        (WARM, -1.0, True, 1.0),
        (WARM, 10.0, False, 1.0),
        (SYSTEM.switch_point, 10.0, False, 0.5),
    ],
)
def test_the_idle_air_is_shut_only_when_cold_and_timed(
    coolant: float, time: float, cranking: bool, share: float
) -> None:
    assert idle_air_open(SYSTEM, coolant, time, cranking) == pytest.approx(share)


@pytest.mark.parametrize(("vacuum", "share"), [(0.0, 1.0), (5e3, 0.5), (50e3, 0.0)])
def test_it_is_the_manifold_vacuum_that_shuts_the_passage(vacuum: float, share: float) -> None:
    assert idle_air_open(SYSTEM, COLD, 5.0, vacuum=vacuum) == pytest.approx(share)


@pytest.mark.parametrize(
    ("change", "coolant", "time", "share"),
    [
        ({"timer": 0.0}, COLD, 5.0, 1.0),  # timer dead
        ({"timer": 600.0}, COLD, 300.0, 0.0),  # timer never lets go
        ({"solenoid_pull": 0.0}, COLD, 5.0, 1.0),
        ({"switch_point": 350.0}, 320.0, 5.0, 0.0),  # coolant switch reads cold
        ({"stuck_shut": 1.0}, WARM, 500.0, 0.0),
    ],
)
def test_a_failed_part_shows_as_the_wrong_share(
    change: dict[str, float], coolant: float, time: float, share: float
) -> None:
    assert idle_air_open(replace(SYSTEM, **change), coolant, time) == pytest.approx(share)


def test_exhaust_gas_waits_for_the_same_35_seconds() -> None:
    allowed = [egr_allowed(SYSTEM, time) for time in (-1.0, 0.0, 34.9, 35.0, 600.0)]
    assert allowed == [True, False, False, True, True]
    assert not egr_allowed(SYSTEM, -1.0, cranking=True)
