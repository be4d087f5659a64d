"""Run a command and print what it spent as one JSON object: ``python -m … COMMAND``.

Wall time, and the time of the processor in it and in all that it started, the orphans too: this
process takes them over (see prctl(2), PR_SET_CHILD_SUBREAPER) and waits for each. On a busy
computer the second says more than the first.
"""

import ctypes
import json
import os
import resource
import subprocess
import sys
import time
from contextlib import suppress

PR_SET_CHILD_SUBREAPER = 36


def main() -> int:
    """Run the command; what it prints goes to standard error."""
    ctypes.CDLL(None).prctl(PR_SET_CHILD_SUBREAPER, 1, 0, 0, 0)
    start = time.perf_counter()
    done = subprocess.run(sys.argv[1:], stdout=sys.stderr, check=False).returncode
    wall = time.perf_counter() - start
    with suppress(ChildProcessError):
        while True:
            os.wait()
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    print(json.dumps({"wall": wall, "processor": used.ru_utime + used.ru_stime}))
    return done


if __name__ == "__main__":
    sys.exit(main())
