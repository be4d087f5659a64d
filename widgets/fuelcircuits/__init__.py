"""How a two-barrel carburettor meters fuel: physics, simulators and answer sheets.

What a notebook needs is found here by name, and loaded when it is first asked for.
"""

import importlib
from typing import Any

_HOMES = {
    "answer_sheet.sheet": ("begin", "hand_over"),
    "benches.drive.bench": ("DriveBench",),
    "benches.drive.judging": ("judged",),
    "benches.drive.trace": ("drive",),
    "benches.frame.pair": ("side_by_side",),
    "cards": ("read_rig",),
    "drawings.atlas": ("Atlas",),
    "diagnosis.car": ("Car",),
    "diagnosis.checks": ("find", "fitting"),
    "diagnosis.shown": ("taken",),
    "own_car.example": ("example_car",),
    "own_car.fitting": ("fit",),
    "own_car.leeway": ("with_entries",),
    "own_car.outlook": ("what_if",),
    "own_car.own_car": ("OwnCar",),
    "own_car.report": ("diagnose",),
    "physics.matter.atmosphere": ("Weather",),
    "physics.matter.fuel": ("Fuel",),
    "physics.network.rig": ("Rig",),
    "quantities.units": ("Q",),
    **{
        f"benches.{stem}.bench": ("".join(map(str.capitalize, stem.split("_"))) + "Bench",)
        for stem in (
            "air_path",
            "around",
            "bowl_vents",
            "choke",
            "cold_start",
            "diagnosis",
            "exhaust",
            "float_bowl",
            "gauges",
            "high_speed",
            "hot_soak",
            "low_speed",
            "off_idle",
            "power",
            "pump",
            "setting_up",
        )
    },
}
_HOME = {name: home for home, names in _HOMES.items() for name in names}

__all__ = sorted(_HOME)  # noqa: PLE0605


def __getattr__(name: str) -> Any:
    """Return one of the public names, its module imported now."""
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)


def __dir__() -> list[str]:
    """Return the public names."""
    return __all__
