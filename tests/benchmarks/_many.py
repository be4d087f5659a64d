"""Mark a class in a process of its own: ``python -m … COURSE UNIT QUARTER``.

Prints one JSON object: the seconds and the memory of this process [bytes] after the first
notebook and after every `QUARTER` of them; and once, while notebooks run, that of all processes.
"""

import json
import os
import sys
import time
from pathlib import Path

from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.course import Course

from tests.processes import memory, own_memory


def main() -> None:
    """Mark everything and tell how it went."""
    course, unit, quarter = Course.at(Path(sys.argv[1])), sys.argv[2], int(sys.argv[3])
    seconds, held, whole = [], [], 0
    for count, done in enumerate(mark_class(course, unit), start=1):
        if done.state != "marked":
            raise SystemExit(f"{done.trainee} must be marked, got {done.state}: {done.reason}")
        if count == 1 or count % quarter == 0:
            seconds.append(time.monotonic())
            held.append(own_memory(os.getpid()))
            whole = max(whole, memory(os.getpid()))
    print(json.dumps({"seconds": seconds, "memory": held, "whole": whole}))


if __name__ == "__main__":
    main()
