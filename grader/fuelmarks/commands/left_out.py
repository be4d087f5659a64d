"""What commands say about people who are named or marked and not in the class."""

from fuelmarks.course.course import Course
from fuelmarks.gradebook.entered import who_is_marked

__all__ = ["say_who_is_left_out"]


def say_who_is_left_out(course: Course, unit: str) -> None:
    """Say who has a date of his own, or marks in `unit`, and does not stand in class.csv."""
    for sentence in course.strangers():
        print(sentence)
    known = {one.id for one in course.trainees()}
    for trainee in sorted(who_is_marked(course, unit) - known):
        print(f"{trainee} is marked and no longer in class.csv: left out")
