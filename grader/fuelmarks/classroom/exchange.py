"""nbgrader's exchange gives everybody the same notebook, so here it hands none out.

The questions of a unit have other numbers for everyone. Whoever works with the released notebook
works with the specimen's numbers, and right answers would earn nothing.
"""

from nbgrader.exchange import ExchangeError
from nbgrader.exchange.default import ExchangeFetchAssignment, ExchangeReleaseAssignment

__all__ = ["NoFetch", "NoRelease"]

WHY = (
    "assignment must be handed out by `fuelmarks hand-out {unit}`, which gives each trainee "
    "numbers of his own, got nbgrader's {step}, which gives all of them the same; "
    "nothing was {done}"
)


class NoRelease(ExchangeReleaseAssignment):  # type: ignore[misc]
    """In the place of nbgrader's release: says what to do instead, and releases nothing."""

    def start(self) -> None:
        """Refuse."""
        why = WHY.format(unit=self.coursedir.assignment_id, step="release", done="released")
        self.log.error(why)
        raise ExchangeError(why)


class NoFetch(ExchangeFetchAssignment):  # type: ignore[misc]
    """In the place of nbgrader's fetch, for what may lie in the exchange from earlier."""

    def start(self) -> None:
        """Refuse."""
        why = WHY.format(unit=self.coursedir.assignment_id, step="fetch", done="fetched")
        self.log.error(why)
        raise ExchangeError(why)
