"""Benches: one simulator a circuit, to be played with beside the text.

``open_bench("float_bowl", rig)`` makes one by its stem; `BENCHES` lists them all.
"""

import importlib
from collections.abc import Mapping
from typing import Any

from fuelcircuits.benches.bench import Bench
from fuelcircuits.benches.float_bowl import FloatBench
from fuelcircuits.benches.time_bench import TimeBench

__all__ = ["BENCHES", "Bench", "FloatBench", "TimeBench", "bench_class", "open_bench"]

BENCHES: Mapping[str, str] = {
    "gauges": "gauges:GaugeBench",
    "air_path": "air_path:AirPathBench",
    "float_bowl": "float_bowl:FloatBench",
    "vents": "vents:VentsBench",
    "hot_soak": "hot_soak:HotSoakBench",
    "low_speed": "low_speed:LowSpeedBench",
    "idle_port": "idle_port:IdlePortBench",
    "high_speed": "high_speed:HighSpeedBench",
    "power": "power:PowerBench",
    "pump": "pump:PumpBench",
    "choke": "choke:ChokeBench",
    "cold_start": "cold_start:ColdStartBench",
    "exhaust": "exhaust:ExhaustBench",
    "setting_up": "setting_up:SettingBench",
    "faults": "faults:FaultBench",
}
"""Stem of each bench to ``module:Class``, in the order of the units; append your line."""


def bench_class(stem: str) -> type[Bench]:
    """Return the class of a bench, imported now; raise `KeyError` for a stem not listed."""
    module, name = BENCHES[stem].split(":")
    found: type[Bench] = getattr(importlib.import_module(f"{__name__}.{module}"), name)
    return found


def open_bench(stem: str, rig: Any = None) -> Bench:
    """Return the bench of this stem on `rig`, which a bench that needs none leaves aside."""
    made: Any = bench_class(stem)
    return made(rig) if made.needs_rig else made()  # type: ignore[no-any-return]
