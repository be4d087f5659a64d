"""The hub's configuration; `fuelmarks server start` has the hub read this file."""

import os
from pathlib import Path

from fuelmarks.server.class_server import read_server
from fuelmarks.server.hub import configure
from fuelmarks.server.running import note_start

server = read_server(Path(os.environ["FUELCIRCUITS_SERVER"]))
note_start(server)
configure(get_config(), server)  # type: ignore[name-defined]  # noqa: F821
