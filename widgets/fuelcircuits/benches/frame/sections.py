"""What a bench asks of a card."""

from fuelcircuits.errors import CardError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["with_sections"]


def with_sections(rig: Rig, *names: str) -> Rig:
    """Return the rig, which must have these sections.

    Raises
    ------
    CardError
        If one is missing.
    """
    for name in names:
        if getattr(rig, name) is None:
            raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
    return rig
