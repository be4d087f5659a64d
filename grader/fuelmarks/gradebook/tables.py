"""nbgrader's tables that marking reads and writes row by row."""

from fuelmarks.gradebook.nbgraders import Base

__all__ = [
    "ASSIGNMENT",
    "CELL",
    "COMMENT",
    "GRADE",
    "NOTEBOOK",
    "SHEET",
    "SOURCE",
    "STUDENT",
    "SUBMISSION",
]

TABLES = Base.metadata.tables
ASSIGNMENT, NOTEBOOK, STUDENT = (TABLES[name] for name in ("assignment", "notebook", "student"))
CELL, SOURCE = TABLES["base_cell"], TABLES["source_cell"]
SUBMISSION, SHEET = TABLES["submitted_assignment"], TABLES["submitted_notebook"]
GRADE, COMMENT = TABLES["grade"], TABLES["comment"]
