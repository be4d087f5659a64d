"""Benches: one simulator a circuit, to be played with beside the text.

``open_bench("float_bowl", rig)`` makes one by its stem; `BENCHES` lists them all. The bench of
stem ``float_bowl`` is `FloatBowlBench` in ``benches/float_bowl/bench.py``, and so is every other.
"""

import importlib
import re
from typing import Any

from fuelcircuits.benches.frame.bench import Bench

__all__ = ["BENCHES", "Bench", "bench_class", "class_name", "open_bench", "stems_in"]

BENCHES: tuple[str, ...] = (
    "gauges",
    "air_path",
    "float_bowl",
    "bowl_vents",
    "hot_soak",
    "low_speed",
    "off_idle",
    "high_speed",
    "power",
    "pump",
    "choke",
    "cold_start",
    "exhaust",
    "setting_up",
    "diagnosis",
    "around",
)
"""Stem of each bench, in the order of the units; append your line."""

IMPORTED = re.compile(r"^from fuelcircuits import (\w+Bench)$", flags=re.M)


def class_name(stem: str) -> str:
    """Return the name of a bench's class: `FloatBowlBench` for ``float_bowl``."""
    return "".join(word.capitalize() for word in stem.split("_")) + "Bench"


def bench_class(stem: str) -> type[Bench]:
    """Return the class of a bench, imported now; raise `KeyError` for a stem not listed."""
    if stem not in BENCHES:
        raise KeyError(stem)
    module = importlib.import_module(f"{__name__}.{stem}.bench")
    found: type[Bench] = getattr(module, class_name(stem))
    return found


def stems_in(source: str) -> list[str]:
    """Return the stems of the benches that the code or text `source` imports, in its order."""
    stems = {class_name(stem): stem for stem in BENCHES}
    return [stems[name] for name in IMPORTED.findall(source) if name in stems]


def open_bench(stem: str, rig: Any = None) -> Bench:
    """Return the bench of this stem on `rig`, which a bench that needs none leaves aside."""
    made: Any = bench_class(stem)
    return made(rig) if made.needs_rig else made()  # type: ignore[no-any-return]
