"""Sketches as an author names them in a block.

``sketch = "plate: plate_reach plate_angle"`` names a sketch of `fuelcircuits.drawings` and the
givens it is drawn with, in its order.
"""

from collections.abc import Collection

from fuelcircuits.drawings.sketches.kinds import SKETCHES, takes

from fuelmarks.questions.frame.sketch import Sketch
from fuelmarks.questions.frame.worded import BlockError

__all__ = ["sketch_from"]


def sketch_from(where: str, text: str, known: Collection[str]) -> Sketch | None:
    """Return the sketch that `text` names; None for no text.

    Raises
    ------
    BlockError
        For a sketch or a given that there is not, or too many givens or too few.
    """
    if not text:
        return None
    name, _, rest = (part.strip() for part in text.partition(":"))
    givens = tuple(rest.split())
    if name not in SKETCHES:
        raise BlockError(f"{where}: sketch must be one of {', '.join(SKETCHES)}, got {name!r}")
    wanted = takes(name)
    if len(givens) != len(wanted):
        rule = f"sketch {name} must have {len(wanted)} givens ({', '.join(wanted)})"
        raise BlockError(f"{where}: {rule}, got {len(givens)}")
    if strange := [one for one in givens if one not in known]:
        raise BlockError(f"{where}: sketch must be drawn with givens, got {strange[0]!r}")
    return Sketch(lambda _card, numbers: SKETCHES[name](*numbers), givens)
