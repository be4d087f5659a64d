"""What a trainee wrote runs neither in the grader's formgrader nor in the page given back."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import grade_id, new_cell, read, write
from fuelmarks.gradebook.settings import settings
from fuelmarks.runner import Runner
from nbgrader.api import Gradebook
from nbgrader.converters import GenerateFeedback
from nbgrader.coursedir import CourseDirectory
from playwright.sync_api import Browser, Page, Route

from tests.browser import lab
from tests.browser.patience import PATIENCE
from tests.small_unit import UNIT, new_course

HIT = "window.hit = true"
ATTACKS = f"""
<script>{HIT}</script>
<img src="x" onerror="{HIT}">
<svg onload="{HIT}"></svg>
<iframe srcdoc="<script>parent.hit = true</script>"></iframe>
<details open ontoggle="{HIT}">x</details>
<style onload="{HIT}"></style>
[click](javascript:{HIT.replace(" ", "")})

$\\href{{javascript:{HIT}}}{{x}}$ and $\\text{{<img src=x onerror="{HIT}">}}$

![pasted](attachment:a.webp) ![drawn](attachment:a.svg) ![gone](gone.png)
![elsewhere](https://example.org/x.png)

- [x] done, and <math><mi>p</mi></math>

$\\begin{{align}}a&=b\\end{{align}}$

The trainee's **own words**.
"""
PASTED = {"a.webp": {"image/webp": "UklGRg=="}, "a.svg": {"image/svg+xml": "PHN2Zy8+"}}
LONG = "\\begin{a}" * 40_000
"""Text with which a page takes a minute if nobody stops it."""
PRINTS = f"""from IPython.display import HTML, Javascript, display
display(HTML({ATTACKS!r}))
display(Javascript({HIT!r}))
print("<script>{HIT}</script>")
raise ValueError('<img src="x" onerror="{HIT}">')"""


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory, runner: Runner) -> Course:
    """A marked course of one trainee, who attacks wherever a trainee can write."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=1)
    build(course, UNIT)
    (handed,) = hand_out(course, UNIT)
    path = handed.path
    notebook = read(path)
    for cell in notebook.cells:
        if grade_id(cell) == "90-say-it":
            cell.source, cell["attachments"] = ATTACKS, PASTED
        if grade_id(cell) == "90-seat-area-answer":
            cell.source = PRINTS
    notebook.cells += [new_cell(kind, ATTACKS, name=f"own-{kind}") for kind in ("markdown", "raw")]
    notebook.cells += [new_cell("markdown", LONG, name="long"), new_cell("code", " \n" * 9000)]
    course.folder("submitted", UNIT, "t001").mkdir(parents=True)
    write(notebook, course.notebook("submitted", UNIT, "t001"))
    assert [done.state for done in mark_class(course, UNIT, runner=runner)] == ["marked"]
    return course


@pytest.fixture(scope="module")
def formgrader(course: Course, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the trainee's sheet on a server in the course folder, as the readme says."""
    home = tmp_path_factory.mktemp("formgrader")
    with Gradebook(course.gradebook) as book:
        sheet = book.find_submission_notebook(UNIT, UNIT, "t001").id
    with lab.serve(home, course.root) as server:
        yield f"{server.url}formgrader/submissions/{sheet}/"


@pytest.fixture
def quiet_page(chromium: Browser) -> Iterator[Page]:
    """A page that can reach this machine only, and that asked for nothing else."""
    context = chromium.new_context(viewport={"width": 1280, "height": 900})
    context.set_default_timeout(PATIENCE)
    asked: list[str] = []

    def refuse(route: Route) -> None:
        asked.append(route.request.url)
        route.abort()

    here = ("http://127.0.0.1", "file:", "data:")
    context.route(lambda url: not url.startswith(here), refuse)
    yield context.new_page()
    context.close()
    assert asked == []


def click_everything(page: Page) -> None:
    for link in page.locator("a", has_text="click").all():
        link.click(no_wait_after=True)


@pytest.mark.browser
def test_formgrader_runs_nothing_and_shows_the_words_and_the_rubric(
    formgrader: str, quiet_page: Page, screens: Path
) -> None:
    quiet_page.goto(formgrader)
    quiet_page.wait_for_selector("text=own words")
    click_everything(quiet_page)
    quiet_page.screenshot(path=screens / "formgrader.png", full_page=True)
    assert quiet_page.evaluate("window.hit") is None
    assert quiet_page.locator("text=1 point: says it").count() == 1
    assert quiet_page.locator("text=[picture not shown]").count() >= 4
    assert quiet_page.locator("text=☑ done").count() >= 1
    assert quiet_page.locator("text=cut here: 360000 characters were written").count() == 1
    assert quiet_page.locator("input.score").count() == 4


@pytest.mark.browser
def test_formgrader_keeps_a_mark_given_by_hand(
    formgrader: str, course: Course, quiet_page: Page
) -> None:
    quiet_page.goto(formgrader)
    box = quiet_page.locator("[id='90-say-it'].needs_manual_grade")  # once the page has its marks
    with quiet_page.expect_response(lambda reply: "/api/grade/" in reply.url and reply.ok):
        box.fill("3")
        box.press("Tab")
    with Gradebook(course.gradebook) as book:
        assert book.find_grade("90-say-it", UNIT, UNIT, "t001").manual_score == 3


@pytest.mark.browser
def test_feedback_runs_nothing_and_shows_the_words(
    course: Course, quiet_page: Page, screens: Path
) -> None:
    config = settings(course)
    directory = CourseDirectory(config=config, root=str(course.root), assignment_id=UNIT)
    GenerateFeedback(coursedir=directory, config=config).start()
    quiet_page.goto((course.folder("feedback", UNIT, "t001") / f"{UNIT}.html").as_uri())
    click_everything(quiet_page)
    quiet_page.screenshot(path=screens / "feedback.png", full_page=True)
    assert quiet_page.evaluate("window.hit") is None
    assert quiet_page.locator("strong", has_text="own words").count() >= 1
