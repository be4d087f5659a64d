"""A button that acts only when everything written before it was pressed has arrived.

The fields of a form send each letter as it is typed, and hold letters back while Python is busy
with earlier ones. A button's own message would overtake those: a name typed quickly would be
taken for its first letter. So a press goes to Python and back once before it counts: by then
each field has heard that its earlier letters were taken, and has sent the rest.
"""

from collections.abc import Callable
from typing import Any

import anywidget
import traitlets

__all__ = ["Press"]


class Press(anywidget.AnyWidget):
    """A button with `description`; `primary` marks the one that a form is there for.

    Parameters
    ----------
    act
        Called without anything for each press, once all that was written before has arrived.
    """

    _esm = """
    export default {
      render({ model, el }) {
        const button = el.appendChild(document.createElement("button"));
        button.className = "jupyter-button widget-button";
        button.classList.toggle("mod-primary", model.get("primary"));
        button.style.width = "auto";
        button.textContent = model.get("description");
        button.addEventListener("click", () => model.send("pressed"));
        const answer = (heard) => heard === "heard" && model.send("all sent");
        model.on("msg:custom", answer);
        return () => model.off("msg:custom", answer);
      },
    };
    """
    description = traitlets.Unicode().tag(sync=True)
    primary = traitlets.Bool().tag(sync=True)

    def __init__(self, act: Callable[[], None], **traits: Any) -> None:
        super().__init__(**traits)
        self._act, self._waiting = act, False
        self.on_msg(self._heard)

    def click(self) -> None:
        """Act, as a press does."""
        self._act()

    def _heard(self, _widget: Any, said: Any, _buffers: Any) -> None:
        """Answer a press; act on the first word that all is sent, whoever shows the button."""
        if said == "pressed":
            self._waiting = True
            self.send("heard")
        elif said == "all sent" and self._waiting:
            self._waiting = False
            self._act()
