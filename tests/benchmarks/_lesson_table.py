"""What a lesson took: times of its steps, memory of each, processor time by kind of process."""

import pwd
import statistics
from collections import defaultdict
from contextlib import suppress
from pathlib import Path

import psutil

__all__ = ["Times", "compare", "memory", "show", "worked"]

Times = defaultdict[str, list[float]]
PROGRAMS = {
    "tests.benchmarks.lesson": "those who play the trainees",
    "-m jupyterhub": "hub",
    "configurable-http-proxy": "proxy",
    "exchange.service": "exchange",
    "own_forks.template": "root's template",
}


def memory(accounts: list[str]) -> list[float]:
    """Return the memory of every account's processes [MB], shared pages shared out."""
    held = {pwd.getpwnam(name).pw_uid: 0 for name in accounts}
    for process in psutil.process_iter(["uids"]):
        with suppress(OSError, psutil.Error):
            owner = process.info["uids"].real
            if owner in held:
                text = Path(f"/proc/{process.pid}/smaps_rollup").read_text()
                held[owner] += int(text.split("Pss:")[1].split()[0])
    return [kilobytes / 1024 for kilobytes in held.values()]


def worked(accounts: list[str]) -> dict[str, float]:
    """Return the processor time [s] that each kind of process has had so far."""
    owners = {pwd.getpwnam(name).pw_uid for name in accounts}
    found: dict[str, float] = defaultdict(float)
    for process in psutil.process_iter(["uids", "cmdline", "cpu_times"]):
        with suppress(psutil.Error, TypeError):
            words, times = " ".join(process.info["cmdline"]), process.info["cpu_times"]
            known = [what for sign, what in PROGRAMS.items() if sign in words]
            trainee = process.info["uids"].real in owners
            kind = "trainees" if trainee else known[0] if known else ""
            found[kind] += times.user + times.system
    del found[""]
    return found


def show(times: Times, wrong: list[str], whole: float, megabytes: list[float], busy: float) -> None:
    """Print the table."""
    print(f"all hands in after {whole:.1f} s; load before {busy:.1f}; {len(wrong)} failed")
    print("\n".join(wrong[:5]))
    for step, seconds in times.items():
        p95 = statistics.quantiles(seconds, n=20)[-1] if len(seconds) > 1 else seconds[0]
        print(f"{step:26} {statistics.median(seconds):7.1f} s {p95:7.1f} s p95 {len(seconds):4}")
    print(f"memory each {statistics.median(megabytes):.0f} MB, all {sum(megabytes):.0f} MB")


def compare(forked: Times, by_command: Times) -> None:
    """Print how many times as long each step took without forks."""
    print("\nby command over forked, medians:")
    for step, seconds in forked.items():
        ratio = statistics.median(by_command[step]) / statistics.median(seconds)
        print(f"{step:26} {ratio:7.1f}")
