"""As whose a file was delivered: which trainees its name and its folders name, if any.

Only ever held against what the notebook says itself; a file without a name is as good.
"""

import re
import unicodedata
from collections.abc import Iterable

from fuelmarks.course.course import Trainee

__all__ = ["delivered_as"]


def delivered_as(parts: Iterable[str], unit: str, everyone: Iterable[Trainee]) -> set[str]:
    """Return the trainees whom the name of a file, or else the nearest folder, names."""
    known = list(everyone)
    for part in reversed(list(parts)):
        words = part.lower().replace(unit, " ")
        if found := {one.id for one in known if _names(words, one)}:
            return found
    return set()


def _names(words: str, trainee: Trainee) -> bool:
    """Return whether `words` begin or end with the trainee's id, or hold the whole name."""
    own = re.escape(trainee.id.lower())
    stem = re.sub(r"\.[a-z]{1,6}$", "", words).strip(" _-.")
    bounded = rf"{own}(?![a-z0-9]).*|.*(?<![a-z0-9]){own}"
    if re.fullmatch(own if trainee.id.isdecimal() else bounded, stem):
        return True
    name = _letters(trainee.name) if trainee.first_name and trainee.last_name else set()
    return bool(name) and name <= _letters(words)


def _letters(text: str) -> set[str]:
    """Return the words of `text` in plain small letters."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return set(re.findall(r"[^\W_]+", "".join(c for c in plain if not unicodedata.combining(c))))
