"""Print a page of HTML to PDF with the Chromium of this machine."""

import shutil
import subprocess
import tempfile
from pathlib import Path

from fuelcircuits.errors import CircuitError

__all__ = ["PrintError", "find_chromium", "print_page"]

NAMES = ("chromium", "chromium-browser")
ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--no-pdf-header-footer",
)
SECONDS = 120.0


class PrintError(CircuitError, RuntimeError):
    """No PDF could be made; the message says what is missing."""


def find_chromium() -> str:
    """Return the path of Chromium; raise `PrintError` if there is none."""
    for name in NAMES:
        if path := shutil.which(name):
            return path
    raise PrintError(
        "chromium must be on PATH to make a PDF (Debian: apt-get install chromium), got none"
    )


def print_page(page: Path, pdf: Path, chromium: str) -> None:
    """Print `page` to `pdf`; raise `PrintError` if no new file comes of it."""
    pdf.unlink(missing_ok=True)
    with tempfile.TemporaryDirectory(prefix="print-") as profile:
        own = [f"--user-data-dir={profile}", f"--print-to-pdf={pdf.resolve()}"]
        command = [chromium, *ARGUMENTS, *own, page.resolve().as_uri()]
        try:
            done = subprocess.run(
                command, capture_output=True, text=True, timeout=SECONDS, check=False
            )
        except subprocess.TimeoutExpired as late:
            raise PrintError(f"chromium must print {page} within {SECONDS:g} s") from late
    if done.returncode or not pdf.exists():
        said = done.stderr.strip()[-300:]
        raise PrintError(f"chromium must print {page}, got exit code {done.returncode}: {said}")
