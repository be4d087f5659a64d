"""Visits to a live page, timed in the page itself: till it is ready, and each of its answers."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import NamedTuple

from playwright.sync_api import Browser, BrowserContext, Page, expect

__all__ = ["LONGEST", "Visit", "first_visits", "opened", "stranger", "visit"]

LONGEST = 120_000
"""Milliseconds after which a page counts as failed."""
STEPS, SENT = 5, 3
"""Steps of the first slider, and how many sliders are sent to both ends."""
LISTEN = """
window.answers = [];
window.asked = 0;
const post = Worker.prototype.postMessage;
Worker.prototype.postMessage = function (message) {
    const question = message.question && JSON.parse(message.question), start = performance.now();
    const hear = ({ data }) => {
        if (data.number !== message.number) return;
        const took = performance.now() - start;
        window.answers.push([question.curves, took, !!data.answer?.includes('"whole":true')]);
        this.removeEventListener('message', hear);
    };
    if (question) {
        window.asked += 1;
        this.addEventListener('message', hear);
    }
    post.call(this, message);
};
const ready = new MutationObserver(() => {
    if (document.documentElement.dataset.python) window.ready ??= performance.now();
});
ready.observe(document, { subtree: true, attributes: true, attributeFilter: ['data-python'] });
"""
WHOLE = """(before) => window.answers.length > before && window.answers.length === window.asked
    && window.answers.at(-1)[2]"""
PAINT = "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN"
MOVED = ".fc-controls :is(input[type=range], input[type=checkbox])"


class Visit(NamedTuple):
    """What a visitor with a memory of Python waits for on a page [ms]."""

    ready: float
    step: list[float]  # points of small moves
    step_curves: list[float]
    leap: list[float]  # points of moves from end to end
    leap_curves: list[float]


def opened(context: BrowserContext, address: str) -> Page:
    """Return a page once Python is ready."""
    page = context.new_page()
    page.goto(address)
    expect(page.locator("html[data-python=ready]")).to_be_attached(timeout=LONGEST)
    return page


@contextmanager
def stranger(browser: Browser) -> Iterator[BrowserContext]:
    """Yield a browser that has never been anywhere."""
    context = browser.new_context(reduced_motion="reduce")
    context.set_default_timeout(LONGEST)
    context.add_init_script(LISTEN)
    yield context
    context.close()


def first_visits(browser: Browser, address: str) -> tuple[float, float, float]:
    """Return the first paint, and till Python is ready at the first visit and at the second."""
    with stranger(browser) as context:
        page = opened(context, address)
        paint, cold = page.evaluate(PAINT), page.evaluate("window.ready")
        expect(page.locator("#fc-offline")).to_contain_text("work without", timeout=LONGEST)
        page.close()  # before its memory is made
        kept = opened(context, address).evaluate("window.ready")
    return paint, cold, kept


def moves(page: Page) -> Iterator[tuple[str, int, str]]:
    """Yield what is pressed: whether it is a step or a leap, on which control, which key."""
    kinds = page.locator(MOVED).evaluate_all("(every) => every.map((one) => one.type)")
    sliders = [at for at, kind in enumerate(kinds) if kind == "range"]
    if not sliders:
        yield from (("step", at, "Space") for at in range(len(kinds))[:STEPS])
        return
    yield from (("step", sliders[0], "ArrowRight") for _ in range(STEPS))
    every = max(1, len(sliders) // SENT)
    for at in sliders[::every][:SENT]:
        yield from (("leap", at, key) for key in ("Home", "End"))


def pressed(page: Page, at: int, key: str) -> list[tuple[bool, float]]:
    """Return whether each answer to a key held curves, and its time [ms]; none if it moves nothing.

    The last is a whole one: curves that come in pieces count as one answer.
    """
    control, before = page.locator(MOVED).nth(at), page.evaluate("window.answers.length")
    told = "(one) => `${one.value} ${one.checked}`"
    old = control.evaluate(told)
    control.press(key)
    if control.evaluate(told) == old:
        return []
    page.wait_for_function(WHOLE, arg=before)
    every = page.evaluate("window.answers")[before:]
    points = [(False, took) for curves, took, _ in every if not curves]
    pieces = [took for curves, took, _ in every if curves]
    return [*points, (True, sum(pieces))] if pieces else points


def visit(context: BrowserContext, address: str) -> Visit:
    """Return the times of a visit."""
    page = opened(context, address)
    found = Visit(page.evaluate("window.ready"), [], [], [], [])
    for kind, at, key in moves(page):
        for curves, took in pressed(page, at, key):
            getattr(found, f"{kind}_curves" if curves else kind).append(took)
    page.close()
    return found
