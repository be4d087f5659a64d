"""A button that takes along what the fields of its form hold at the moment it is pressed.

The fields send each letter as it is typed, hold letters back while Python is busy with earlier
ones, and may be heard in another thread than the button. So a press must not rely on what has
arrived before it: a name typed quickly would be taken for its first letters.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import anywidget
import ipywidgets
import traitlets

__all__ = ["Press"]


class Press(anywidget.AnyWidget):
    """A button with `description`; `primary` marks the one that a form is there for.

    Parameters
    ----------
    act
        Called for each press with what `fields` held, in their order.
    fields
        What is filled in: widgets with a value, or lists to choose from.
    """

    _esm = """
    export default {
      render({ model, el }) {
        const found = (name) => model.widget_manager.get_model(name.replace("IPY_MODEL_", ""));
        const fields = Promise.all(model.get("fields").map(found));
        const button = el.appendChild(document.createElement("button"));
        button.className = "jupyter-button widget-button";
        button.classList.toggle("mod-primary", model.get("primary"));
        button.style.width = "auto";
        button.textContent = model.get("description");
        button.addEventListener("click", async () => {
          const parts = model.get("parts");
          const told = (one, at) => one.serialize({ [parts[at]]: one.get(parts[at]) });
          model.send({ held: (await fields).map(told) });
        });
      },
    };
    """
    description = traitlets.Unicode().tag(sync=True)
    primary = traitlets.Bool().tag(sync=True)
    fields: Any = traitlets.List().tag(sync=True, **ipywidgets.widget_serialization)
    parts: Any = traitlets.List().tag(sync=True)
    """What of each field is filled in."""

    def __init__(
        self, act: Callable[[list[Any]], None], fields: Sequence[Any] = (), **traits: Any
    ) -> None:
        super().__init__(fields=list(fields), parts=[_part(one) for one in fields], **traits)
        self._act = act
        self.on_msg(self._heard)

    def click(self) -> None:
        """Act, as a press does."""
        self._act([one.value for one in self.fields])

    def _heard(self, _widget: Any, said: Mapping[str, Any], _buffers: Any) -> None:
        """Have the fields hold what they held when the button was pressed, and act on that."""
        held = said["held"]
        for field, state in zip(self.fields, held, strict=True):
            field.set_state(dict(state))
        self._act([_value(*one) for one in zip(self.fields, self.parts, held, strict=True)])


def _part(field: Any) -> str:
    """Return the name under which the browser knows what is filled in."""
    return "index" if isinstance(field, ipywidgets.Dropdown) else "value"


def _value(field: Any, part: str, state: Mapping[str, Any]) -> Any:
    """Return what the browser told as the value that Python knows."""
    if part == "index":
        return field.options[state[part]][1]
    read = field.trait_metadata("value", "from_json")
    return read(state[part], field) if read else state[part]
