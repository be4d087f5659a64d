"""Mark copies of one submission in a process of its own: ``python -m … COURSE UNIT QUARTER``.

Prints one JSON object: seconds and peak memory [bytes] after every `QUARTER` notebooks.
"""

import json
import resource
import sys
import time
from pathlib import Path

from fuelmarks.course import Course
from fuelmarks.mark_class import mark_class


def main() -> None:
    """Mark everything and tell how it went."""
    course, unit, quarter = Course.at(Path(sys.argv[1])), sys.argv[2], int(sys.argv[3])
    seconds, peak = [], []
    for count, done in enumerate(mark_class(course, unit)):
        if done.state != "marked":
            raise SystemExit(f"{done.trainee} must be marked, got {done.state}: {done.reason}")
        if count % quarter == 0 or (count + 1) % quarter == 0:
            seconds.append(time.monotonic())
            peak.append(1024 * resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
    print(json.dumps({"seconds": seconds, "peak": peak}))


if __name__ == "__main__":
    main()
