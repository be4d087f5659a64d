"""What should run on Windows runs where Linux's own modules are missing, as they are there.

Nobody has tried it on Windows; this shows that nothing of ours asks for what is not there.
"""

import subprocess
import sys
from pathlib import Path

from tests.places import COURSE_FOLDER

WITHOUT = """
import builtins, os, sys
usual = builtins.__import__
MISSING = ("fcntl", "grp", "pwd", "resource", "termios")

def without(name, globals=None, locals=None, fromlist=(), level=0):
    asker = str((globals or {}).get("__name__", ""))
    if name in MISSING and asker.startswith(("fuelmarks", "fuelcircuits")):
        raise ModuleNotFoundError(f"{asker} asks for {name}")
    return usual(name, globals, locals, fromlist, level)

builtins.__import__ = without
from fuelmarks.commands.cli import main
sys.exit(main(sys.argv[1:]))
"""


def run(*words: str) -> subprocess.CompletedProcess[str]:
    asked = (sys.executable, "-P", "-c", WITHOUT, *words)
    return subprocess.run(asked, capture_output=True, text=True, check=False)


def test_learning_alone_needs_nothing_of_linux(tmp_path: Path) -> None:
    done = run("study", "--course", str(COURSE_FOLDER), "--into", str(tmp_path / "my"), "--no-lab")
    assert done.returncode == 0, done.stderr
    assert "Your course lies in" in done.stdout
    assert (tmp_path / "my" / "02-float-bowl").is_dir()
