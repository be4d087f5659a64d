"""What would have to be otherwise on a card for a healthy car to show what was read."""

from fuelcircuits.diagnosis.ranking import Weighed
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.doubtful import Correction, Search, least
from fuelcircuits.own_car.healthy import Healthy

__all__ = ["corrections"]


def corrections(card: Healthy, weighed: Weighed) -> list[Correction]:
    """Return the least changes of a card after which a healthy car shows what was read.

    One entry where one will do, else two; what all entries may be off by the way is allowed for.

    Parameters
    ----------
    card
        The card of the healthy car.
    weighed
        What was read, weighed; "nothing wrong" must be among the suspects.

    Returns
    -------
    list of Correction
        The smallest first, at most three; none if nothing need change, or nothing would help.
    """
    if not weighed.columns or weighed.explains(HEALTHY):
        return []
    at = weighed.table.suspects.index(HEALTHY)
    checks = [weighed.table.checks[column] for column in weighed.columns]
    row = weighed.table.rows(HEALTHY)[0]
    unit = [weighed.unit[column] for column in weighed.columns]
    now = [row[column] / by for column, by in zip(weighed.columns, unit, strict=True)]
    off = weighed.off[at][0]
    return least(
        Search(
            home=card.warmed,
            entered=card.free,
            free=card.settled_dials,
            checks=checks,
            unit=unit,
            aim=[one + by for one, by in zip(now, off, strict=True)],
            now=now,
            inverse=weighed.inverse[at][0],
            slope=[
                [one / by for one in row] for row, by in zip(card.slope(checks), unit, strict=True)
            ],
        )
    )
