"""Verdicts and shares of the points, as people say them."""

__all__ = ["LEVELS", "SHORT", "WORDS", "level", "short", "words"]

LEVELS = ((0.8, "can do"), (0.5, "nearly"), (0.0, "not yet"))
"""From which share of the points an outcome counts as met: common practice, no source."""
WORDS = {
    "right": "right",
    "follow-through": "right, carried on from an earlier slip",
    "wrong-dimension": "wrong kind of quantity",
    "no-unit": "no unit",
    "not-a-number": "not a number",
    "not-a-name": "not a name from the list",
    "not-a-setting": "not settings of the bench",
    "implausible": "far out of range",
    "wrong": "wrong",
    "blank": "left blank",
    "missing": "nothing handed over",
    "void": "counts for nobody",
    "to be marked": "to be marked by hand",
    "marked by hand": "marked by hand",
}
SHORT = {
    "right": "right",
    "follow-through": "carr.",
    "wrong-dimension": "kind",
    "no-unit": "unit?",
    "not-a-number": "num?",
    "not-a-name": "name?",
    "not-a-setting": "set?",
    "implausible": "far",
    "wrong": "wrong",
    "blank": "blank",
    "missing": "none",
    "void": "void",
    "to be marked": "hand",
    "marked by hand": "hand",
}


def words(verdict: str) -> str:
    """Return a verdict as one says it."""
    sort, _, name = verdict.partition(":")
    if sort == "slip":
        return f"slip: {name.replace('-', ' ')}"
    if sort == "hint":
        return f"looks like {name.replace('-', ' ').replace('/', ' or ')}"
    return WORDS.get(verdict, verdict)


def short(verdict: str) -> str:
    """Return a verdict in five letters or fewer."""
    sort = verdict.partition(":")[0]
    return sort if sort in ("slip", "hint") else SHORT.get(verdict, verdict[:5])


def level(share: float | None) -> str:
    """Return the word for a share of the points."""
    if share is None:
        return "no evidence"
    return next(word for least, word in LEVELS if share >= least - 1e-9)
