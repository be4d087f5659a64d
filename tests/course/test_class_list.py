"""The class list is read as spreadsheets and platforms save it, and refused with file and line."""

from pathlib import Path

import pytest
from fuelmarks.course.class_list import COLUMNS, Trainee, read_class
from fuelmarks.course.course import CourseError

ADA = Trainee("t001", "Ada", "Floatwell", "ada@example.invalid")
ZOE = Trainee("t002", "Zoë", "O’Müller", "")
ROWS = (
    "id,first name,last name,email",
    "t001,Ada,Floatwell,ada@example.invalid",
    "t002,Zoë,O’Müller,",
)
ENCODINGS = ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the list lies."""
    return tmp_path / "class.csv"


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"], ids=repr)
@pytest.mark.parametrize("separator", [",", ";", "\t"], ids=repr)
@pytest.mark.parametrize("encoding", ENCODINGS)
def test_a_list_is_the_same_in_any_encoding_and_with_any_separator(
    path: Path, encoding: str, separator: str, ending: str
) -> None:
    text = ending.join(ROWS).replace(",", separator)
    path.write_bytes(text.encode(encoding))
    assert read_class(path) == (ADA, ZOE)


HEADS = {
    "another order": "email,last name,id,first name",
    "capitals": "E-Mail,Last Name,ID,First Name",
    "a platform": "Email address,Surname,ID number,First name",
    "another platform": "e_mail,family name,Student ID,Given name",
    "quoted": '"Email","Last name","Username","Forename"',
}


@pytest.mark.parametrize("head", HEADS.values(), ids=HEADS)
def test_columns_are_known_by_their_headings(path: Path, head: str) -> None:
    path.write_text(f"{head}\nada@example.invalid,Floatwell,t001,Ada\n")
    assert read_class(path) == (ADA,)


def test_a_group_is_known_and_other_columns_are_left_alone(path: Path) -> None:
    path.write_text("group,id,last access,first name\nB,t001,never,Ada\n")
    assert read_class(path) == (Trainee("t001", "Ada", group="B"),)


def test_the_plainest_of_two_headings_counts(path: Path) -> None:
    path.write_text("username,id,full name,last name,first name\nadaf,t001,Ada F.,Floatwell,Ada\n")
    assert read_class(path) == (Trainee("t001", "Ada", "Floatwell"),)


def test_a_whole_name_in_one_column_is_shown_as_it_is(path: Path) -> None:
    path.write_text("id,name\nt001,Ada Floatwell\n")
    assert read_class(path)[0].name == "Ada Floatwell"


def test_a_hint_that_a_spreadsheet_writes_for_itself_is_no_heading(path: Path) -> None:
    path.write_text("sep=;\nid;first name\nt001;Ada\n")
    assert read_class(path) == (Trainee("t001", "Ada"),)


def test_names_of_all_the_world_are_names(path: Path) -> None:
    names = ["Nguyễn Thị", "O'Brien", 'Ada "Flo"', "李小龍", "نرگس\u200cسادات", "Jr., Sam"]
    rows = [f't{at},"{name.replace(chr(34), 2 * chr(34))}"' for at, name in enumerate(names)]
    path.write_text("\n".join(["id,name", *rows]))
    assert [one.name for one in read_class(path)] == names


REFUSED = {
    "nothing": ("", "line 1: the headings must be id, first name, last name, email, got 'nothing'"),
    "no headings": ("t001,Ada\n", "line 1: the headings must be id, first name, last name, email"),
    "no id": ("first name\nAda\n", "line 1: the headings must be id,"),
    "id twice": ("id,id\nt1,t2\n", "line 1: one column alone must hold the id, got 'id, id'"),
    "a path": ("id\n../up\n", "line 2: id must be letters, digits, - and _, got '../up'"),
    "no id in a row": ("id,name\n,Ada\n", "line 2: id must be letters, digits, - and _, got ''"),
    "the specimen": ("id\nSpecimen\n", "line 2: id must not be specimen, which names no trainee"),
    "the same id": ("id\nt1\n\nt1\n", "line 4: id must be used once, got 't1'"),
    "nearly the same": ("id\nt1\nT1\n", "line 3: id must be used once, got 'T1'"),
    "a mark-up": ("id,name\nt1,Ada\nt2,<b>Eve\n", "line 3: last name must hold no <, > or &"),
    "an entity": (
        "id,name\nt1,&lt;Eve\n",
        "line 2: last name must hold no <, > or &",
    ),
    "mark-up in a mail": ("id,mail\nt1,<a@b>\n", "line 2: email must hold no <, > or &"),
    "turned round": (
        "id,name\nt1,a\u202eb\n",
        "line 2: last name must hold no control .*202E",
    ),
    "isolated": ("id,name\nt1,\u2066a\n", "must hold no control character such as U\\+2066"),
    "a bell": ("id,name\nt1,a\x07b\n", "must hold no control character such as U\\+0007"),
    "two lines": ('id,name\nt1,"a\nb"\n', "line 3: last name must hold no control character"),
    "unseen": ("id,name\nt1,a\u200bb\n", "must hold no control character such as U\\+200B"),
    "a comma too many": ("id,name\nt1,a,b\n", "line 2: a row must have no more than the 2 columns"),
    "an open quote": (
        'id,name\nt1,"abc\nt2,x\n',
        "line 3: must be a row of a table, got: ",
    ),
    "far too long": (f"id,name\nt1,{'a' * 300}\n", "last name must have 200 characters or fewer"),
}


@pytest.mark.parametrize(("text", "rule"), REFUSED.values(), ids=REFUSED)
def test_a_list_that_cannot_be_used_is_refused_with_file_line_and_rule(
    path: Path, text: str, rule: str
) -> None:
    path.write_text(text)
    with pytest.raises(CourseError, match=f"class.csv, .*{rule}"):
        read_class(path)


def test_a_list_that_is_not_there_is_named(path: Path) -> None:
    with pytest.raises(CourseError, match=r"class\.csv must exist, got no such file"):
        read_class(path)


def test_bytes_of_no_encoding_are_refused_with_their_line(path: Path) -> None:
    path.write_bytes(b"id,name\nt1,M\xfcller\nt2,\x81\n")
    with pytest.raises(CourseError, match="line 3: must be text in UTF-8, UTF-16 or Windows-1252"):
        read_class(path)


def test_the_columns_of_our_own_lists_are_known() -> None:
    assert COLUMNS == ("id", "first name", "last name", "email")
