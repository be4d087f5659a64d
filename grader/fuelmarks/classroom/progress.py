"""A progress bar on a terminal; on anything else a line now and then."""

import shutil
import sys
from typing import TextIO

__all__ = ["Progress"]

WIDTH = 28


class Progress:
    """Counts steps towards a total and shows how far they are."""

    def __init__(self, what: str, total: int, stream: TextIO | None = None) -> None:
        self.what, self.total, self.count = what, total, 0
        self._stream = stream or sys.stderr
        self._live = self._stream.isatty()

    def step(self, name: str) -> None:
        """Count one step, just done for `name`."""
        self.count += 1
        tenth = max(1, self.total // 10)
        if self._live:
            self._show(name)
        elif self.count % tenth == 0 or self.count == self.total:
            print(f"{self.what} {self.count}/{self.total}", file=self._stream, flush=True)

    def say(self, line: str) -> None:
        """Print `line` above the bar."""
        self._wipe()
        print(line, file=self._stream, flush=True)
        if self._live:
            self._show("")

    def close(self) -> None:
        """Take the bar away."""
        self._wipe()

    def _show(self, name: str) -> None:
        full = WIDTH * self.count // max(1, self.total)
        bar = "█" * full + "·" * (WIDTH - full)
        line = f"{self.what} {bar} {self.count}/{self.total} {name}"
        room = shutil.get_terminal_size().columns - 1
        print(f"\r\x1b[K{line[:room]}", end="", file=self._stream, flush=True)

    def _wipe(self) -> None:
        if self._live:
            print("\r\x1b[K", end="", file=self._stream, flush=True)
