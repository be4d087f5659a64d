"""What is shared by the workers of a run is made once, and never seen half made."""

from pathlib import Path
from typing import Any
from unittest.mock import Mock

import pytest

from tests.once import made_once


@pytest.mark.parametrize("worker", ["", "gw1"])
def test_it_is_made_once_where_all_workers_see_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, worker: str
) -> None:
    monkeypatch.delenv("PYTEST_XDIST_WORKER", raising=False)
    if worker:
        monkeypatch.setenv("PYTEST_XDIST_WORKER", worker)
    own, made = tmp_path / "run" / "own", Mock()
    own.mkdir(parents=True)
    factory: Any = Mock(getbasetemp=lambda: own)
    found = {made_once(factory, "pages", made) for _ in range(3)}
    assert found == {(own.parent if worker else own) / "pages"}
    made.assert_called_once()


def test_who_fails_leaves_nothing_for_the_next(tmp_path: Path) -> None:
    factory: Any = Mock(getbasetemp=lambda: tmp_path / "own")
    (tmp_path / "own").mkdir()

    def fails(folder: Path) -> None:
        (folder / "half").write_text("half")
        raise ValueError("half way")

    with pytest.raises(ValueError, match="half way"):
        made_once(factory, "pages", fails)
    folder = made_once(factory, "pages", lambda into: (into / "whole").write_text("whole"))
    assert [path.name for path in folder.iterdir()] == ["whole"]
