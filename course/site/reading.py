"""What a page to read says where the notebook has something to run."""

import re

__all__ = ["for_readers"]

NOTHING_TO_RUN = "Nothing has to be run on this page: the box below has the numbers. "
NOT_YOURS = (
    "On this page the numbers are those of an invented reader, and nothing is marked. Work them "
    "out on paper, three figures at the end are enough. In the notebook you have numbers of your "
    "own, and are told at once whether kind and size can be right."
)
ON_PAPER = "Work them out on paper, step by step; the last step says what it should come to."
INSTEAD = tuple(
    (re.compile(pattern, re.M), words)
    for pattern, words in (
        (r"Run the (?:two )?grey cells? first(?:: [^.]*)?\. ", NOTHING_TO_RUN),
        (r"^These count, and the numbers are yours alone\..*$", NOT_YOURS),
        (
            r"(?:Now you finish them\. )?[^.\n]*[Ww]here a cell has `\.\.\.`[^.\n]*\."
            r"(?: The last line prints your result and what it should be\.)?",
            ON_PAPER,
        ),
        (
            r"Run the cell, change a number, run it again\.",
            "Below them stands what they print. In the notebook you can change a number and run "
            "them again.",
        ),
        (r"Run the cell to see", "In the notebook, run the cell to see"),
        (
            r", put both numbers in, and run it again\.",
            ", put both numbers in, and run it again there.",
        ),
        (r"In cells of your own, ", "In cells of your own in the notebook, "),
        (r"name alone in a cell ", "name alone in a cell of the notebook "),
        (r"Add a cell for each step", "There, add a cell for each step"),
    )
)
"""How a sentence that speaks of cells begins, and what stands on a page in its place."""


def for_readers(text: str) -> str:
    """Return the text of a unit as it is true on a page, where no cell can be run."""
    for pattern, words in INSTEAD:
        text = pattern.sub(words, text)
    return text
