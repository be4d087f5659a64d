"""How nbgrader works in this course. Run its commands in this folder."""

c = get_config()  # type: ignore[name-defined]  # noqa: F821

c.CourseDirectory.course_id = "fuelcircuits"
c.CourseDirectory.root = __file__.rpartition("/")[0]
c.Exchange.assignment_dir = "."

c.ClearSolutions.text_stub = "*Write your answer here.*"
c.ClearSolutions.code_stub = {"python": ""}
c.ClearMarkScheme.enforce_metadata = False
c.GenerateAssignment.preprocessors = [
    "nbgrader.preprocessors.LockCells",
    "fuelmarks.nbgrader_hooks.ClearAnswers",
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
    "fuelmarks.nbgrader_hooks.PutInOrder",
    "nbgrader.preprocessors.CheckCellMetadata",
]
c.Autograde.autograde_preprocessors = [
    "fuelmarks.nbgrader_hooks.RunApart",
    "nbgrader.preprocessors.LimitOutput",
    "fuelmarks.nbgrader_hooks.SaveMarks",
    "nbgrader.preprocessors.AssignLatePenalties",
    "nbgrader.preprocessors.CheckCellMetadata",
]

# Pages never run what a trainee wrote.
c.HTMLExporter.preprocessors = ["fuelmarks.sanitise.CleanPage"]
c.HTMLExporter.filters = {"markdown2html": "fuelmarks.sanitise.markdown_to_html"}
