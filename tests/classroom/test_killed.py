"""Killed anywhere and run again, hand-out, collect and mark lose nothing and double nothing."""

from pathlib import Path

from fuelmarks.runner import Runner

from tests.classroom.killing import TRAINEES, found_in, kills, new_class, play

KILLS = 12


def test_killed_at_random_moments_and_run_again_all_is_as_if_undisturbed(
    tmp_path: Path, runner: Runner
) -> None:
    course = new_class(tmp_path / "course")
    killed = kills(course, tmp_path / "killed", KILLS, runner)
    played = [(what, found_in(one)) for what, one in killed]
    play(course, runner)
    wanted = found_in(course)
    assert len(wanted["marks"]) == 4 * TRAINEES
    assert all(len(wanted[f"attempts of t00{n}"]) == 2 for n in range(1, TRAINEES + 1))
    assert sum(what.endswith("killed") for what, _ in played) >= KILLS // 2
    for what, found in played:
        assert found == wanted, what
