"""Say why a value is not a number that could be an answer, and what to look at."""

from collections.abc import Mapping

__all__ = ["STOPPED", "UNSET", "tidy", "why_not"]

STOPPED, UNSET = "stopped", "unset"
"""Details of a record whose answer's cell stopped with an error, or gave the answer no value."""

REASONS: Mapping[str, str] = {
    "nan": "The result is 'not a number' (nan). Look for a division by zero or a missing value.",
    "inf": "The result is infinite. Look for a division by zero.",
    "bool": "This is True or False. A comparison (==) gives that; hand over the value itself.",
    "complex": "This is a complex number. Look for the square root of something negative.",
    "builtin_function_or_method": "This is a function. Call it, with a value in brackets.",
    "function": "This is a function. Call it: write its name with brackets and its values.",
    "list": "This is a list. Hand over one value.",
    "tuple": "This is several values, or a comma was typed for a decimal point. Hand over one.",
    STOPPED: "The cell with the answer stopped with an error.",
    UNSET: "The answer has no value. Keep the name that stands left of the equals sign.",
    "Unit": 'This is a unit without a number. Write, for example, "2.5 kPa".',
}


def why_not(detail: object) -> str:
    """Return why a value of the sort `detail` is no answer."""
    name = tidy(detail) if isinstance(detail, str) else ""
    if name in REASONS:
        return REASONS[name]
    if name.startswith("array of"):
        return f"This is an {name} values. Hand over one."
    return f"This is not a number ({name or 'unknown'}). Hand over one value with its unit."


def tidy(text: str) -> str:
    """Return `text` short and without anything that could be mark-up or a control sign."""
    return "".join(sign for sign in text[:160] if sign.isprintable() and sign not in "<>&`")
