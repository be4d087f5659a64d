"""What a learning platform says of whoever comes by way of it: who that is to it, where marks go.

One file for each account, written by the hub at every login and read by the exchange. The claims
are those of 1EdTech's "LTI Core Specification 1.3" and "Assignment and Grade Services 2.0", 3.1.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from fuelmarks.course.whole_file import put_whole

__all__ = ["CUSTOM", "LINE_ITEM", "SCORE", "UNIT", "Launch", "launch_of", "note_launch"]

CLAIM = "https://purl.imsglobal.org/spec/lti/claim"
CUSTOM = f"{CLAIM}/custom"
GRADES = "https://purl.imsglobal.org/spec/lti-ags"
SCORE, LINE_ITEM = f"{GRADES}/scope/score", f"{GRADES}/scope/lineitem"
UNIT = re.compile(r"\d\d-[a-z][a-z0-9-]{0,60}")


@dataclass(frozen=True)
class Launch:
    """Who somebody is to the platform, and the addresses that it gave for marks.

    `columns` is the address of all columns of its gradebook, `units` that of one by unit.
    """

    person: str
    deployment: str = ""
    columns: str = ""
    units: Mapping[str, str] = field(default_factory=dict)
    scopes: tuple[str, ...] = ()


def note_launch(folder: Path, account: str, claims: Mapping[str, Any]) -> None:
    """Keep what the platform says of `account`; one without a place for marks changes nothing."""
    said = claims.get(f"{GRADES}/claim/endpoint")
    if not isinstance(said, Mapping):
        return
    before = launch_of(folder, account)
    unit = claims.get(CUSTOM, {}).get("unit")
    own = {unit: _address(said.get("lineitem"))} if isinstance(unit, str) else {}
    launch = Launch(
        person=str(claims["sub"]),
        deployment=str(claims.get(f"{CLAIM}/deployment_id", "")),
        columns=_address(said.get("lineitems")),
        units={
            **(before.units if before else {}),
            **{one: way for one, way in own.items() if way and UNIT.fullmatch(one)},
        },
        scopes=tuple(str(one) for one in said.get("scope") or ()),
    )
    put_whole(folder / f"{account}.json", json.dumps(asdict(launch)).encode(), 0o640)


def launch_of(folder: Path, account: str) -> Launch | None:
    """Return how `account` came last by way of the platform, None if it never did."""
    try:
        held = json.loads((folder / f"{account}.json").read_bytes())
    except FileNotFoundError:
        return None
    return Launch(**{**held, "scopes": tuple(held["scopes"])})


def _address(said: object) -> str:
    """Return an address of the web, nothing for anything else."""
    fit = isinstance(said, str) and said.startswith(("https://", "http://"))
    return str(said) if fit else ""
