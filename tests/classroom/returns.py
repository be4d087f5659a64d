"""A corpus of returned work, each with the rows of the table that it must give.

A return is a function that fills a `Box`; its rows are trainee, outcome, and part of the words.
"""

import os
import stat
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from fuelmarks.classroom.collected import Outcome

from tests.classroom.box import Box, Notebook, replaced, zipped
from tests.small_unit import UNIT

__all__ = ["RETURNS", "Return", "RowAsked"]

RowAsked = tuple[str, Outcome, str]
Fill = Callable[[Box], Any]
PLATFORM = "{name}_{number}_assignsubmission_file_/{unit}.ipynb"
PICTURE = b"\x89PNG\r\n\x1a\n"


@dataclass(frozen=True)
class Return:
    """One return: how the box is filled, and the rows that come of it."""

    fill: Fill
    rows: tuple[RowAsked, ...]


RETURNS: dict[str, Return] = {}


def gives(*rows: RowAsked) -> Callable[[Fill], Fill]:
    """Note a return under the words of its name."""

    def note(fill: Fill) -> Fill:
        RETURNS[fill.__name__.replace("_", " ")] = Return(fill, rows)
        return fill

    return note


KEPT: RowAsked = ("t001", "kept", "kept")


@gives(KEPT)
def named_as_it_was_handed_out(box: Box) -> None:
    box.put(f"{UNIT}.ipynb", box.text("t001"))


@gives(KEPT)
def named_as_one_likes(box: Box) -> None:
    box.put("my homework FINAL v2.ipynb", box.text("t001"))


@gives(KEPT)
def a_browsers_second_download(box: Box) -> None:
    box.put(f"{UNIT} (1).ipynb", box.text("t001"))


@gives(KEPT)
def deep_in_folders(box: Box) -> None:
    box.put(f"term/group b/week 3/{UNIT}.ipynb", box.text("t001"))


@gives(KEPT)
def in_a_folder_with_the_id(box: Box) -> None:
    box.put(f"t001/{UNIT}.ipynb", box.text("t001"))


@gives(KEPT)
def in_a_folder_with_the_name_turned_about(box: Box) -> None:
    box.put(f"LAST1, First1/{UNIT}.ipynb", box.text("t001"))


@gives(KEPT, ("t002", "untouched", "nothing is written in it"), ("t003", "untouched", "as it was"))
def the_very_folder_that_hand_out_wrote(box: Box) -> None:
    for one in ("t001", "t002", "t003"):
        box.put(f"{one}/{UNIT}/{UNIT}.ipynb", box.text(one, "3 mm2" if one == "t001" else ""))


@gives(KEPT, ("t002", "kept", "kept"))
def two_people_in_one_folder(box: Box) -> None:
    box.put("a.ipynb", box.text("t001"))
    box.put("b.ipynb", box.text("t002"))


@gives(KEPT)
def one_file_and_no_folder(box: Box) -> None:
    box.root = box.put("unit.ipynb", box.text("t001"))


@gives(KEPT)
def a_zip_and_no_folder(box: Box) -> None:
    box.root = box.put("all.zip", zipped({"unit.ipynb": box.text("t001")}))


@gives(KEPT)
def a_zip_with_another_ending(box: Box) -> None:
    box.put("homework.ipynb", zipped({"unit.ipynb": box.text("t001")}))


@gives(KEPT, ("t002", "kept", "kept"))
def a_platforms_download(box: Box) -> None:
    names = [PLATFORM.format(name=f"First{n} Last{n}", number=88 + n, unit=UNIT) for n in (1, 2)]
    box.put("course-90.zip", zipped(dict(zip(names, map(box.text, ("t001", "t002")), strict=True))))


@gives(KEPT, ("t002", "kept", "kept"))
def a_platforms_download_of_everybodys_zip(box: Box) -> None:
    inner = {
        f"First{n} Last{n}_{n}/mine.zip": zipped({"x.ipynb": box.text(f"t00{n}")}) for n in (1, 2)
    }
    box.put("course-90.zip", zipped(inner))


