"""Write a formula, or one step of it, as plain text and as MathML.

`show` says how a name is written: as words, as a letter, or as a learner's own number. Brackets
stand where they are needed and nowhere else.
"""

from collections.abc import Callable
from typing import TypeAlias

from markupsafe import Markup

from fuelmarks.formula.tree import Call, Name, Node, Number, Power, Product, Sum

__all__ = ["Show", "as_mathml", "as_text", "plain_number", "raised"]

Show: TypeAlias = Callable[[str], str]

MINUS, TIMES = "−", "·"
RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
SUM, FACTOR, BASE = 1, 2, 3
"""How tightly what stands around a node binds it."""


def raised(power: float) -> str:
    """Return a power as it is written behind its base: ``²``, ``⁻⁶``, ``^3.5``."""
    whole = f"{power:.6g}"
    return whole.translate(RAISED) if power == int(power) else f"^{whole.replace('-', MINUS)}"


def plain_number(value: float) -> str:
    """Return a number as one writes it, with no more than six figures."""
    return f"{value:.6g}".replace("-", MINUS)


def as_text(node: Node, show: Show, around: int = 0) -> str:
    """Return `node` as plain text."""
    match node:
        case Number(value):
            return plain_number(value)
        case Name(name):
            return _held(show(name), _needs_brackets(show(name), around))
        case Sum(terms):
            return _held(_added([(s, as_text(n, show, SUM)) for s, n in terms]), around >= SUM)
        case Product(factors):
            return _held(_multiplied(factors, show), around == BASE)
        case Power(base, exponent):
            return _raised(base, exponent, show)
        case Call(function, arguments):
            return _called(function, arguments[0], show)


def _held(text: str, brackets: bool) -> str:
    return f"({text})" if brackets else text


def _needs_brackets(text: str, around: int) -> bool:
    """Return whether brackets hold a number: a negative one among others, or one with its unit."""
    return (around > 0 and text.startswith(MINUS)) or (around == BASE and " " in text)


def _added(terms: list[tuple[int, str]]) -> str:
    first, *rest = terms
    start = first[1] if first[0] > 0 else f"{MINUS}{first[1]}"
    return start + "".join(f" {'+' if sign > 0 else MINUS} {text}" for sign, text in rest)


def _multiplied(factors: tuple[tuple[int, Node], ...], show: Show) -> str:
    above = [as_text(each, show, FACTOR) for way, each in factors if way > 0]
    below = [as_text(each, show, FACTOR) for way, each in factors if way < 0]
    top = f" {TIMES} ".join(above) or "1"
    return f"{top} / {_held(f' {TIMES} '.join(below), len(below) > 1)}" if below else top


def _raised(base: Node, exponent: float, show: Show) -> str:
    if exponent == 0.5:
        return f"√({as_text(base, show)})"
    return f"{as_text(base, show, BASE)}{raised(exponent)}"


def _called(function: str, argument: Node, show: Show) -> str:
    if function == "circle":
        return f"π/4 {TIMES} {as_text(argument, show, BASE)}²"
    if function == "bore_of":
        return f"√(4 {TIMES} {as_text(argument, show, FACTOR)} / π)"
    return f"{function.replace('_', ' ')}({as_text(argument, show)})"


def as_mathml(node: Node, show: Show, around: int = 0) -> Markup:
    """Return `node` as presentation MathML, to stand in a ``<math>`` element."""
    match node:
        case Number(value):
            return _element("mn", plain_number(value))
        case Name(name):
            return _named(show(name), around)
        case Sum(terms):
            row = Markup("").join(
                _signed(place, sign, as_mathml(each, show, SUM))
                for place, (sign, each) in enumerate(terms)
            )
            return _bracketed(row, around >= SUM)
        case Product(factors):
            return _bracketed(_fraction(factors, show), around == BASE)
        case Power(base, exponent):
            return _power(base, exponent, show)
        case Call(function, arguments):
            return _function(function, arguments[0], show)


def _element(tag: str, text: str) -> Markup:
    return Markup("<{0}>{1}</{0}>").format(Markup(tag), text)


def _operator(sign: str) -> Markup:
    return _element("mo", sign)


def _named(text: str, around: int) -> Markup:
    """Return a name's words, or its number with its unit, upright.

    Not as `mtext`, which counts as white space, so that an operator beside it would get none.
    """
    shown = _element("mn" if text[:1].isdigit() or text[:1] == MINUS else "mi", text)
    return _bracketed(shown, _needs_brackets(text, around))


def _bracketed(row: Markup, brackets: bool) -> Markup:
    inside = _operator("(") + row + _operator(")") if brackets else row
    return Markup("<mrow>{}</mrow>").format(inside)


def _signed(place: int, sign: int, term: Markup) -> Markup:
    if sign < 0:
        return _operator(MINUS) + term
    return _operator("+") + term if place else term


def _fraction(factors: tuple[tuple[int, Node], ...], show: Show) -> Markup:
    above = [each for way, each in factors if way > 0]
    below = [each for way, each in factors if way < 0]
    if not below:
        return _row(above, show)
    return Markup("<mfrac>{}{}</mfrac>").format(_row(above, show), _row(below, show))


def _row(nodes: list[Node], show: Show) -> Markup:
    """Return factors side by side; one that stands alone needs no brackets."""
    around = FACTOR if len(nodes) > 1 else 0
    shown = [as_mathml(each, show, around) for each in nodes] or [_element("mn", "1")]
    return Markup("<mrow>{}</mrow>").format(_operator(TIMES).join(shown))


def _power(base: Node, exponent: float, show: Show) -> Markup:
    if exponent == 0.5:
        return Markup("<msqrt>{}</msqrt>").format(as_mathml(base, show))
    raised = _element("mn", plain_number(exponent))
    return Markup("<msup>{}{}</msup>").format(as_mathml(base, show, BASE), raised)


def _function(function: str, argument: Node, show: Show) -> Markup:
    if function == "circle":
        quarter = Markup("<mfrac><mi>π</mi><mn>4</mn></mfrac>") + _operator(TIMES)
        return Markup("<mrow>{}{}</mrow>").format(quarter, _power(argument, 2.0, show))
    if function == "bore_of":
        inside = _row([Number(4.0), argument], show)
        return Markup("<msqrt><mfrac>{}<mi>π</mi></mfrac></msqrt>").format(inside)
    name = _element("mi", function.replace("_", " "))
    return Markup("<mrow>{}{}</mrow>").format(name, _bracketed(as_mathml(argument, show), True))
