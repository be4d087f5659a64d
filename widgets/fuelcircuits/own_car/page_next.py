"""What could come next: the cheapest in time and money, then what tells most."""

from collections.abc import Iterator

from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.tools import Step

__all__ = ["next_step"]

SHOWN = 5


def next_step(report: Findings) -> Iterator[str]:
    """Yield what could come next: the cheapest in time and money, then what tells most."""
    if not report.steps:
        yield (
            "Nothing on the list would tell these apart. Look at the parts themselves, or sharpen "
            "the card."
        )
        return
    first = report.steps[0]
    yield f"**Next:** {first.label} {first.how}{_care(first.caution)}".replace("  ", " ")
    if most := report.most_telling:
        yield (
            f"**If that settles nothing:** {most.label} tells most, "
            f"in {most.minutes:g} min with: {_needs(most)}."
        )
    yield ""
    yield "| what could come next | tells | time | needs | care |"
    yield "| --- | --- | --- | --- | --- |"
    for one in report.steps[:SHOWN]:
        tells, time = _tells(one.bits), f"{one.minutes:g} min"
        yield f"| {one.label} | {tells} | {time} | {_needs(one)} | {one.caution} |"


def _needs(step: Step) -> str:
    """Return what a step needs, and what that costs where it is not there."""
    return f"{step.needs} (to buy, about {step.price:g} €)" if step.price else step.needs


def _care(caution: str) -> str:
    return f" **Caution.** {caution}" if caution else ""


def _tells(bits: float) -> str:
    """Return how much a step can be expected to tell, in words and as a number."""
    for least, words in ((0.6, "a lot"), (0.25, "something"), (0.0, "a little")):
        if bits >= least:
            return f"{words} ({bits:.2f} bit)"
    return ""
