"""The interpreter a notebook runs in: IPython's own, without terminal, history or drawing.

The meaning of a cell is IPython's (top-level ``await``, magics, ``_``, display of the last
expression). Only where the results go is ours: plain text into a buffer that stops growing, and
the answer records of `display` into a list.
"""

import io
import sys
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from IPython.core.displayhook import DisplayHook
from IPython.core.displaypub import DisplayPublisher
from IPython.core.interactiveshell import InteractiveShell
from traitlets import Type
from traitlets.config import Config

from fuelmarks.runner.protocol import ANSWER_MIME

__all__ = ["Printout", "Shell", "new_shell"]


class Printout(io.TextIOBase):
    """A text file that keeps the first `most` characters and counts on no one reading it."""

    def __init__(self, most: int) -> None:
        super().__init__()
        self._parts: list[str] = []
        self._room = most

    def write(self, text: str) -> int:
        """Keep what fits of `text`."""
        if self._room > 0:
            self._parts.append(text[: self._room])
            self._room -= len(text)
        return len(text)

    def writable(self) -> bool:
        """Say that one may write here."""
        return True

    @property
    def encoding(self) -> str:  # type: ignore[override]
        """The name that programs ask standard output for."""
        return "utf-8"

    def kept(self) -> str:
        """Return what was kept, with a mark where it was cut."""
        return "".join(self._parts) + ("\n[cut]" if self._room < 0 else "")


class _Publisher(DisplayPublisher):
    def publish(self, data: dict[str, Any], *_: Any, **__: Any) -> None:
        """Keep an answer record; print the plain text of anything else."""
        if ANSWER_MIME in data:
            self.shell.records.append(data[ANSWER_MIME])
        if "text/plain" in data:
            print(data["text/plain"])

    def clear_output(self, wait: bool = False) -> None:
        """Do nothing: what was printed stays."""


class _Hook(DisplayHook):
    def write_output_prompt(self) -> None:
        """Print no prompt."""

    def write_format_data(self, format_dict: dict[str, Any], md_dict: Any = None) -> None:
        """Print the plain text of a cell's last expression."""
        if "text/plain" in format_dict:
            print(format_dict["text/plain"])


class Shell(InteractiveShell):
    """IPython without a screen."""

    display_pub_class = Type(_Publisher)
    displayhook_class = Type(_Hook)

    def __init__(self, **kwargs: Any) -> None:
        self.records: list[Any] = []
        super().__init__(**kwargs)  # type: ignore[no-untyped-call]

    def enable_gui(self, gui: Any = None) -> None:
        """Have no event loop of a window system."""

    def enable_matplotlib(self, gui: Any = None) -> tuple[str, str]:
        """Stay with the backend that draws nothing on a screen."""
        return "agg", "agg"

    def ask_exit(self) -> None:
        """Let ``exit`` end nothing."""

    @contextmanager
    def _tee(self, channel: str) -> Iterator[None]:
        """Keep no second copy of what is printed: IPython's own has no limit."""
        yield

    def showtraceback(self, *_: Any, **__: Any) -> None:
        """Leave errors to the reply."""

    def showsyntaxerror(self, *_: Any, **__: Any) -> None:
        """Leave errors to the reply."""

    def showindentationerror(self) -> None:
        """Leave errors to the reply."""


def new_shell() -> Shell:
    """Return the one shell of this process, ready to run a cell."""
    config = Config()
    config.DisplayFormatter.active_types = ["text/plain"]
    config.MimeBundleFormatter.enabled = False
    config.HistoryManager.enabled = False
    config.InteractiveShell.colors = "nocolor"
    config.InteractiveShell.xmode = "Minimal"
    shell = Shell.instance(config=config)
    shell.events.register("post_execute", _close_figures)
    warnings.filterwarnings("ignore", message=".*non-interactive, and thus cannot be shown")
    return shell


def _close_figures() -> None:
    pyplot = sys.modules.get("matplotlib.pyplot")
    if pyplot is not None:
        for number in pyplot.get_fignums():
            print(repr(pyplot.figure(number)))
        pyplot.close("all")