@gives(KEPT)
def packed_with_backslashes(box: Box) -> None:
    box.put("w.zip", zipped({"t001\\unit.ipynb": box.text("t001")}))


@gives(KEPT)
def a_name_that_moves_the_cursor(box: Box) -> None:
    box.put("\x1b[2J\u202e\nevil\x07.ipynb", box.text("t001"))


@gives(KEPT)
def saved_as_text(box: Box) -> None:
    box.put(f"{UNIT}.ipynb.txt", box.text("t001"))


@gives(KEPT)
def saved_as_json(box: Box) -> None:
    box.put(f"{UNIT}.json", box.text("t001"))


@gives(KEPT)
def without_an_ending(box: Box) -> None:
    box.put("notebook", box.text("t001"))


@gives(KEPT)
def with_jupyters_checkpoint_beside_it(box: Box) -> None:
    box.put(f"{UNIT}.ipynb", box.text("t001"))
    box.put(f".ipynb_checkpoints/{UNIT}-checkpoint.ipynb", box.text("t001", "2 mm2"))


@gives(KEPT)
def with_what_a_system_adds_to_a_zip(box: Box) -> None:
    box.put("a.zip", zipped({"x.ipynb": box.text("t001"), "__MACOSX/._x.ipynb": b"\0\5\x16\7"}))


@gives(KEPT)
def with_a_picture_that_it_names(box: Box) -> None:
    box.put("t001/x.ipynb", box.text("t001", words="See ![](gauge.png)."))
    box.put("t001/gauge.png", PICTURE)


@gives(("t001", "kept", "kept; gauge.png left out, 6 MB is more than 5"))
def with_a_picture_that_is_too_large(box: Box) -> None:
    box.put("t001/x.ipynb", box.text("t001", words="See ![](gauge.png)."))
    box.put("t001/gauge.png", PICTURE + bytes(6_000_000))


@gives()
def an_essay_and_no_notebook(box: Box) -> None:
    box.put("t001/essay.docx", b"PK no archive")


@gives(KEPT)
def in_utf_8_with_a_mark(box: Box) -> None:
    box.put("x.ipynb", box.text("t001").encode("utf-8-sig"))


@gives(KEPT)
def in_utf_16(box: Box) -> None:
    box.put("x.ipynb", box.text("t001").encode("utf-16"))


def stripped(notebook: Notebook, *, ids: bool) -> Notebook:
    """Return `notebook` without its cells' metadata, and without their ids."""
    for cell in notebook["cells"]:
        cell["metadata"] = {}
        if ids:
            del cell["id"]
    return {**notebook, "nbformat_minor": 4 if ids else 5, "metadata": {}}


@gives(KEPT)
def with_its_metadata_stripped(box: Box) -> None:
    box.put("x.ipynb", stripped(box.notebook("t001"), ids=False))


@gives(KEPT)
def with_metadata_and_ids_stripped(box: Box) -> None:
    box.put("x.ipynb", stripped(box.notebook("t001"), ids=True))


@gives(("t002", "untouched", "as it was handed out"))
def stripped_and_untouched(box: Box) -> None:
    box.put("x.ipynb", stripped(box.notebook("t002", ""), ids=True))


@gives(KEPT)
def with_outputs_and_cells_of_ones_own(box: Box) -> None:
    notebook = box.notebook("t001")
    shown = {"output_type": "stream", "name": "stdout", "text": ["trainee='t002'\n"]}
    box.cell(notebook, "90-begin")["outputs"] = [shown]
    notebook["cells"].insert(3, {"cell_type": "code", "source": ["x = 1"], "metadata": {}})
    box.put("x.ipynb", notebook)


@gives(("t002", "kept", "kept"))
def words_alone(box: Box) -> None:
    box.put("x.ipynb", box.text("t002", "", "The float lifts."))


@gives(KEPT)
def with_its_set_up_deleted(box: Box) -> None:
    notebook = box.notebook("t001")
    notebook["cells"].remove(box.cell(notebook, "90-begin"))
    box.put("x.ipynb", notebook)


