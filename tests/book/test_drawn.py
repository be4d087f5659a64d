"""A question's drawing comes back on the trainee's own page, with the trainee's own numbers."""

from fuelcircuits.cards import read_card, read_rig
from fuelmarks.book.pages import trainee_page
from fuelmarks.book.record import ClassRecord, Entry, Question, Row
from fuelmarks.course.cells import sketch_picture
from fuelmarks.course.course import Course, Trainee
from fuelmarks.course.personal import card_in, release_notebook
from fuelmarks.questions import draw, load

from tests.places import COURSE_FOLDER, RIGS

UNIT = "05-off-idle"
EXERCISES = load(UNIT)


def test_the_card_of_a_unit_is_read_from_its_release() -> None:
    release = release_notebook(Course(COURSE_FOLDER), UNIT)
    assert read_card(card_in(release, UNIT), "card.toml") == read_rig(RIGS / "plover.toml")
    bare = release_notebook(Course(COURSE_FOLDER), "00-shop-arithmetic")
    assert card_in(bare, "00-shop-arithmetic") == ""


def test_the_own_page_shows_the_drawing_and_says_it_in_words() -> None:
    sheet, sketch = draw(EXERCISES, 4), EXERCISES["tip-height"].sketch
    assert sketch is not None
    asked = Question(1, "tip-height", 1.0)
    drawn = sketch_picture(sketch, sheet)
    row = Row(asked, 1.0, "right", picture=drawn.image())
    entry = Entry(Trainee("t001", "Ada", "Floatwell"), (row,))
    record = ClassRecord(UNIT, "Off idle", EXERCISES, (asked,), (entry,))
    page = trainee_page(record, entry, {})
    assert f"<figure>{drawn.image()}</figure>" in page
    assert sheet.givens_shown["plate_reach"].text in drawn.alt
