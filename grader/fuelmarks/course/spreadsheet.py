"""A table as spreadsheets and learning platforms save it, each row with its line in the file.

It comes in one of several encodings, and comma, semicolon or tab sets its columns apart.
"""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from fuelmarks.course.error import CourseError

__all__ = ["Table", "read_table"]

SEPARATORS = (",", ";", "\t")
HINTS = ("sep=,", "sep=;", "sep=\\t")
"""A first line that one spreadsheet writes for itself."""
MARKS = {b"\xef\xbb\xbf": "utf-8-sig", b"\xff\xfe": "utf-16", b"\xfe\xff": "utf-16"}
LARGEST = 10 << 20


@dataclass(frozen=True)
class Table:
    """The rows of a table, the headings first, each with the line on which it ends."""

    path: Path
    encoding: str
    rows: tuple[tuple[int, tuple[str, ...]], ...]

    def refuse(self, line: int, rule: str, value: object) -> CourseError:
        """Return the error that says on which line which rule was broken by what."""
        return CourseError(f"{self.path}, line {line}: {rule}, got {value!r}")

    def body(self) -> Iterator[tuple[int, tuple[str, ...]]]:
        """Yield the rows below the headings, each with its line.

        Raises `CourseError` at one that is longer, in which a decimal comma may have parted a cell.
        """
        width = len(self.rows[0][1]) if self.rows else 0
        for line, row in self.rows[1:]:
            if any(row[width:]):
                rule = f"a row must have no more than the {width} columns of the headings"
                raise self.refuse(line, rule, ", ".join(row))
            yield line, row


def read_table(path: Path) -> Table:
    """Return the table in the file at `path`; raise `CourseError` if it cannot be read as one."""
    encoding, text = _text(path)
    lines = list(io.StringIO(text, newline=""))
    skipped = 1 if lines and lines[0].strip().lower() in HINTS else 0
    return Table(path, encoding, tuple(_rows(path, lines[skipped:], skipped)))


def _rows(path: Path, lines: list[str], skipped: int) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Yield the rows that hold anything, each with its line."""
    reader = csv.reader(lines, delimiter=_separator(lines), strict=True)
    try:
        for row in reader:
            cells = tuple(cell.strip() for cell in row)
            if any(cells):
                yield reader.line_num + skipped, cells
    except csv.Error as error:
        line = reader.line_num + skipped
        raise CourseError(f"{path}, line {line}: must be a row of a table, got: {error}") from error


def _text(path: Path) -> tuple[str, str]:
    """Return the encoding of the file and its text."""
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise CourseError(f"{path} must exist, got no such file") from None
    if len(raw) > LARGEST:
        raise CourseError(f"{path} must be a table of {LARGEST >> 20} MB or less, got {len(raw)} B")
    encoding = _encoding(raw)
    try:
        return encoding, raw.decode(encoding)
    except UnicodeDecodeError as error:
        where = raw.count(b"\n", 0, error.start) + 1
        raise CourseError(
            f"{path}, line {where}: must be text in UTF-8, UTF-16 or Windows-1252, "
            f"got the byte {raw[error.start]:#04x}; save it as CSV in UTF-8"
        ) from error


def _encoding(raw: bytes) -> str:
    """Return the encoding of `raw`: what it says itself, else UTF-8 if it is that, else Windows'.

    A guess by the frequency of letters takes short lists of names for Korean, so none is made.
    """
    for mark, encoding in MARKS.items():
        if raw.startswith(mark):
            return encoding
    if b"\0" in raw[:4]:
        return "utf-16-be" if raw[:1] == b"\0" else "utf-16-le"
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8"


def _separator(lines: list[str]) -> str:
    """Return what sets the columns apart: what is commonest in the headings."""
    head = next((line for line in lines if line.strip()), "")
    return max(SEPARATORS, key=head.count)
