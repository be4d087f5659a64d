"""How nbgrader works in this course. Run its commands in this folder."""

from pathlib import Path

from fuelmarks.course.term import gradebook_of

c = get_config()  # type: ignore[name-defined]  # noqa: F821
here = Path(__file__).resolve().parent

c.CourseDirectory.course_id = "fuelcircuits"
c.CourseDirectory.root = str(here)
c.CourseDirectory.db_url = gradebook_of(here)

# To each his own notebook, on a class server; elsewhere there is no exchange to release to.
exchange = here / "exchange"
exchange.mkdir(exist_ok=True)
c.Exchange.root = str(exchange)
c.ExchangeFactory.release_assignment = "fuelmarks.classroom.exchange.Release"
c.ExchangeFactory.fetch_assignment = "fuelmarks.classroom.exchange.NoFetch"
c.ExchangeFactory.collect = "fuelmarks.classroom.exchange.Collect"
c.ExchangeFactory.release_feedback = "fuelmarks.classroom.exchange.ReleaseFeedback"
c.ExchangeFactory.list = "fuelmarks.classroom.exchange.List"

c.ClearSolutions.text_stub = "*Write your answer here.*"
c.ClearSolutions.code_stub = {"python": ""}
c.ClearMarkScheme.enforce_metadata = False
c.GenerateAssignment.preprocessors = [
    "nbgrader.preprocessors.LockCells",
    "fuelmarks.gradebook.hooks.ClearAnswers",
    "nbgrader.preprocessors.ClearOutput",
    "nbgrader.preprocessors.CheckCellMetadata",
    "nbgrader.preprocessors.ComputeChecksums",
    "nbgrader.preprocessors.SaveCells",
    "nbgrader.preprocessors.ClearHiddenTests",
    "nbgrader.preprocessors.ClearMarkScheme",
    "nbgrader.preprocessors.ComputeChecksums",
    "nbgrader.preprocessors.CheckCellMetadata",
]

# A submission is put in order, run apart from everything, and marked from what it hands over.
c.Autograde.sanitize_preprocessors = [
    "fuelmarks.gradebook.hooks.PutInOrder",
    "nbgrader.preprocessors.CheckCellMetadata",
]
c.Autograde.autograde_preprocessors = [
    "fuelmarks.gradebook.hooks.RunApart",
    "nbgrader.preprocessors.LimitOutput",
    "fuelmarks.gradebook.hooks.SaveMarks",
    "nbgrader.preprocessors.AssignLatePenalties",
    "nbgrader.preprocessors.CheckCellMetadata",
]

# What lateness costs, as term.toml says.
c.AssignLatePenalties.plugin_class = "fuelmarks.gradebook.late_rule.TermRule"

# What takes longer is stopped; the cells and notebooks after it still run.
# c.RunApart.cell_seconds = 20
# c.RunApart.notebook_seconds = 120

# Pages never run what a trainee wrote.
c.HTMLExporter.preprocessors = ["fuelmarks.gradebook.sanitise.CleanPage"]
c.GenerateFeedback.exporter_class = "fuelmarks.gradebook.sanitise.FeedbackExporter"
c.HTMLExporter.filters = {
    "highlight_code": "fuelmarks.gradebook.sanitise.code_to_html",
    "markdown2html": "fuelmarks.gradebook.sanitise.markdown_to_html",
}
