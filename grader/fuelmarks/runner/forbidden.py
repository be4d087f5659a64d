"""Why a system forbids the namespaces that a notebook's walls are made of, and what to do."""

from pathlib import Path

__all__ = ["is_forbidden", "what_to_do"]

SIGNS = (
    *("namespace", "uid map", "uid_map", "setgroups", "unshare", "pivot_root", "mount proc"),
    *("remount", "loopback", "failed to make / slave"),
)
"""What bubblewrap and the kernel speak of when they may not put the walls up."""
SWITCHES = (
    ("kernel/apparmor_restrict_unprivileged_userns", "1", "0", "AppArmor"),
    ("kernel/unprivileged_userns_clone", "0", "1", "a setting of the kernel"),
    ("user/max_user_namespaces", "0", "15000", "a setting of the kernel"),
)
"""Settings below /proc/sys, the value that forbids, one that allows, and whose they are."""
CONTAINERS = (".dockerenv", "run/.containerenv", "run/systemd/container")
OTHERWISE = "or, if you would let this class use this very computer, mark with --trust-class"


def is_forbidden(complaint: str) -> bool:
    """Say whether a complaint of the sandbox's is about namespaces or mounts."""
    said = complaint.lower()
    return any(sign in said for sign in SIGNS)


def what_to_do(complaint: str, root: Path = Path("/")) -> str:
    """Return one sentence: what forbids the sandbox here, and what allows it."""
    who, advice = _reason(root)
    said = complaint.strip().removeprefix("bwrap: ")
    return f"the sandbox needs namespaces, which {who} here ({said}): {advice}, {OTHERWISE}"


def _reason(root: Path) -> tuple[str, str]:
    """Return what forbids namespaces, and what to do about it."""
    for name, forbids, allows, whose in SWITCHES:
        try:
            found = (root / "proc/sys" / name).read_text().strip()
        except OSError:
            continue
        if found == forbids:
            setting = name.replace("/", ".")
            return f"{whose} forbids", f"as administrator run `sysctl -w {setting}={allows}`"
    if any((root / name).exists() for name in CONTAINERS):
        return "this container forbids", (
            "mark outside it, or start it with `--security-opt seccomp=unconfined "
            "--security-opt apparmor=unconfined --security-opt systempaths=unconfined`"
        )
    return "this system forbids", "mark on a computer that allows them to ordinary users"
