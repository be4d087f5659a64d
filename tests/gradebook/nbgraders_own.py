"""nbgrader's commands one after the other in one process, each as ``python -m nbgrader`` does it.

Words of a command in one argument; ``copy FROM TO`` copies a folder in between. Prints as JSON how
each ended and what it logged.
"""

import contextlib
import io
import json
import shutil
import sys
from collections.abc import Iterator

from jupyter_core.application import NoStart
from nbgrader.apps import NbGraderApp


def said(command: str) -> Iterator[object]:
    """Do one command; yield its exit status and what it logged."""
    name, *words = command.split()
    if name == "copy":
        shutil.copytree(words[0], words[1])
        yield from (0, "")
        return
    log, status = io.StringIO(), 0
    app = NbGraderApp.instance()
    with contextlib.redirect_stderr(log):
        try:
            app.initialize([name, *words])
            app.start()
        except NoStart:  # what was asked for is done
            status = 0
        except SystemExit as end:
            status = end.code if isinstance(end.code, int) else int(bool(end.code))
    type(app.subapp or app).clear_instance()
    yield from (status, log.getvalue())


if __name__ == "__main__":
    told = [list(said(command)) for command in sys.argv[1:]]
    print(json.dumps(told))
