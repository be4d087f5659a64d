"""A bench's live page: what it shows first stands in it, the rest Python in the page answers."""

import html
import json
from collections.abc import Mapping
from typing import Any, NamedTuple

from fuelcircuits.benches import bench_class
from fuelcircuits.benches.drive.bench import DriveBench
from fuelcircuits.benches.live import owner
from fuelcircuits.benches.live.day import about_day
from fuelcircuits.benches.live.desk import Desk

__all__ = [
    "DRIVE",
    "OWNER",
    "Release",
    "block",
    "drive_block",
    "drive_page",
    "owner_page",
    "page",
    "release_block",
]

SHELL = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'self'; img-src 'self' data:">
<title>{title}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="{home}live.css?{release}">
</head>
<body class="fc-page">
<main>
{main}
</main>
<footer>
<p id="fc-offline"></p>
<p>The rigs are invented. What you set stays on this device; nothing is sent anywhere.
<a href="index.html">All benches</a></p>
</footer>
{end}
</body>
</html>
"""
WORD = (
    "This page needs JavaScript and a web server: from a file on the disk it cannot run. "
    "A page with a table can (make benches)."
)


DRIVE = "drive"
"""Name of the driven carburettor's page."""
OWNER = "your-own-car"
"""Name of the page of an owner's card."""


class Release(NamedTuple):
    """What pages say of the release that they belong to; addresses are relative to the page."""

    name: str
    """Digest of scripts, Python and package."""
    bytes: int
    """What Python and the package come to on the way."""


def page(stem: str, desk: Desk, rigs: tuple[str, ...], release: Release, below: str = "") -> str:
    """Return the page of a bench as HTML text, with the HTML `below` under the bench.

    It lies in a folder beside the scripts' folder, and links to the list of benches in its own.
    """
    return SHELL.format(
        title=html.escape(bench_class(stem).title),
        home="../live/",
        release=release.name,
        main=block(stem, desk, rigs, page=f"{stem}.html", heading="h1", alone=True) + below,
        end=release_block(release, root="../", home="../live/"),
    )


def drive_page(desk: Desk, rigs: tuple[str, ...], release: Release, below: str = "") -> str:
    """Return the page of the driven carburettor as HTML text; see `page`."""
    return SHELL.format(
        title=html.escape(DriveBench.title),
        home="../live/",
        release=release.name,
        main=drive_block(desk, rigs, page=f"{DRIVE}.html", heading="h1", alone=True) + below,
        end=release_block(release, root="../", home="../live/"),
    )


def owner_page(release: Release) -> str:
    """Return the page of an owner's card as HTML text; it lies beside those of benches."""
    return SHELL.format(
        title="Your own car",
        home="../live/",
        release=release.name,
        main=_place("fc-owner", {"about": owner.about(), "day": about_day()}, "h1", alone=True),
        end=release_block(release, root="../", home="../live/"),
    )


def drive_block(
    desk: Desk,
    rigs: tuple[str, ...],
    *,
    page: str,
    heading: str,
    alone: bool = False,
    said: str = "",
) -> str:
    """Return the place of the driven carburettor in HTML; see `block`.

    `said` is what a link would say of the drive, as ``fault=car-1``.
    """
    parts = {rig: _asked(desk, {"ask": "drive", "rig": rig, "do": "about"}) for rig in rigs}
    *_, drawing = (part["about"].pop("drawing") for part in parts.values())
    data = {"page": page, "said": said, "rigs": list(rigs), "drawing": drawing, "parts": parts}
    return _place("fc-driven", data, heading, alone)


def block(
    stem: str, desk: Desk, rigs: tuple[str, ...], *, page: str, heading: str, alone: bool = False
) -> str:
    """Return the place of a bench in HTML, with all that it shows first.

    Parameters
    ----------
    stem, desk, rigs
        The bench, what answers, and the rigs that visitors choose from.
    page
        Address of the page on which the bench stands alone.
    heading
        Element of its title: h1, h2, h3.
    alone
        Whether this is that page; its state is then kept in the address.
    """
    known = rigs if bench_class(stem).needs_rig else ("",)
    parts = {rig: _part(stem, desk, rig) for rig in known}
    *_, drawing = (part["about"].pop("drawing") for part in parts.values())
    data = {
        "stem": stem,
        "title": bench_class(stem).title,
        "page": page,
        "rigs": list(rigs) if bench_class(stem).needs_rig else [],
        "drawing": drawing,
        "parts": parts,
    }
    return _place("fc-live", data, heading, alone)


def _place(kind: str, data: Mapping[str, Any], heading: str, alone: bool) -> str:
    """Return the element in which scripts build a bench from `data`."""
    mark = " data-alone" if alone else ""
    return (
        f'<div class="{kind}" data-heading="{heading}"{mark}><p>{WORD}</p>'
        f'<script type="application/json">{_safe(data)}</script></div>'
    )


def release_block(release: Release, *, root: str, home: str) -> str:
    """Return what a page with live benches ends with.

    `root` is the way to where the service worker lies, `home` to the scripts.
    """
    facts = {"root": root, "home": home, "release": release.name, "bytes": release.bytes}
    return (
        f'<script type="application/json" id="fc-release">{_safe(facts)}</script>\n'
        f'<script type="module" src="{home}live.js?{release.name}"></script>'
    )


def _part(stem: str, desk: Desk, rig: str) -> dict[str, Any]:
    """Return what a bench shows first on a rig; of the other units' side, what differs."""
    sides = {system: _first(desk, stem, rig, system) for system in ("SI", "US")}
    metric, shop = sides["SI"].pop("first"), sides["US"].pop("first")
    other = {name: value for name, value in shop.items() if value != metric[name]}
    return sides["SI"] | {"said": {"SI": metric, "US": other}}


def _first(desk: Desk, stem: str, rig: str, system: str) -> dict[str, Any]:
    return _asked(desk, {"ask": "bench", "stem": stem, "rig": rig, "system": system})


def _asked(desk: Desk, question: Mapping[str, Any]) -> dict[str, Any]:
    told: dict[str, Any] = json.loads(desk.ask(json.dumps(question)))
    return told


def _safe(data: Mapping[str, Any]) -> str:
    return json.dumps(data, separators=(",", ":")).replace("<", "\\u003c")
