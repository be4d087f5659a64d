"""The key with which this server signs what it asks of a learning platform, and its public half."""

import json
import os
from pathlib import Path
from typing import Any

import jwt
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import rsa
from jwt.algorithms import RSAAlgorithm

from fuelmarks.course.whole_file import put_new

__all__ = ["KID", "ensure_key", "public_keys", "signed"]

KID = "fuelmarks"


def ensure_key(path: Path, group: int) -> None:
    """Make a key that root and `group` can read, if there is none."""
    if path.exists():
        return
    made = rsa.generate_private_key(public_exponent=65537, key_size=2048)
    kind, form = serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8
    put_new(path, made.private_bytes(kind, form, serialization.NoEncryption()), 0o640)
    os.chown(path, -1, group)


def public_keys(path: Path) -> dict[str, Any]:
    """Return the public half as a set of keys (RFC 7517), for the platform to fetch."""
    held = serialization.load_pem_private_key(path.read_bytes(), None)
    own = json.loads(RSAAlgorithm.to_jwk(held.public_key()))  # type: ignore[arg-type]
    return {"keys": [{**own, "kid": KID, "use": "sig", "alg": "RS256"}]}


def signed(path: Path, claims: dict[str, Any]) -> str:
    """Return claims with our signature (RFC 7519)."""
    return jwt.encode(claims, path.read_text(), algorithm="RS256", headers={"kid": KID})
