"""The class at a glance, as plain text for a terminal, in words rather than colour."""

from fuelmarks.book.record import ClassRecord, Entry, Row
from fuelmarks.marking.wording import SHORT, WORDS, short

__all__ = ["class_table"]

WIDTH = 6


def class_table(record: ClassRecord) -> str:
    """Return the table of trainees by questions, with what the columns and words mean."""
    wide = max([len(entry.trainee.name) for entry in record.entries] + [7])
    head = "".join(f"{question.number:>{WIDTH}}" for question in record.questions)
    most = "".join(f"{question.out_of:>{WIDTH}g}" for question in record.questions)
    lines = [f"{'trainee':<{wide}}{head}   points", f"{'out of':<{wide}}{most}{record.out_of:>9g}"]
    lines += [_line(entry, wide) for entry in record.entries]
    return "\n".join([*lines, "", *_key(record)])


def _line(entry: Entry, wide: int) -> str:
    """Return one trainee's line."""
    if not entry.rows:
        return f"{entry.trainee.name:<{wide}}  {entry.reason}"
    cells = "".join(f"{short(row.verdict):>{WIDTH}}" for row in entry.rows)
    return f"{entry.trainee.name:<{wide}}{cells}{entry.points:>9g}{'+' if entry.waits else ''}"


def _key(record: ClassRecord) -> list[str]:
    """Return what the numbers and the words mean."""
    names = [f"{question.number} {question.title}" for question in record.questions]
    rows: list[Row] = [row for entry in record.marked for row in entry.rows]
    seen = {row.verdict.partition(":")[0] for row in rows}
    meant = [f"{SHORT[one]} = {WORDS[one]}" for one in SHORT if one in seen]
    if "slip" in seen:
        meant.append("slip = a known slip, told in the comment")
    if "hint" in seen:
        meant.append("hint = looks like a slip, which the comment asks about")
    if any(entry.waits for entry in record.marked):
        meant.append("+ = more to come, marked by hand")
    return [*_wrapped(names), "", *_wrapped(meant)]


def _wrapped(parts: list[str], width: int = 98) -> list[str]:
    """Return `parts` set side by side in lines of `width` or fewer."""
    lines = [""]
    for part in parts:
        if lines[-1] and len(lines[-1]) + 3 + len(part) > width:
            lines.append("")
        lines[-1] += f"   {part}" if lines[-1] else part
    return lines
