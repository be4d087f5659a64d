"""Login by way of a learning platform (LTI 1.3): the platform vouches, our list says whose account.

The library takes another claim, the platform's own number for a person, where the configured one
is missing. That number could be somebody else's id here, so here a missing claim is a refusal.
"""

import json
from pathlib import Path
from typing import Any

from ltiauthenticator.lti13.auth import LTI13Authenticator
from tornado.web import HTTPError
from traitlets import Unicode

from fuelmarks.server.launches import CUSTOM, note_launch

__all__ = ["PlatformAuthenticator"]

PREFIX = "custom_"


class PlatformAuthenticator(LTI13Authenticator):  # type: ignore[misc]
    """Lets in whoever the platform vouches for, if the claim names somebody of the class."""

    people = Unicode(config=True, help="the list of accounts")
    launches = Unicode(config=True, help="the folder in which it is kept where marks go")

    def get_username(self, token: dict[str, Any]) -> str:
        """Return the account that the signed claim names; refuse where it names none."""
        key = self.username_key
        claims = token.get(CUSTOM, {}) if key.startswith(PREFIX) else token
        said = claims.get(key.removeprefix(PREFIX))
        if not isinstance(said, str) or not said:
            raise HTTPError(403, f"the platform must say {key} of whoever comes, got none")
        held = json.loads(Path(self.people).read_bytes())
        ids = {trainee.lower(): account for account, trainee in held["trainees"].items()}
        ids |= {name: name for name in held["instructors"]}
        if said.lower() not in ids:
            raise HTTPError(403, f"{key} must be in the class list of this server, got {said!r}")
        account = str(ids[said.lower()])
        if Path(self.launches).is_dir():
            note_launch(Path(self.launches), account, token)
        return account
