"""What is said of a slip: kindly, by the step, and without the mended formula."""

from collections.abc import Mapping

from fuelmarks.slips.change import Change

__all__ = ["ALIKE", "SENTENCES", "of_any", "sentence"]

SENTENCES: Mapping[str, str] = {
    "answer-turned": "Which is over which in {step}?",
    "area-for-bore": "In {step} you have an area. One more step leads from it to a bore.",
    "book-value": "In {step} you seem to have used {other}. Take {subject} as your sheet gives it.",
    "brackets-missing": "In {step} look at what stands below the line: does all of it stay there?",
    "celsius-for-kelvin": "In {step} look at the scale of {subject}: from where does it count?",
    "degrees-as-radians": "In {step} the angle seems to have gone in as a number of degrees.",
    "diameter-for-radius": "Look at the area in {step}: the formula with pi and a square wants the "
    "radius, and a bore is a diameter.",
    "diameters-first": "In {step} you seem to have put the diameters together before making an "
    "area of them.",
    "difference-turned": "In {step} the difference seems to be taken the other way round.",
    "double-for-square": "In {step} {subject} seems doubled where it should be squared.",
    "exchanged": "Two of your numbers seem to have changed places: {subject} and {other}.",
    "factor-missing": "In {step} look for {subject}: it seems not to count.",
    "factor-turned": "In {step} think about {subject}: if it were twice as large, would the result "
    "be larger or smaller?",
    "factor-twice": "In {step} {subject} seems to count twice.",
    "function-missing": "In {step} {subject} is missing.",
    "given-as-answer": "That is {subject} as your sheet gives it; the question goes on from there.",
    "given-unit": "In {step} look at the unit of {subject}: its number seems to have gone in as "
    "{other}.",
    "half-of-square": "Look at the area in {step}: half of a square is not the square of a half.",
    "half-the-root": "In {step} think again which root it is.",
    "next-row": "Look in the table again: that seems to be the next row.",
    "number-astray": "In {step} look at the number {subject} again.",
    "numbers-missing": "In {step} the plain numbers of the formula seem to be missing.",
    "one-less": "In {step} count {subject} again: all of them, or one less?",
    "other-given": "In {step} you seem to have taken {other} for {subject}.",
    "other-share": "In {step} think which share {subject} is, and which one you need.",
    "other-side": "In {step} look at the triangle again: which of its sides is asked for?",
    "other-zero": "In {step} think from where {subject} counts: from the air outside, or from "
    "nothing at all?",
    "pair-missing": "In {step} {subject} and {other} seem not to count.",
    "pair-turned": "In {step} look at {subject} and {other}: which of them is over the other?",
    "pi-missing": "Look at the area in {step}: pi seems to be missing.",
    "power-missing": "In {step} {subject} has to be raised to a power.",
    "power-of-ten": "The digits are right, the size is not: a power of ten went astray.",
    "power-turned": "In {step} think again which power {subject} has.",
    "pull-astray": "Mass or weight? Look where the pull of gravity belongs, and where it does not.",
    "radius-and-diameter": "In {step}, from area back to bore, mind radius and diameter.",
    "radius-for-diameter": "In {step} you seem to have the radius.",
    "ratio-plus-one": "In {step} think what {subject} compares: air with fuel, or air with both?",
    "ratio-turned": "Which is over which in {step}?",
    "rest-of-share": "Is this the share that is asked for, or the rest?",
    "root-for-square": "In {step} you seem to have drawn a root where a square belongs.",
    "root-missing": "In {step} one operation is missing at the end: look at the formula again.",
    "root-of-squares": "In {step} think how these add: as they stand, or by their squares?",
    "root-too-many": "In {step} there is a root too many.",
    "root-too-short": "In {step} look how far the root reaches: does it cover {subject}?",
    "root-twice": "In {step} the root seems to be drawn twice.",
    "side-for-bore": "In {step} you have the side of a square of that area. The hole is round.",
    "sign-of-answer": "Look at the sign: which way does it go?",
    "sign-turned": "In {step} think again whether {subject} adds or takes off.",
    "signs-turned": "In {step} look at the signs: which way does each of them go?",
    "slope-missing": "In {step} the slope does not count yet.",
    "square-for-circle": "Look at the area in {step}: that is a square of this width, and the hole "
    "is round.",
    "square-for-root": "In {step} you seem to have squared where a root belongs.",
    "square-missing": "In {step} {subject} does not stand by itself; look at the formula again.",
    "square-too-short": "In {step} look how far the square reaches: does it cover {subject}?",
    "square-twice": "In {step} {subject} seems to be squared twice.",
    "squares-last": "In {step} think what comes first, the squares or the sum.",
    "stopped-early": "That is {subject}; the question goes on from there.",
    "ten-for-e": "In {step} ten seems to have been raised to the power; the formula has e.",
    "term-alone": "In {step} {subject} stands alone; there is more to it.",
    "term-missing": "In {step} look for {subject}: it seems not to count.",
    "term-twice": "In {step} {subject} seems to count twice.",
    "two-astray": "Look for a two: two barrels, two sides, radius and diameter, the whole or half.",
    "unit-of-answer": "The number would be right in {other}. Which unit did you write?",
    "volume-for-mass": "Volume or mass? Look where {other} belongs.",
    "way-round": "Look at the area in {step}: that is the way round the circle, not what it holds.",
    "whole-for-change": "Does the question ask for the whole, or for the change?",
    "width-for-area": "In {step} a width is no area yet.",
    "zero-of-answer": "From where does the question count this pressure: from the air outside, or "
    "from nothing at all?",
}
"""A sentence for each family."""

ALIKE: Mapping[str, str] = {
    **dict.fromkeys(
        ("answer-turned", "brackets-missing", "factor-turned", "power-turned", "ratio-turned"),
        "turned",
    ),
    **dict.fromkeys(
        (
            *("factor-missing", "given-as-answer", "pair-missing", "stopped-early"),
            *("term-alone", "term-missing"),
        ),
        "left out",
    ),
}
"""Families that say much the same, so that either sentence will do."""


def sentence(change: Change, step: str) -> str:
    """Return what is said of a slip in the step called `step` in words."""
    subject = change.subject or "this number"
    said = SENTENCES[change.family].format(step=f"“{step}”", subject=subject, other=change.other)
    return said[0].upper() + said[1:]


def of_any(family: str) -> str:
    """Return what is said of a family of slips, whichever step and number it was."""
    said = SENTENCES[family].format(step="one step", subject="a value", other="another")
    return said[0].upper() + said[1:]
