"""Run the cells of marked notebooks in one warm process: ``python -m … FOLDER``.

Prints the seconds that the cells took as one JSON object, by the clock and of the processor, the
first notebook left out because it warms up.
"""

import contextlib
import io
import json
import os
import sys
import tempfile
import time
from pathlib import Path

from fuelmarks.course.notebook import read
from fuelmarks.runner.shell import new_shell


def main() -> None:
    """Run every notebook below the folder in a fresh namespace of the same interpreter."""
    shell, wall, processor = new_shell(), list[float](), list[float]()
    paths = sorted(Path(sys.argv[1]).resolve().rglob("*.ipynb"))
    for path in [paths[0], *paths]:
        sources = [cell.source for cell in read(path).cells if cell.cell_type == "code"]
        start, began = time.perf_counter(), time.process_time()
        with contextlib.redirect_stdout(io.StringIO()):
            for source in sources:
                shell.run_cell(source, store_history=True)  # type: ignore[no-untyped-call]
        wall.append(time.perf_counter() - start)
        processor.append(time.process_time() - began)
        shell.reset(new_session=True)  # type: ignore[no-untyped-call]
    print(json.dumps({"wall": sum(wall[1:]), "processor": sum(processor[1:])}))


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as scratch:
        os.chdir(scratch)
        main()