@gives(KEPT)
def with_its_set_up_written_another_way(box: Box) -> None:
    other = replaced(box.notebook("t001"), "begin(", "begin(\n    ")
    box.put("x.ipynb", replaced(other, 'trainee="t001"', "trainee = 't001'"))


@gives(KEPT)
def with_a_number_of_the_set_up_written_over(box: Box) -> None:
    notebook = box.notebook("t001")
    cell = box.cell(notebook, "90-begin")
    cell["source"] = "".join(cell["source"]) + "\nseat_bore = Q(99, 'mm')"
    box.put("x.ipynb", notebook)


@gives(KEPT)
def with_its_questions_deleted(box: Box) -> None:
    notebook = box.notebook("t001")
    notebook["cells"] = [one for one in notebook["cells"] if not one["id"].endswith("-ask")]
    box.put("x.ipynb", notebook)


@gives(("", "nobody's", "holds neither the set-up cell nor a question of 90-small-unit"))
def a_notebook_of_something_else(box: Box) -> None:
    code = {"cell_type": "code", "source": "print(1)", "metadata": {}}
    box.put("Untitled.ipynb", {"nbformat": 4, "nbformat_minor": 4, "metadata": {}, "cells": [code]})


@gives(("", "nobody's", "shows neither a trainee's name nor the numbers of just one"))
def a_notebook_without_name_and_numbers(box: Box) -> None:
    notebook = box.notebook("t001")
    kept = [one for one in notebook["cells"] if one["id"] in ("90-seat-area", "90-say-it-ask")]
    box.put("x.ipynb", {**notebook, "cells": kept})


@gives(KEPT, ("t001", "kept", "kept in the place of attempt 1 of 2026-11-09"))
def an_attempt_and_a_better_one(box: Box) -> None:
    box.put("a.ipynb", box.text("t001", "2 mm2"), hour=11)
    box.put("b.ipynb", box.text("t001", "3 mm2"), hour=12)


@gives(("t001", "older", "kept, but attempt 1 of 2026-11-09 .* is newer and counts"))
def an_older_file_that_comes_later(box: Box) -> None:
    box.earlier("a.ipynb", box.text("t001", "3 mm2"), day=9)
    box.put("b.ipynb", box.text("t001", "2 mm2"), day=8)


@gives(("t001", "kept", "kept in the place of attempt 1 of 2026-11-08"))
def a_newer_file_that_comes_later(box: Box) -> None:
    box.earlier("a.ipynb", box.text("t001", "2 mm2"), day=8)
    box.put("b.ipynb", box.text("t001", "3 mm2"), day=9)


@gives(KEPT, ("t001", "kept before", "the same as attempt 1, kept before"))
def the_same_twice_in_one_delivery(box: Box) -> None:
    box.put("a.ipynb", box.text("t001"))
    box.put("b/a.ipynb", box.text("t001"))


@gives(("t001", "kept before", "the same as attempt 1, kept before"))
def the_same_again(box: Box) -> None:
    box.earlier("a.ipynb", box.text("t001"))
    box.put("other name.ipynb", box.text("t001"), day=10)


@gives(KEPT, ("t001", "kept", "kept in the place of attempt 1"))
def two_downloads_of_the_same_second(box: Box) -> None:
    box.put(f"{UNIT} (1).ipynb", box.text("t001", "3 mm2"))
    box.put(f"{UNIT}.ipynb", box.text("t001", "2 mm2"))


@gives(("t001", "kept", "found where marking looks, kept"))
def one_that_was_put_there_by_hand(box: Box) -> None:
    place = box.course.notebook("submitted", UNIT, "t001")
    place.parent.mkdir(parents=True)
    place.write_text(box.text("t001"))
    box.root.mkdir(exist_ok=True)


