"""What a drawing's labels look like on a phone: large enough, whole, and apart from each other."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from tests.benches.opening import STEMS
from tests.browser.live_pages import PHONE

pytestmark = pytest.mark.browser

LEAST, LAID = 10.9, 3.0
"""Pixels that letters have at least, and that labels may lie over each other or the rim (common
practice, no source)."""
AMISS = """([least, laid]) => {
  const svg = document.querySelector(".fc-drawing svg");
  const look = (part) => getComputedStyle(part);
  const shown = (part) => (part === svg ? 1 : look(part).opacity * shown(part.parentNode));
  const scale = svg.getScreenCTM().a;
  const seen = [...svg.querySelectorAll("text")]
    .filter((part) => part.textContent.trim() && shown(part) > 0.05)
    .map((part) => ({
      words: part.textContent.trim(),
      box: part.getBoundingClientRect(),
      size: scale * parseFloat(look(part).fontSize),
    }));
  const within = (a, b) => Math.min(a.right - b.left, a.bottom - b.top);
  const over = (a, b) => Math.min(within(a, b), within(b, a));
  const rim = svg.getBoundingClientRect();
  const out = (a) =>
    Math.max(rim.left - a.left, a.right - rim.right, rim.top - a.top, a.bottom - rim.bottom);
  const pairs = seen.flatMap((a, i) => seen.slice(i + 1).map((b) => [a, b]));
  return [
    ...seen.filter(({ size }) => size < least).map(({ words }) => `${words} is small`),
    ...seen.filter(({ box }) => out(box) > laid).map(({ words }) => `${words} is cut`),
    ...pairs.filter(([a, b]) => over(a.box, b.box) > laid).map(([a, b]) => [a.words, b.words]),
  ];
}"""


@pytest.mark.parametrize("stem", [*STEMS, "drive"])
def test_the_labels_of_a_whole_drawing_can_be_read_on_a_phone(
    opened: Callable[..., Page], stem: str
) -> None:
    page = opened(stem, size=PHONE)
    assert page.evaluate(AMISS, [LEAST, LAID]) == []
