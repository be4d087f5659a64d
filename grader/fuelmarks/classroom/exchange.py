"""nbgrader's own buttons, on the instructor's side of the exchange: to each his own, or nothing.

On a class server this is what nbgrader's and formgrader's own buttons do. Anywhere else there is
no exchange, and they refuse: nbgrader's own release gives everybody the specimen's numbers, with
which right answers would earn nothing.
"""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from nbgrader.exchange import abc

from fuelmarks.classroom.collected import collection_table
from fuelmarks.classroom.own_exchange import ADDRESS
from fuelmarks.classroom.sending import Said, StaffLink, collect_sent, release, send_feedback
from fuelmarks.course.course import Course

__all__ = ["Collect", "List", "NoFetch", "Release", "ReleaseFeedback"]

WHY = (
    "assignment must be handed out by `fuelmarks hand-out {unit}`, which gives each trainee "
    "numbers of his own, got nbgrader's {step}, which gives all of them the same; "
    "nothing was {done}"
)


class _Shared:
    """What the classes share: the course, and a place where the exchange does not look."""

    coursedir: Any
    log: Any
    step, done = "", ""

    def init_src(self) -> None:
        """Refuse where there is no exchange."""
        self.unit = str(self.coursedir.assignment_id)
        if not os.environ.get(ADDRESS):
            self.refuse()
        self.course = Course.at(Path(self.coursedir.root))

    def init_dest(self) -> None:
        """Ask nothing of the file system."""

    def refuse(self) -> None:
        """Say what to do instead."""
        why = WHY.format(unit=self.unit, step=self.step, done=self.done)
        self.log.error(why)
        raise abc.ExchangeError(why)

    def tell(self, said: Iterator[Said]) -> None:
        """Log what became of each; fail if something was refused."""
        told = list(said)
        for who, why in told:
            (self.log.error if why else self.log.info)("%s: %s", who, why or "sent")
        if refused := [who for who, why in told if why]:
            raise abc.ExchangeError(f"all must be sent, got a refusal for {', '.join(refused)}")


class Release(_Shared, abc.ExchangeReleaseAssignment):  # type: ignore[misc]
    """In the place of nbgrader's release: to each his own, or nothing."""

    step, done = "release", "released"

    def copy_files(self) -> None:
        """Release."""
        self.tell(release(self.course, self.unit))


class NoFetch(_Shared, abc.ExchangeFetchAssignment):  # type: ignore[misc]
    """In the place of nbgrader's fetch: an instructor fetches nothing."""

    step, done = "fetch", "fetched"

    def init_src(self) -> None:
        """Refuse."""
        self.unit = str(self.coursedir.assignment_id)
        self.refuse()


class Collect(_Shared, abc.ExchangeCollect):  # type: ignore[misc]
    """In the place of nbgrader's collect: `fuelmarks collect`, from the class server."""

    step, done = "collect", "collected"

    def copy_files(self) -> None:
        """Collect."""
        found = collect_sent(self.course, self.unit)
        self.log.info("%s", collection_table(found) if found.rows else "nothing was handed in")


class ReleaseFeedback(_Shared, abc.ExchangeReleaseFeedback):  # type: ignore[misc]
    """In the place of nbgrader's release of feedback: the pages of `fuelmarks report`."""

    step, done = "release of feedback", "released"

    def copy_files(self) -> None:
        """Send the pages."""
        self.tell(send_feedback(self.course, self.unit))


class List(abc.ExchangeList):  # type: ignore[misc]
    """What has been released on the class server; elsewhere nothing has."""

    def init_src(self) -> None:
        """Ask nothing of the file system."""

    def init_dest(self) -> None:
        """Ask nothing of the file system."""

    def copy_files(self) -> None:
        """Copy nothing."""

    def list_files(self) -> list[dict[str, Any]]:
        """Return the units that were released."""
        if not os.environ.get(ADDRESS) or self.inbound or self.cached:
            return []
        units = StaffLink().ask("GET", "units")["units"]
        about = {"course_id": self.coursedir.course_id, "status": "released", "notebooks": []}
        return [{**about, "assignment_id": one["unit"], "path": one["unit"]} for one in units]