@gives(
    ("t001", "kept", "found where marking looks, kept"),
    ("t001", "kept", "kept in the place of attempt 1"),
)
def one_that_takes_the_place_of_one_put_there_by_hand(box: Box) -> None:
    place = box.course.notebook("submitted", UNIT, "t001")
    place.parent.mkdir(parents=True)
    place.write_text(box.text("t001", "2 mm2"))
    box.date(place, 5)
    box.put("x.ipynb", box.text("t001"))


@gives(("t001", "another's", "is the work of t001, delivered as t002"))
def anothers_work_in_ones_own_folder(box: Box) -> None:
    box.put(f"t002/{UNIT}.ipynb", box.text("t001"))


@gives(("t001", "another's", "is the work of t001, delivered as t002"))
def anothers_work_in_a_platforms_folder(box: Box) -> None:
    name = PLATFORM.format(name="First2 Last2", number=12345, unit=UNIT)
    box.put("course.zip", zipped({name: box.text("t001")}))


@gives(("t001", "another's", "is the work of t001, delivered as t002"))
def anothers_work_under_ones_own_file_name(box: Box) -> None:
    box.put(f"{UNIT}-t002.ipynb", box.text("t001"))


@gives(("t002", "another's", "holds the numbers of t001 under the name of t002"))
def anothers_numbers_under_ones_own_name(box: Box) -> None:
    box.put("x.ipynb", replaced(box.notebook("t001"), 'trainee="t001"', 'trainee="t002"'))


@gives(("t002", "another's", "holds the numbers of t001 under the name of t002"))
def anothers_questions_under_ones_own_set_up(box: Box) -> None:
    notebook, own = box.notebook("t001"), box.notebook("t002")
    box.cell(notebook, "90-begin")["source"] = box.cell(own, "90-begin")["source"]
    box.put("t002/x.ipynb", notebook)


@gives(("t099", "another's", "holds the numbers of t001 under the name of t099"))
def anothers_numbers_under_a_strangers_name(box: Box) -> None:
    box.put("x.ipynb", replaced(box.notebook("t001"), 'trainee="t001"', 'trainee="t099"'))


@gives(("t001", "another unit", "holds unit 91-other-unit, not 90-small-unit"))
def another_unit(box: Box) -> None:
    box.put("t001.ipynb", replaced(box.notebook("t001"), UNIT, "91-other-unit"))


@gives(KEPT, ("t001", "another unit", "holds unit 91-other-unit"))
def two_units_in_one_folder(box: Box) -> None:
    box.put("t001/a.ipynb", box.text("t001"), day=8)
    box.put("t001/b.ipynb", replaced(box.notebook("t001"), UNIT, "91-other-unit"), day=9)


@gives(("t009", "not in the class", "t009 is not in class.csv"))
def one_who_left_the_class(box: Box) -> None:
    box.put("x.ipynb", box.text("t009"))


@gives(("specimen", "nobody's", "is the notebook for learning alone, with the specimen's numbers"))
def the_notebook_for_learning_alone(box: Box) -> None:
    box.put("t001.ipynb", box.course.notebook("release", UNIT).read_text())


@gives(("t001", "other numbers", "holds numbers of nobody in the class: the key in term.toml"))
def one_handed_out_with_another_key(box: Box) -> None:
    box.put("x.ipynb", box.text("t001"))
    (box.course.root / "term.toml").write_text('key = "a key made by mistake"\n')


