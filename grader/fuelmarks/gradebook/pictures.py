"""Pictures in a trainee's notebook: which are shown, and where their data comes from.

Only pictures of a safe kind are shown, and only as data within the page: pasted into a cell, held
by its text, or lying beside the notebook under the name that the text says.
"""

import base64
import binascii
import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from fuelmarks.course.notebook import plain_text
from fuelmarks.course.whole_file import open_strangers

__all__ = ["KINDS", "Pictures", "picture_data", "pictures_in"]

KINDS = ("image/png", "image/jpeg", "image/gif")
ENDINGS: Mapping[str, str] = {
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".gif": "image/gif",
}
DATA = re.compile(r"data:image/(?:png|jpeg|gif);base64,[A-Za-z0-9+/=\s]*")
FILE = re.compile(r"(?:\./)?([^/\\:?#%]{1,200})")
LARGEST = 8 << 20
"""The longest picture that is shown, as text [characters]."""


@dataclass(frozen=True)
class Pictures:
    """The pictures of one cell: `attachments` pasted into it, `folder` what lies beside it."""

    attachments: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    folder: Path | None = None

    def shown(self, address: str) -> str | None:
        """Return the data of the picture at `address` as an address itself, or None."""
        address = address.strip()
        if address.lower().startswith("data:"):
            whole = len(address) <= LARGEST and DATA.fullmatch(address)
            return address if whole else None
        if address.startswith("attachment:"):
            return self._pasted(address.removeprefix("attachment:"))
        name = FILE.fullmatch(unquote(address))
        return _in_file(self.folder / name[1]) if name and self.folder else None

    def _pasted(self, name: str) -> str | None:
        """Return the data of a pasted picture."""
        held = self.attachments.get(name) or self.attachments.get(unquote(name)) or {}
        kept = ((kind, held[kind]) for kind in KINDS if kind in held)
        return next((f"data:{kind};base64,{data}" for kind, data in kept), None)


def picture_data(data: str) -> str:
    """Return `data` if it is base64 and nothing else, and not too long; else nothing."""
    if len(data) > LARGEST:
        return ""
    try:
        return base64.b64encode(base64.b64decode("".join(data.split()), validate=True)).decode()
    except (binascii.Error, ValueError):
        return ""


def pictures_in(attachments: Any) -> dict[str, dict[str, str]]:
    """Return the pictures among a cell's attachments, whatever those are."""
    found: dict[str, dict[str, str]] = {}
    for name, kinds in attachments.items() if isinstance(attachments, dict) else ():
        for kind, data in kinds.items() if isinstance(kinds, dict) else ():
            if kind in KINDS and isinstance(data, str) and (kept := picture_data(data)):
                found.setdefault(plain_text(str(name)), {})[kind] = kept
    return found


def _in_file(path: Path) -> str | None:
    """Return the picture in a plain file beside the notebook, or None."""
    kind = ENDINGS.get(path.suffix.lower())
    if kind is None:
        return None
    try:
        handle = open_strangers(path)
        with os.fdopen(handle, "rb") as file:
            raw = file.read(LARGEST)
    except OSError:
        return None
    return f"data:{kind};base64,{base64.b64encode(raw).decode()}"
