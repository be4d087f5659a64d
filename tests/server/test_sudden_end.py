"""The exchange ends suddenly, over and over, and keeps all that it has answered."""

import base64
import random
import threading
import time
from pathlib import Path

import pytest
from fuelmarks.classroom import own_exchange

from tests.server.counter import counter


def test_what_was_answered_survives_a_sudden_end_and_the_trainee_notices_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The service is killed over and over while one trainee hands in, as his own server would."""
    chance = random.Random("sudden ends")
    with counter(tmp_path) as desk:
        for number in range(1, 7):
            desk.store.release(f"{number:02}-unit", "t001", {f"{number:02}-unit.ipynb": b"{}"})
        monkeypatch.setenv(own_exchange.ADDRESS, desk.address)
        monkeypatch.setenv(own_exchange.TOKEN, "token-of-t001")
        answered: list[tuple[str, str, int]] = []
        done = threading.Event()

        def work() -> None:
            link = own_exchange.Link(patience=60)
            for count in range(5):
                for number in range(1, 7):
                    unit, text = f"{number:02}-unit", f"{number} {count} " + "x" * 300_000
                    data = base64.b64encode(text.encode()).decode()
                    told = link.ask(
                        *("POST", "hand-ins", unit), body={"files": {f"{unit}.ipynb": data}}
                    )
                    answered.append((unit, text, told["number"]))
            done.set()

        worker = threading.Thread(target=work)
        worker.start()
        for _ in range(3):
            time.sleep(chance.uniform(0.02, 0.2))
            desk.kill()
            desk.begin()
        worker.join(120)
        assert done.is_set()
    for unit, text, number in answered:
        assert desk.store.one(unit, "t001", number).files()[f"{unit}.ipynb"].decode() == text
    kept = {unit: len(desk.store.hand_ins(unit, "t001")) for unit, _, _ in answered}
    assert kept == {f"{number:02}-unit": 5 for number in range(1, 7)}
