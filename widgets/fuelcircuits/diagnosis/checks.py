"""Every check of a shop, the quickest first: what a practitioner reads, and where."""

import difflib
from collections.abc import Mapping
from types import MappingProxyType

from fuelcircuits.diagnosis.around_checks import AROUND_CHECKS
from fuelcircuits.diagnosis.bowl_checks import BOWL_CHECKS
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.cold_checks import COLD_CHECKS
from fuelcircuits.diagnosis.engine_checks import ENGINE_CHECKS
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["CHECKS", "EVERY", "OWN", "find", "fitting"]

CHECKS: tuple[Check, ...] = tuple(
    sorted((*ENGINE_CHECKS, *BOWL_CHECKS, *COLD_CHECKS), key=lambda check: check.minutes)
)
"""Every check of a carburettor, the quickest first."""

OWN: Mapping[str, Check] = MappingProxyType({check.name: check for check in CHECKS})
"""These by name."""
EVERY: Mapping[str, Check] = MappingProxyType(
    {**OWN, **{check.name: check for check in AROUND_CHECKS}}
)
"""These, and those around the carburettor."""


def find(name: str, known: Mapping[str, Check] = EVERY) -> Check:
    """Return the check of that name; raise `RangeError` naming the one most like it if none is."""
    if name not in known:
        plain = str(name).lower().replace(" ", "-").replace("_", "-")
        near = difflib.get_close_matches(plain, known, n=1, cutoff=0.6)
        rule = f"on the list (did you mean {near[0]}?)" if near else f"one of {', '.join(known)}"
        raise RangeError(f"check must be {rule}, got {name!r}")
    return known[name]


def fitting(rig: Rig, *, around: bool = False) -> tuple[Check, ...]:
    """Return the checks that a rig has the parts for; those around it too, if asked for."""
    return tuple(check for check in (EVERY.values() if around else CHECKS) if check.fits(rig))
