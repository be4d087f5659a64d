"""Notebooks that mean harm: nothing is read, forged or harmed, and the next one is marked.

Each file in ``tests/hostile`` is one such notebook; its first line says what it tries. An attack
prints SUCCEEDED, or what it was after. That the tests can fail is shown by running the same
attacks without walls, where they do succeed.
"""

import os
import socket
import subprocess
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from time import monotonic, sleep

import pytest
from fuelmarks.runner import Cell, Limits, Runner, RunResult

from tests.places import TOP
from tests.processes import below

HOSTILE = TOP / "tests" / "hostile"
CHECKOUT = TOP
SECRET = "plum-duff-and-custard"
LIMITS = Limits(cell_seconds=20, notebook_seconds=60, memory_bytes=512 << 20)
SHORT = Limits(cell_seconds=2, notebook_seconds=8, memory_bytes=512 << 20)

# Attacks on what lies outside the notebook; all of them succeed where there are no walls.
REACHING = [
    "connect_hidden_name",
    "connect_local",
    "connect_socket_file",
    "kernel_queues",
    "new_namespace",
    "open_sockets",
    "peek_memory",
    "read_accounts",
    "read_by_process_root",
    "read_by_symlink",
    "read_by_walking",
    "read_command_lines",
    "read_course",
    "read_environment",
    "read_gradebook",
    "read_key_sources",
    "read_keys",
    "read_neighbour",
    "signal_by_lock",
    "signal_by_watch",
    "signal_marking",
    "uncounted_memory",
    "waiting_input",
    "write_beside_course",
    "write_gradebook",
    "write_interpreter",
]
# Attacks that would harm this computer, or need its root, if there were no walls.
PRESSING = [
    "inherited_files",
    "kill_everyone",
    "kill_parent",
    "list_mounts",
    "many_processes",
    "mount_folders",
    "regain_privileges",
]
# Attacks on the time and the room there is, and what becomes of the attacking cell.
SPENDING = {
    "abort": "killed",
    "bad_pointer": "killed",
    "closed_channel": "killed",
    "deep_recursion": "error",
    "disk_bomb": "error",
    "endless_c": "timeout",
    "endless_loop": "timeout",
    "endless_reply": "error",
    "file_bomb": "error",
    "fork_bomb": "timeout",
    "hard_exit": "killed",
    "ignored_signals": "timeout",
    "left_behind": "ok",
    "long_line": "ok",
    "lost_output": "ok",
    "memory_bomb": "error",
    "memory_bomb_in_children": "killed",
    "output_bomb": "timeout",
    "raw_output_bomb": "timeout",
    "stopped": "timeout",
    "stubborn_loop": "timeout",
    "stuck_display": "timeout",
    "stuck_error": "timeout",
    "system_exit": "error",
    "talking_for_ever": "timeout",
    "talking_memory_bomb": "killed",
    "thread_bomb": "error",
    "turned_clock": "timeout",
    "wait_for_input": "error",
}
# Attacks on the record, and the magnitudes that are handed over after all. A notebook may say
# of its own answers what it likes; it cannot say more, or say it elsewhere.
FORGING: dict[str, dict[str, float | None]] = {
    "forged_display": {"needle": None, "inlet": None},
    "forged_huge_record": {},
    "forged_infinity": {},
    "forged_nesting": {},
    "forged_record": {},
    "forged_reply": {},
    "forged_twice": {},
    "leave_message": {"needle": None, "inlet": None},
    "patched_checks": {},
    "patched_shell": {},
    "patched_units": {"needle": None, "inlet": None},
    "poisoned_modules": {},
    "stolen_conversation": {"needle": 1.5, "inlet": 1.5},
}
ELSEWHERE = ["read_project_folder"]
"""Attacks that need more than a planted folder; see test_sandbox.py."""
ENDED = {name for name, status in SPENDING.items() if status == "killed"}


@pytest.fixture(scope="module")
def planted(tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, str]]:
    """Plant things worth having outside the walls, and say where they are."""
    folder = tmp_path_factory.mktemp("marking")
    for name in ("gradebook.db", "neighbour.ipynb"):
        (folder / name).write_text(SECRET)
    name = f"planted-{os.getpid()}"
    with (
        socket.create_server(("127.0.0.1", 0)) as door,
        socket.socket(socket.AF_UNIX) as by_file,
        socket.socket(socket.AF_UNIX) as by_name,
        subprocess.Popen(["cat"], stdin=subprocess.PIPE, env={"MARKING": SECRET}) as bystander,
    ):
        for listener, address in ((by_file, str(folder / "door")), (by_name, "\0" + name)):
            listener.bind(address)
            listener.listen()
        yield {
            "PLANTED_CHECKOUT": str(CHECKOUT),
            "PLANTED_FOLDER": str(folder),
            "PLANTED_GRADEBOOK": str(folder / "gradebook.db"),
            "PLANTED_NAME": name,
            "PLANTED_NEIGHBOUR": str(folder / "neighbour.ipynb"),
            "PLANTED_PORT": str(door.getsockname()[1]),
            "PLANTED_PROCESS": str(bystander.pid),
            "PLANTED_SOCKET": str(folder / "door"),
        }


@pytest.fixture(scope="module")
def walled() -> Iterator[Runner]:
    with Runner(limits=LIMITS) as runner:
        yield runner


@pytest.fixture(scope="module")
def unwalled() -> Iterator[Runner]:
    with Runner(limits=LIMITS, trust=True) as runner:
        yield runner