@gives(("t001", "damaged", "kept; it must be a whole notebook, got a damaged file"))
def broken_off(box: Box) -> None:
    text = box.text("t001")
    box.put("x.ipynb", text[: len(text) * 2 // 3])


@gives(("", "unreadable", "it must be a whole notebook, got a damaged file"))
def broken_off_before_it_says_whose_it_is(box: Box) -> None:
    box.put("t001.ipynb", box.text("t001")[:200])


@gives(("t001", "another's", "is the work of t001, delivered as t002"))
def anothers_work_broken_off(box: Box) -> None:
    box.put("t002.ipynb", box.text("t001")[:-500])


@gives(("t001", "damaged", "kept, but attempt 1 of .* can be read and counts; it must be"))
def one_that_is_damaged_after_a_whole_one(box: Box) -> None:
    box.earlier("a.ipynb", box.text("t001"), day=8)
    box.put("b.ipynb", box.text("t001", "4 mm2")[:-500], day=9)


@gives(("t001", "kept", "kept in the place of attempt 1 of 2026-11-09"))
def a_whole_one_after_one_that_is_damaged(box: Box) -> None:
    box.earlier("a.ipynb", box.text("t001")[:-500], day=9)
    box.put("b.ipynb", box.text("t001"), day=8)


@gives(("", "unreadable", "got a damaged file"))
def an_empty_file(box: Box) -> None:
    box.put(f"{UNIT}.ipynb", b"")


@gives(("", "unreadable", "got a damaged file"))
def a_log_in_page_saved_as_a_notebook(box: Box) -> None:
    box.put(f"{UNIT}.ipynb", "<!doctype html><title>Log in</title>")


@gives(("", "unreadable", "must be a notebook with a list of cells, got none"))
def a_notebook_of_long_ago(box: Box) -> None:
    box.put("x.ipynb", {"nbformat": 3, "worksheets": [{"cells": []}]})


@gives(("", "unreadable", "must have 2000 cells or fewer, got 2001"))
def far_too_many_cells(box: Box) -> None:
    box.put("x.ipynb", {"cells": [{}] * 2001})


@gives(("", "unreadable", "must be smaller than 21 MB, got 50 MB"))
def fifty_megabytes(box: Box) -> None:
    with box.put("x.ipynb", b"{").open("wb") as file:
        file.truncate(50_000_000)


@gives(("", "unreadable", "must be a plain file"))
def a_link_to_the_key(box: Box) -> None:
    box.root.mkdir()
    (box.root / "t001.ipynb").symlink_to(box.course.root / "term.toml")


@gives(("", "unreadable", "must be a plain file, got another kind"))
def a_pipe(box: Box) -> None:
    box.root.mkdir()
    os.mkfifo(box.root / "t001.ipynb")


@gives(KEPT)
def a_folder_named_like_the_notebook(box: Box) -> None:
    box.put(f"{UNIT}.ipynb/{UNIT}.ipynb", box.text("t001"))


@gives(KEPT, ("", "unreadable", "must lie inside the archive, got a path that leads out of it"))
def a_zip_that_leads_out_of_itself(box: Box) -> None:
    members = {"../../../term.toml.ipynb": box.text("t002"), "x.ipynb": box.text("t001")}
    box.put("a.zip", zipped(members))


@gives(("", "unreadable", "got a path that leads out of it"))
def a_zip_with_a_path_from_the_root(box: Box) -> None:
    box.put("a.zip", zipped({"/etc/x.ipynb": box.text("t001")}))


@gives(("", "unreadable", "got a path that leads out of it"))
def a_zip_with_a_drive(box: Box) -> None:
    box.put("a.zip", zipped({"C:\\x.ipynb": box.text("t001")}))


@gives(("", "unreadable", "must be a plain file, got a link"))
def a_zip_with_a_link(box: Box) -> None:
    def link(one: zipfile.ZipInfo) -> None:
        one.external_attr = (stat.S_IFLNK | 0o777) << 16

    box.put("a.zip", zipped({"x.ipynb": "/etc/hostname"}, link))


@gives(("", "unreadable", "must be open to be read, got one that asks for a password"))
def a_zip_with_a_password(box: Box) -> None:
    raw = bytearray(zipped({"x.ipynb": box.text("t001")}))
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        raw[raw.index(sign) + at] |= 1
    box.put("a.zip", bytes(raw))


@gives(KEPT, ("", "unreadable", "must be smaller than 21 MB, got 30 MB"))
def a_zip_with_a_member_that_grows(box: Box) -> None:
    box.put("a.zip", zipped({"x.ipynb": box.text("t001"), "bomb.ipynb": bytes(30_000_000)}))


@gives(("", "unreadable", "must hold less than 1 GB unpacked, got more; unpack it yourself"))
def a_zip_that_is_a_bomb(box: Box) -> None:
    raw = bytearray(zipped({f"{n}.ipynb": bytes(1000) for n in range(3)}))
    at = 0
    while (at := raw.find(b"PK\x01\x02", at) + 1) > 0:
        raw[at + 23 : at + 27] = (500_000_000).to_bytes(4, "little")
    box.put("a.zip", bytes(raw))


@gives(("", "unreadable", "must hold 10000 files or fewer, got 10001"))
def a_zip_of_far_too_many_files(box: Box) -> None:
    box.put("a.zip", zipped({f"{n}": b"" for n in range(10_001)}))


@gives(("", "unreadable", "must be a whole zip archive, got"))
def a_zip_that_is_broken_off(box: Box) -> None:
    box.put("a.zip", zipped({"x.ipynb": box.text("t001")})[:500])


@gives(KEPT, ("", "unreadable", "must be whole in the archive, got"))
def a_zip_with_a_damaged_member(box: Box) -> None:
    raw = bytearray(zipped({"x.ipynb": box.text("t002"), "y.ipynb": box.text("t001")}))
    raw[100] ^= 0xFF
    box.put("a.zip", bytes(raw))


@gives(KEPT, ("", "unreadable", "must be whole in the archive, got: Corrupt input data"))
def a_zip_with_a_damaged_member_that_is_packed_another_way(box: Box) -> None:
    def tighter(one: zipfile.ZipInfo) -> None:
        one.compress_type = zipfile.ZIP_LZMA if one.filename == "x.ipynb" else one.compress_type

    raw = bytearray(zipped({"x.ipynb": box.text("t002"), "y.ipynb": box.text("t001")}, tighter))
    raw[100:140] = bytes(40)
    box.put("a.zip", bytes(raw))


@gives(KEPT)
def a_zip_with_a_member_without_a_name(box: Box) -> None:
    raw = bytearray(zipped({"x": "left", "y.ipynb": box.text("t001")}))
    for sign, at in ((b"PK\x03\x04", 30), (b"PK\x01\x02", 46)):
        raw[raw.index(sign) + at] = 0
    box.put("a.zip", bytes(raw))


@gives(KEPT, ("", "unreadable", "must be a whole zip archive, got: 'utf-8' codec can't decode"))
def a_zip_whose_list_of_names_is_no_text(box: Box) -> None:
    raw = zipped({"é.ipynb": box.text("t002")}).replace("é".encode(), b"\xff\xfe")
    box.put("a.zip", raw)
    box.put("x.ipynb", box.text("t001"))


@gives(("", "unreadable", "must be a notebook or a zip, got an archive to unpack first"))
def an_archive_in_an_archive_in_an_archive(box: Box) -> None:
    inner = zipped({"x.zip": zipped({"x.ipynb": box.text("t001")})})
    box.put("a.zip", zipped({"b.zip": inner}))


@gives(("", "unreadable", "must be a notebook or a zip, got an archive to unpack first"))
def an_archive_of_another_kind(box: Box) -> None:
    box.put("t001.rar", b"Rar!\x1a\x07\x01\x00")


@gives(
    (
        "t001",
        "kept",
        "kept; its time was 2096-10-02 07:06 UTC, which is still to",
    )
)
def a_time_that_lies_in_the_future(box: Box) -> None:
    path = box.put("x.ipynb", box.text("t001"))
    os.utime(path, (4_000_000_000, 4_000_000_000))


@gives(KEPT)
def one_that_is_late_and_was_told_the_time(box: Box) -> None:
    box.put("x.ipynb", box.text("t001"))
    box.when = datetime(2026, 11, 12, 12, tzinfo=UTC)


@gives(KEPT, ("t001", "unreadable", "must be a plain file, got another kind; move it away"))
def a_folder_where_marking_looks(box: Box) -> None:
    box.course.notebook("submitted", UNIT, "t001").mkdir(parents=True)
    box.put("x.ipynb", box.text("t001"))
