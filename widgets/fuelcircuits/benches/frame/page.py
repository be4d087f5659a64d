"""A bench as one file: no server, no network, no Python; for a phone or a projector.

``python -m fuelcircuits.benches.frame.page --into folder`` writes one page a bench.
"""

import argparse
import base64
import hashlib
import html
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from fuelcircuits.benches import BENCHES, open_bench
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.scripts import PAGE, STYLES, bundle, styles
from fuelcircuits.benches.frame.table import Table, tabulate
from fuelcircuits.cards import read_rig

__all__ = ["main", "page"]

SHELL = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; {rules}">
<title>{title}</title>
<style>{style}</style>
</head>
<body class="fc-page">
<main id="bench"></main>
<footer>{note}</footer>
<script type="application/json" id="about">{about}</script>
<script type="application/octet-stream" id="table">{table}</script>
<script type="module">{script}</script>
</body>
</html>
"""


def page(bench: Bench, rig: str = "", table: Table | None = None) -> str:
    """Return the page of a bench as HTML text.

    Parameters
    ----------
    bench
        The bench as it stands.
    rig
        Name of what it was computed for.
    table
        That of the bench, where it has been made already.
    """
    table = table or tabulate(bench)
    style, script = styles((*STYLES, "page.css")), bundle(PAGE)
    rules = f"style-src '{_digest(style)}'; script-src '{_digest(script)}'"
    return SHELL.format(
        rules=rules,
        title=html.escape(bench.title),
        style=style,
        note=html.escape(_note(bench, rig)),
        about=json.dumps(_about(bench, table)).replace("<", "\\u003c"),
        table=base64.b64encode(table.pack()).decode("ascii"),
        script=script,
    )


def _digest(text: str) -> str:
    """Return the hash by which a content security policy lets `text` run; W3C, CSP level 2."""
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode()


def _about(bench: Bench, table: Table) -> dict[str, Any]:
    """Return what the browser needs to build the bench, with the controls of the page only."""
    about = bench.about()
    every = {spec["name"]: spec for spec in about["controls"]}
    controls = [_listed(bench, axis, every[axis.name]) for axis in table.axes]
    start = {axis.name: getattr(bench, axis.name) for axis in table.axes}
    return about | {"controls": controls, "start": start, "heading": "h1"}


def _listed(bench: Bench, axis: Any, spec: dict[str, Any]) -> dict[str, Any]:
    """Return the spec of a control; where nothing blends, a number is chosen from a list."""
    control = bench.inputs()[axis.name]
    if axis.blends or not isinstance(control, Control):
        return spec
    both = [
        f"{control.measure.text(place, 'SI')} · {control.measure.text(place, 'US')}"
        for place in axis.places
    ]
    options = [{"value": v, "text": t} for v, t in zip(axis.places, both, strict=True)]
    facts = {"name": spec["name"], "label": spec["label"], "start": spec["start"]}
    return facts | {"kind": "choice", "options": options}


def _note(bench: Bench, rig: str) -> str:
    """Return in words what the page leaves as it stands."""
    kept = [
        f"{each.label.lower()} {each.measure.text(getattr(bench, name), 'SI')}"
        for name, each in bench.controls().items()
        if name not in bench.page_grid
    ]
    told = f"Computed for the invented rig {rig}. " if rig else ""
    return told + (f"Left as it stands: {', '.join(kept)}." if kept else "")


def main(arguments: Sequence[str] | None = None) -> int:
    """Write the page of every bench into a folder, and tell how large each is."""
    asked = argparse.ArgumentParser(prog="fuelcircuits.benches.frame.page", description=__doc__)
    asked.add_argument("--into", type=Path, required=True, help="folder the pages go to")
    asked.add_argument("--rig", type=Path, default=Path("course/rigs/plover.toml"))
    asked.add_argument("stems", nargs="*", default=list(BENCHES), help="benches; all by default")
    chosen = asked.parse_args(arguments)
    rig = read_rig(chosen.rig)
    chosen.into.mkdir(parents=True, exist_ok=True)
    for stem in chosen.stems:
        bench = open_bench(stem, rig)
        text = page(bench, rig.name if bench.needs_rig else "")
        (chosen.into / f"{stem}.html").write_text(text, encoding="utf-8")
        sys.stdout.write(f"{stem}.html: {len(text.encode('utf-8')) / 1000:.0f} kB\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
