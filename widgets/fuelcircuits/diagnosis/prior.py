"""How likely each suspect is before anything has been read."""

from collections.abc import Sequence

from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.faults import AROUND

__all__ = ["AROUND_SHARE", "prior"]

AROUND_SHARE = 0.5
"""Share of what is wrong that lies around the carburettor, where such causes are among the
suspects [1]; common practice, no source."""


def prior(suspects: Sequence[str], healthy: float, around: float = AROUND_SHARE) -> list[float]:
    """Return how likely each suspect is beforehand [1]; all together 1.

    Causes around the carburettor are one group, so that a longer list of them does not make any
    fault of the carburettor less likely.

    Parameters
    ----------
    suspects
        Their names.
    healthy
        How likely it is that nothing is wrong, where that is a suspect among others [1].
    around
        How much of the rest the causes around the carburettor share evenly, where both kinds are
        among the suspects [1].
    """
    if HEALTHY in suspects and len(suspects) > 1:
        others = [name for name in suspects if name != HEALTHY]
        share = iter(prior(others, healthy, around))
        return [healthy if name == HEALTHY else (1.0 - healthy) * next(share) for name in suspects]
    outer = sum(name in AROUND for name in suspects)
    inner = len(suspects) - outer
    if not outer or not inner:
        return [1.0 / len(suspects) for _ in suspects]
    return [around / outer if name in AROUND else (1.0 - around) / inner for name in suspects]
