"""Run a trainee's notebook where it can do no harm, and bring back values only.

Examples
--------
>>> with Runner() as runner:
...     result = runner.run([Cell("needle", "hand_over(...)", hands_over=True)])
...     result.records["needle"]["magnitude"]
"""

from fuelmarks.runner.limits import Limits
from fuelmarks.runner.notebook import NotebookRunner, run_notebook
from fuelmarks.runner.protocol import ANSWER_MIME, Cell, Outcome, RunResult, Status
from fuelmarks.runner.runner import Runner
from fuelmarks.runner.sandbox import SandboxError

__all__ = [
    "ANSWER_MIME",
    "Cell",
    "Limits",
    "NotebookRunner",
    "Outcome",
    "RunResult",
    "Runner",
    "SandboxError",
    "Status",
    "run_notebook",
]
