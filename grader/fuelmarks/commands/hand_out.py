"""``fuelmarks hand-out``: make a notebook for every trainee, each with numbers of his own."""

import argparse
from collections import Counter

from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.sending import release
from fuelmarks.commands.arguments import released_unit as options
from fuelmarks.commands.saying import near, say_sent
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Make a notebook for every trainee; return 1 if one that lies there does not fit."""
    course = Course.at(asked.course)
    for sentence in course.strangers():
        print(sentence)
    count: Counter[str] = Counter()
    for one in hand_out(course, asked.unit):
        count[one.state] += 1
        if one.reason:
            print(f"{one.state} for {one.trainee}: {near(one.path)} {one.reason}")
    new, there = count["made"] + count["made good"], count["there"]
    lie = f"{new + there} notebooks in {near(course.root / 'handout')}"
    print(f"{lie}: {new} new, {there} there before, {count['refused']} refused")
    fine = say_sent(release(course, asked.unit), "released") if asked.release else True
    return 0 if fine and not count["refused"] else 1
