"""A bench in which something runs: Python computes the whole run at once, the browser plays it."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any, ClassVar

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.measure import SECONDS, Measure
from fuelcircuits.benches.frame.pixels import film
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["TimeBench"]


class TimeBench(Bench):
    """The base of every bench whose state is a run through time.

    `compute` returns a state with `times`; numbers, readings, gauges and dots may then be lists
    with one value for each time, the chart's x axis is time, and `moments` tell what happens
    when. The browser plays, pauses, steps and marks the time in the plot.

    A class sets `pace`, seconds of the run in a second of watching at ordinary speed, and
    `clock`, how its times are shown.
    """

    pace: ClassVar[float] = 1.0
    clock: ClassVar[Measure] = SECONDS

    def animate(self, path: str | Path, frames: int = 40, seconds: float = 8.0) -> Path:
        """Write the run as it stands as a moving picture, for handouts.

        Parameters
        ----------
        path
            A name in ``.gif``, or in ``.png`` for an animated PNG.
        frames
            Number of pictures, evenly spaced over the run.
        seconds
            How long one showing takes.

        Returns
        -------
        Path
            Where it went.

        Raises
        ------
        PictureError
            If the extra ``pictures`` is not installed.
        """
        return film(self._pictures(frames), Path(path), seconds)

    def _pictures(self, frames: int) -> Iterator[bytes]:
        """Yield the run's pictures one by one, and put the clock back at the end."""
        held, times = self.at, self.state().times or ()
        for time in linspace(times[0], times[-1], frames):
            self.at = time
            yield self.figure().png(zoom=1.0)
        self.at = held

    def _facts(self) -> dict[str, Any]:
        return {"pace": self.pace, "clock": self.clock.wire()}
