"""What the tests of the exchange share: the service, a class, and one round of its work."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom import own_exchange
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.sending import release
from fuelmarks.course.course import Course

from tests.server.counter import Counter, counter
from tests.server.pressing import NOTEBOOK, answer, press
from tests.small_unit import UNIT, new_course


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Counter]:
    with counter(tmp_path_factory.mktemp("counter")) as found:
        yield found


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    found = new_course(tmp_path_factory.mktemp("course"), trainees=2)
    build(found, UNIT)
    list(hand_out(found, UNIT))
    return found


@pytest.fixture
def become(desk: Counter, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Have what follows done by somebody."""
    monkeypatch.setenv(own_exchange.ADDRESS, desk.address)

    def as_whom(name: str) -> None:
        monkeypatch.setenv(own_exchange.TOKEN, f"token-of-{name}")

    return as_whom


@pytest.fixture(scope="module")
def round_of_work(
    desk: Counter, course: Course, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, Path]:
    """One round as far as the hand-in, by both trainees; return where each works."""
    homes = {name: tmp_path_factory.mktemp(name) for name in ("t001", "t002")}
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(own_exchange.ADDRESS, desk.address)
        patch.setenv(own_exchange.TOKEN, "token-of-teacher")
        assert [why for _, why in release(course, UNIT)] == ["", ""]
        for name, home in homes.items():
            patch.setenv(own_exchange.TOKEN, f"token-of-{name}")
            press("FetchAssignment", home)
            answer(home / UNIT / NOTEBOOK, f"Words of {name}.")
            press("Submit", home)
    return homes
