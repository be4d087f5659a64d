"""The command: plain help, clear exit codes, and never a traceback for bad input."""

import io
import shutil
import subprocess
import sys
from pathlib import Path

import fuelmarks.commands
import pytest
from fuelmarks.classroom.progress import Progress
from fuelmarks.commands.cli import COMMANDS, main
from fuelmarks.course.course import Course
from fuelmarks.course.personal import sheet_of

from tests.places import COURSE_FOLDER
from tests.small_unit import EXERCISES, TEXT, UNIT, new_course


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The folder of a course with a class of two."""
    return new_course(tmp_path / "course", trainees=2).root


def run(folder: Path, *words: str) -> int:
    return main([*words, "--course", str(folder)])


def loaded_by(*words: str) -> set[str]:
    """Return the modules that are loaded once the command has been run apart with `words`."""
    code = (
        "import sys\nfrom fuelmarks.commands.cli import main\n"
        f"try: main({words!r})\nexcept SystemExit: pass\n"
        "print(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.splitlines()[-1].split())


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main([name, "--help"])
    assert ended.value.code == 0
    assert COMMANDS[name][1] in capsys.readouterr().out.replace("\n", " ")


def test_every_module_of_a_command_is_in_the_table() -> None:
    shared = {"__init__", "arguments", "cli", "left_out", "saying"}
    stems = {path.stem for path in Path(fuelmarks.commands.__path__[0]).glob("*.py")} - shared
    assert stems == {stem for stem, _ in COMMANDS.values()}


def test_help_comes_without_loading_the_whole_house() -> None:
    loaded = loaded_by("--help")
    assert not loaded & {"nbgrader", "sqlalchemy", "jupytext", "nbformat", "numpy", "pint"}
    assert not loaded & {f"fuelmarks.commands.{stem}" for stem, _ in COMMANDS.values()}


def test_a_command_loads_its_own_module_and_no_other_commands() -> None:
    loaded = loaded_by("next", "--help") & {f"fuelmarks.commands.{s}" for s, _ in COMMANDS.values()}
    assert loaded == {"fuelmarks.commands.next"}


def test_who_learns_alone_waits_for_nothing_of_the_gradebook() -> None:
    assert not loaded_by("next", "--help") & {"nbgrader", "sqlalchemy", "jupytext"}


REFUSED = {
    "no course": (("build", "--course", "nowhere"), "course folder must hold a folder units"),
    "no such unit": (("build", "91-other"), "unit must be one of 90-small-unit, got '91-other'"),
    "too few sheets": (("check", UNIT, "--sheets", "9"), "sheets must be 10 or more, got 9"),
    "not built": (("hand-out", UNIT), "90-small-unit must be built before it is used"),
    "nothing returned": (("collect", UNIT, "nowhere"), "returned must be a folder of notebooks"),
    "nothing handed in": (("mark", UNIT, "--only", "t001"), "trainee must have handed in"),
    "not marked": (("report", UNIT), "must be"),
}


@pytest.mark.parametrize(("words", "message"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_begin_ends_with_two_and_one_line(
    folder: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], message: str
) -> None:
    code = main(list(words)) if "--course" in words else run(folder, *words)
    said = capsys.readouterr().err
    assert code == 2
    assert said.startswith("fuelmarks: ")
    assert message in said
    assert said.count("\n") == 1


def test_a_wrong_text_is_named_with_its_line(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "units" / UNIT / "unit.md").write_text(TEXT.replace("{predict}", "{guess}"))
    assert run(folder, "build") == 2
    assert "unit.md, line 13: directive must be one of" in capsys.readouterr().err


def test_the_glossary_is_written_beside_the_course(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "glossary.toml").write_text('["well"]\nunit = "90"\nmeans = "A deep hole."\n')
    assert run(folder, "glossary") == 0
    assert capsys.readouterr().out.endswith("glossary.html\n")
    assert "A deep hole." in (folder / "glossary.html").read_text("utf-8")


def test_the_owners_notebook_is_built_by_its_name(folder: Path) -> None:
    course = COURSE_FOLDER
    for part in ("own-car", "rigs"):
        shutil.copytree(course / part, folder / part, dirs_exist_ok=True)
    assert run(folder, "build", "own-car") == 0
    assert (folder / "release" / "own-car" / "own-car.ipynb").is_file()


def test_a_demonstration_overwrites_nothing_of_yours(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear all")
    assert run(folder, "demo", "--into", str(tmp_path / "mine")) == 2
    assert "into must be a new folder or an earlier demonstration" in capsys.readouterr().err
    assert (tmp_path / "mine" / "letter.txt").read_text() == "dear all"


@pytest.mark.parametrize("number", ["0", "-3", "1001"])
def test_a_demonstration_has_a_sensible_class(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], number: str
) -> None:
    into = str(tmp_path / "demo")
    assert run(folder, "demo", "--into", into, f"--trainees={number}") == 2
    assert "trainees must be between 1 and 1000" in capsys.readouterr().err


def answered(folder: Path, trainee: str) -> str:
    """Return the notebook that was handed out to `trainee`, with one answer in it."""
    handed_out = (folder / "handout" / trainee / UNIT / f"{UNIT}.ipynb").read_text()
    return handed_out.replace('seat_area = \\"\\"', 'seat_area = \\"3 mm2\\"')


def test_a_unit_goes_from_text_to_report(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    returned = folder / "returned"
    assert run(folder, "build", UNIT) == 0
    assert run(folder, "hand-out", UNIT) == 0
    returned.mkdir()
    (returned / "any name.ipynb").write_text(answered(folder, "t001"))
    (returned / "unit.ipynb").write_text(answered(folder, "t002")[:-2000])
    assert run(folder, "collect", UNIT, str(returned)) == 1
    assert run(folder, "mark", UNIT) == 1
    assert run(folder, "mark", UNIT, "--only", "t001") == 0
    assert run(folder, "report", UNIT) == 0
    said = capsys.readouterr()
    assert "2 notebooks in" in said.out
    assert ": 2 new, 0 there before, 0 refused" in said.out
    assert "2 kept of 2 delivered" in said.out
    assert "1 marked, 0 marked before, 1 passed over" in said.out
    assert "0 marked, 1 marked before, 0 passed over" in said.out
    assert "passed over t002: 90-small-unit.ipynb must be a whole notebook" in said.err
    assert (folder / "reports" / UNIT / "class.html").exists()


def test_a_time_for_nobody_in_the_class_is_said_when_a_unit_is_handed_out(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(folder, "build", UNIT) == 0
    (folder / "term.toml").write_text(
        f"[exam.{UNIT}]\ncloses = 2099-01-10T12:00:00\nlonger = {{ t0l1 = 20 }}\n"
    )
    assert run(folder, "hand-out", UNIT) == 0
    assert f"exam {UNIT}: trainee must be in class.csv, got 't0l1'" in capsys.readouterr().out


def test_who_is_marked_and_left_the_class_is_named(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    built(folder)
    (folder / "returned" / "a.ipynb").write_text(answered(folder, "t001"))
    assert run(folder, "collect", UNIT, str(folder / "returned")) == 0
    assert run(folder, "mark", UNIT) == 0
    assert "left out" not in capsys.readouterr().out
    lines = (folder / "class.csv").read_text().splitlines()
    (folder / "class.csv").write_text("\n".join(line for line in lines if "t001" not in line))
    for command in ("mark", "report"):
        run(folder, command, UNIT)
        assert "t001 is marked and no longer in class.csv: left out" in capsys.readouterr().out


def built(folder: Path) -> None:
    """Build and hand out, with an empty folder for what comes back."""
    assert run(folder, "build", UNIT) == 0
    assert run(folder, "hand-out", UNIT) == 0
    (folder / "returned").mkdir()


def test_strange_files_are_told_and_end_with_one(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    built(folder)
    (folder / "returned" / "who.ipynb").write_text("{}")
    (folder / "returned" / "essays").mkdir()
    (folder / "returned" / "essays" / "essay.pdf").write_text("%PDF")
    assert run(folder, "collect", UNIT, str(folder / "returned")) == 1
    said = capsys.readouterr().out
    assert "must be a notebook with a list of cells, got none  who.ipynb" in said
    assert "left where they lie, no notebooks: essays/essay.pdf" in said
    assert "nothing from t001, t002" in said


def test_a_key_that_draws_nobodys_numbers_is_named(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    built(folder)
    (folder / "returned" / "a.ipynb").write_text(answered(folder, "t001"))
    (folder / "term.toml").write_text('key = "a key made by mistake"\n')
    assert run(folder, "collect", UNIT, str(folder / "returned")) == 1
    assert run(folder, "hand-out", UNIT) == 1
    said = capsys.readouterr().out
    assert "None of these notebooks holds numbers drawn with the key in term.toml." in said
    assert "refused for t001: " in said
    assert ": 0 new, 0 there before, 2 refused" in said


def test_a_time_that_was_told_counts_for_all(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    built(folder)
    with (folder / "term.toml").open("a") as file:
        file.write(f"[due]\n{UNIT} = 2026-01-10T12:00:00\n")
    (folder / "returned" / "a.ipynb").write_text(answered(folder, "t001"))
    told = ("--handed-in", "2026-01-11 13:30")
    assert run(folder, "collect", UNIT, str(folder / "returned"), *told) == 0
    assert "2026-01-11 13:30  late by 1 d 1 h  kept" in capsys.readouterr().out


def test_a_time_that_is_none_is_named(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        run(folder, "collect", UNIT, str(folder), "--handed-in", "yesterday")
    assert ended.value.code == 2
    assert "time must be like 2026-12-04 17:55, got 'yesterday'" in capsys.readouterr().err


@pytest.mark.parametrize("port", ["0", "65536", "-1", "http"])
@pytest.mark.parametrize("words", [("hand-mark", UNIT), ("study",)], ids=lambda words: words[0])
def test_a_port_that_is_none_is_named(
    folder: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], port: str
) -> None:
    with pytest.raises(SystemExit) as ended:
        run(folder, *words, f"--port={port}")
    assert ended.value.code == 2
    assert f"port must be from 1 to 65535, got '{port}'" in capsys.readouterr().err


def test_a_changed_mark_is_said_in_a_line(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    built(folder)
    path = folder / "returned" / "a.ipynb"
    area = sheet_of(Course.at(folder), EXERCISES, "t001").answers["seat-area"]
    for answer in ("1 kg", f"{1e6 * area:.4g} mm2"):
        path.write_text(answered(folder, "t001").replace("3 mm2", answer))
        assert run(folder, "collect", UNIT, str(folder / "returned")) == 0
        assert run(folder, "mark", UNIT) == 0
    said = capsys.readouterr()
    assert "kept in the place of attempt 1 of" in said.out
    assert "t001: 90-seat-area: 0 becomes 2" in said.err


class Screen(io.StringIO):
    """A terminal."""

    def isatty(self) -> bool:
        return True


def test_progress_on_a_terminal_is_a_bar() -> None:
    bar = Progress("marking", 4, screen := Screen())
    bar.step("t001")
    assert "█" * 7 + "·" * 21 + " 1/4 t001" in screen.getvalue()


def test_progress_elsewhere_is_a_line_now_and_then() -> None:
    bar = Progress("marking", 100, file := io.StringIO())
    for number in range(100):
        bar.step(str(number))
    assert file.getvalue().splitlines() == [f"marking {n}/100" for n in range(10, 101, 10)]
