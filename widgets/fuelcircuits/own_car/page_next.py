"""What could come next: the cheapest in time and money, then what tells most."""

from collections.abc import Iterator

from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.findings import Findings
from fuelcircuits.own_car.page_words import LIKELY, words
from fuelcircuits.own_car.tools import Step

__all__ = ["next_step"]

SHOWN = 5


def next_step(report: Findings) -> Iterator[str]:
    """Yield what could come next: the cheapest in time and money, then what tells most."""
    if not report.steps:
        yield _by_eye(report)
        return
    first = report.steps[0]
    chosen = " It is chosen to tell apart what is named above." if report.apart else ""
    yield f"**Next:** {_asked(first)}{chosen} {_takes(first)}{_care(first.caution)}"
    if most := report.most_telling:
        yield f"**If that settles nothing:** {_asked(most)} It tells most. {_takes(most)}"
    yield ""
    yield "| what could come next | tells | time | needs | care |"
    yield "| --- | --- | --- | --- | --- |"
    for one in report.steps[:SHOWN]:
        tells, time = _tells(one.bits), f"{one.minutes:g} min"
        yield f"| {one.label} | {tells} | {time} | {_needs(one)} | {one.caution} |"


def _by_eye(report: Findings) -> str:
    """Return what to do where no step on the list tells anything more."""
    likely = [one.name for one in report.fitting if one.probability >= LIKELY]
    fitting = [words(name) for name in likely if name != HEALTHY][:SHOWN]
    told = fitting and report.verdict != "healthy"
    named = f", the likeliest first: {', '.join(fitting)}" if told else ""
    more = "tell these apart" if report.apart else "tell more"
    return (
        f"No further step on the list would {more}. Look at the parts themselves{named}; or "
        "sharpen the card."
    )


def _asked(step: Step) -> str:
    """Return what to do: a question with how it is answered, or a reading to take."""
    return f"{step.label} {step.how}" if step.how else f"read “{step.label}”."


def _takes(step: Step) -> str:
    """Return what a step takes, as a sentence."""
    tool = "no tool" if step.needs == "nothing" else f"this: {_needs(step)}"
    return f"It takes {step.minutes:g} min and {tool}."


def _needs(step: Step) -> str:
    """Return what a step needs, and what that costs where it is not there."""
    return f"{step.needs} (to buy, about {step.price:g} €)" if step.price else step.needs


def _care(caution: str) -> str:
    return f" **Caution.** {caution}" if caution else ""


def _tells(bits: float) -> str:
    """Return how much a step can be expected to tell, in words."""
    return "a lot" if bits >= 0.6 else "something" if bits >= 0.25 else "a little"
