"""Work that was watched: on the record beside what was answered, and drawn for moderation."""

import csv
import io
from collections.abc import Sequence

import pytest
from fuelmarks.book.competence import competences
from fuelmarks.book.doing import NEVER, doings, last_watched
from fuelmarks.book.moderation import draw_sample, sample_page
from fuelmarks.book.term_pages import competence_csv, competence_page, evidence_csv
from fuelmarks.book.writing import page
from fuelmarks.classroom.observed import Observation, Seen
from fuelmarks.course.course import CourseError
from fuelmarks.course.outcomes import Outcome

from tests.book.long_term import OUTCOMES, long_term

DOING = {
    "JOB-1": Outcome("JOB-1", "Works safely", "doing", standard="ours 7.1"),
    "JOB-6": Outcome("JOB-6", "Sets a carburettor on the car", "doing"),
}
BOOK = long_term(units=3, trainees=4)
# A question asks for an outcome of doing too: full points do not certify it.
ASKED = "FAM-1"


def seen(
    number: int, result: str, day: str, trainee: str = "t001", corrects: int = 0
) -> Observation:
    work = Seen(trainee, "JOB-1", day, f"reading {number}", result, "R. Ventura", "", corrects)
    return Observation(number, "2026-11-27 15:30", work)


def state(lines: Sequence[Observation]) -> tuple[str, str, bool]:
    one = doings("t001", lines, DOING)[0]
    return one.state, one.day, one.certified


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ([], (NEVER, "", False)),
        ([seen(1, "not yet", "2026-10-01")], ("not yet", "2026-10-01", False)),
        (
            [seen(1, "not yet", "2026-10-01"), seen(2, "pass", "2026-10-08")],
            ("pass", "2026-10-08", True),
        ),
        # Entered later, but watched before: the newest work counts, not the newest line.
        (
            [seen(1, "pass", "2026-10-08"), seen(2, "not yet", "2026-10-01")],
            ("pass", "2026-10-08", True),
        ),
        (
            [seen(1, "pass", "2026-10-08"), seen(2, "not yet", "2026-10-08", corrects=1)],
            ("not yet", "2026-10-08", False),
        ),
        (
            [seen(1, "pass", "2026-10-08"), seen(2, "withdrawn", "2026-10-08", corrects=1)],
            (NEVER, "", False),
        ),
        ([seen(1, "pass", "2026-10-08", trainee="t002")], (NEVER, "", False)),
    ],
)
def test_the_newest_work_that_stands_certifies(
    lines: list[Observation], expected: tuple[str, str, bool]
) -> None:
    assert state(lines) == expected


def test_points_never_certify_an_outcome_of_doing() -> None:
    outcomes = OUTCOMES | {ASKED: Outcome(ASKED, "Sets it", "doing")}
    found = competences(BOOK.records, outcomes)
    assert any(each.standing(ASKED) for each in competences(BOOK.records, OUTCOMES))
    assert all(each.standing(ASKED) is None for each in found)
    assert {done.state for each in found for done in each.doing} == {NEVER}


def test_the_record_shows_both_kinds_with_their_days() -> None:
    lines = [seen(1, "not yet", "2026-10-01"), seen(2, "pass", "2026-10-08")]
    found = competences(BOOK.records, OUTCOMES | DOING, lines)
    text = page("one_competence.html.j2", one=found[0], records=BOOK.records)
    assert "What you know, and what shows it" in text
    for words in (
        '<span class="day">2026-10-01</span>: <b>reading 1</b>, not yet',
        "reading 2</b>, pass, watched by R. Ventura",
    ):
        assert words in text
    assert "ours 7.1" in text
    whole = competence_page(BOOK, found, [])
    assert whole.count('class="cell well"') == 1
    row = next(csv.reader(io.StringIO(competence_csv(found, []).splitlines()[1])))
    assert row[3:] == ["pass 2026-10-08", ""]
    evidence = list(csv.DictReader(io.StringIO(evidence_csv(found))))
    watched = [one for one in evidence if one["how"] == "watched"]
    assert [(one["line"], one["result"], one["date"]) for one in watched] == [
        ("1", "not yet", "2026-10-01"),
        ("2", "pass", "2026-10-08"),
    ]


MANY = [
    seen(number, "pass", "2026-10-08", trainee=f"t{1 + number % 40:03}") for number in range(1, 101)
]


def test_a_sample_is_drawn_again_by_its_seed_and_says_how() -> None:
    one, again, other = (draw_sample(MANY, 6, seed) for seed in ("autumn", " autumn ", "spring"))
    assert one == again
    assert one.drawn != other.drawn
    assert (len(one.drawn), one.out_of) == (6, 40)
    assert set(one.drawn) <= set(last_watched(MANY))
    text = sample_page(one, [], DOING)
    assert "6 of 40 pieces of observed work, drawn with the random seed “autumn”" in text
    assert all(f"reading {each.number}<" in text for each in one.drawn)


@pytest.mark.parametrize(
    ("number", "seed", "message"),
    [(6, " ", "seed must be words"), (41, "x", "watched, 40, got 41"), (0, "x", "got 0")],
)
def test_a_sample_that_cannot_be_drawn_is_refused(number: int, seed: str, message: str) -> None:
    with pytest.raises(CourseError, match=message):
        draw_sample(MANY, number, seed)