def attack(
    runner: Runner, name: str, planted: dict[str, str], limits: Limits | None = None
) -> RunResult:
    """Run one hostile notebook: set-up, the attack, then two questions left blank."""
    source = (HOSTILE / f"{name}.py").read_text()
    return runner.run([begin(planted), Cell("attack", source), *hand_overs()], limits)


def begin(planted: dict[str, str]) -> Cell:
    lines = [
        "import os",
        f"os.environ.update({planted!r})",
        "from fuelcircuits.answer_sheet.sheet import begin, hand_over",
        "from fuelcircuits.quantities.units import Q",
        'sheet = begin("02-float-bowl", trainee="specimen", mode="class")',
        "needle_force = inlet_area = None",
    ]
    return Cell("begin", "\n".join(lines))


def hand_overs() -> list[Cell]:
    call = 'hand_over("02-float-bowl", "{}", {}, unit="{}", low=0.05, high=20)'
    return [
        Cell("needle", call.format("needle-force", "needle_force", "N"), hands_over=True),
        Cell("inlet", call.format("inlet-area", "inlet_area", "mm**2"), hands_over=True),
    ]


def next_is_marked(runner: Runner) -> bool:
    """Run an honest notebook and say whether all of it arrived as it should."""
    answer = Cell("answer", 'needle_force = Q(1.5, "N")')
    result = runner.run([begin({}), answer, *hand_overs()])
    clean = all(outcome.status == "ok" for outcome in result.outcomes)
    record = result.records.get("needle")
    return (
        clean and record is not None and (record["magnitude"], record["units"]) == (1.5, "newton")
    )


def got_out(result: RunResult) -> bool:
    return SECRET in str(result) or "SUCCEEDED" in str(result)


def settles(before: int) -> bool:
    """Say whether no more processes are left than there were, once the dead are buried."""
    end = monotonic() + 60
    while len(below(os.getpid())) > before and monotonic() < end:
        sleep(0.02)
    return len(below(os.getpid())) <= before


def test_every_hostile_notebook_has_its_test() -> None:
    named = [*REACHING, *PRESSING, *SPENDING, *FORGING, *ELSEWHERE]
    assert sorted(named) == sorted(path.stem for path in HOSTILE.glob("*.py"))
    assert len(named) >= 30


@pytest.mark.parametrize("name", REACHING + PRESSING)
def test_walls_hold(walled: Runner, planted: dict[str, str], name: str) -> None:
    result = attack(walled, name, planted)
    assert not got_out(result)
    assert [outcome.status for outcome in result.outcomes[2:]] == ["ok", "ok"]
    assert next_is_marked(walled)


@pytest.mark.parametrize("name", REACHING)
def test_the_same_attack_succeeds_without_walls(
    unwalled: Runner, planted: dict[str, str], name: str
) -> None:
    assert got_out(attack(unwalled, name, planted))


@pytest.mark.parametrize("name", SPENDING)
def test_spending_costs_the_spender_alone(
    walled: Runner, planted: dict[str, str], name: str
) -> None:
    before = len(below(os.getpid()))
    result = attack(walled, name, planted, SHORT if SPENDING[name] == "timeout" else LIMITS)
    assert result.outcomes[1].status == SPENDING[name]
    assert len(result.outcomes[1].text) <= LIMITS.output_bytes
    assert settles(before)
    assert next_is_marked(walled)


@pytest.mark.parametrize("name", FORGING)
def test_a_notebook_speaks_for_its_own_answers_only(
    walled: Runner, planted: dict[str, str], name: str
) -> None:
    result = attack(walled, name, planted, SHORT)
    assert {cell: record["magnitude"] for cell, record in result.records.items()} == FORGING[name]
    assert next_is_marked(walled)


@pytest.mark.parametrize(("walls", "left"), [(True, []), (False, ["/tmp"])])
def test_messages_to_the_next_notebook(
    walled: Runner, unwalled: Runner, planted: dict[str, str], walls: bool, left: list[str]
) -> None:
    runner = walled if walls else unwalled
    attack(runner, "leave_message", planted)
    places = [Path(f, planted["PLANTED_NAME"]) for f in ("/tmp", "/dev/shm", "/var/tmp")]
    look = f"from pathlib import Path\n[p for p in {list(map(str, places))} if Path(p).exists()]"
    seen = runner.run([Cell("look", look)]).outcomes[0].text
    for place in places:
        place.unlink(missing_ok=True)
    assert all(folder in seen for folder in left)
    assert left or seen.strip() == "[]"


def test_an_answer_given_before_an_interrupted_cell_and_after_it_counts(walled: Runner) -> None:
    answer = Cell("answer", 'needle_force = Q(1.5, "N")')
    loop = Cell("loop", "while True: pass")
    result = walled.run([begin({}), answer, loop, *hand_overs()], SHORT)
    assert [o.status for o in result.outcomes] == ["ok", "ok", "timeout", "ok", "ok"]
    assert result.records["needle"]["magnitude"] == 1.5


def test_the_whole_corpus_in_one_class(walled: Runner, planted: dict[str, str]) -> None:
    names = [*REACHING, *PRESSING, *FORGING, *sorted(ENDED)]
    honest = [begin({}), Cell("answer", 'needle_force = Q(1.5, "N")'), *hand_overs()]
    hostile = [
        [begin(planted), Cell("attack", (HOSTILE / f"{n}.py").read_text()), *hand_overs()]
        for n in names
    ]
    notebooks = [nb for attack in hostile for nb in (attack, honest)]
    with ThreadPoolExecutor(len(os.sched_getaffinity(0))) as pool:
        results = list(pool.map(walled.run, notebooks))
    assert all(result.records["needle"]["magnitude"] == 1.5 for result in results[1::2])
    assert not any(got_out(result) for result in results[::2])
