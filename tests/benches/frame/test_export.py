"""What leaves a bench for a handout: pictures and moving pictures that other programs read."""

import io
import sys
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from fuelcircuits.benches.frame.measure import LENGTH, SECONDS, System
from fuelcircuits.benches.frame.pixels import PictureError
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.physics.numerics.interpolation import linspace
from PIL import Image

from tests.benches.opening import bench

TIMES = linspace(0, 2, 21)
LEVEL = [0.01 * time for time in TIMES]
RISE = Panel(
    y=Axis("Level", LENGTH, 0, 0.02),
    curves=(Curve("lead", TIMES, LEVEL, "level"),),
    dot=Dot(TIMES, LEVEL),
)


class FillBench(TimeBench):
    """A bowl that fills in two seconds, drawn with the float bench's picture."""

    title = "A bowl fills"

    @classmethod
    def drawing(cls) -> str:
        return bench("float_bowl").drawing()

    def compute(self, values: Any, system: System) -> State:
        still = bench("float_bowl").state().numbers
        falling = {"surface": [250.0 - 50.0 * time for time in TIMES]}
        return State(
            readings=(Reading("Level", LEVEL, LENGTH),),
            numbers={**still, **falling},
            chart=Chart(Axis("Time", SECONDS, 0, 2), (RISE,)),
            verdict="It fills.",
            drawn="A bowl.",
            plotted="A line.",
            times=TIMES,
        )


def test_picture_is_saved_as_svg_and_as_png_twice_as_fine(tmp_path: Path) -> None:
    figure = bench("gauges").figure()
    vector = ElementTree.fromstring(figure.save(tmp_path / "one.svg").read_text("utf-8"))
    with Image.open(figure.save(tmp_path / "one.png")) as picture:
        size = [2 * float(vector.get(side) or 0) for side in ("width", "height")]
        assert list(picture.size) == size


def test_colours_of_the_drawing_reach_the_picture() -> None:
    with Image.open(io.BytesIO(bench("float_bowl").figure().png(zoom=1.0))) as picture:
        found = {ink: count for count, ink in picture.convert("RGB").getcolors(1 << 24) or []}
    fuel = (0xF7, 0xDC, 0xA4)  # the fuel's colour in bench.css
    assert found.get(fuel, 0) > 2000
    assert found.get((0, 0, 0), 0) < 200  # a variable left open is drawn black


@pytest.mark.parametrize("name", ["run.gif", "run.png"])
def test_run_is_saved_as_moving_pictures_that_differ(tmp_path: Path, name: str) -> None:
    made = FillBench()
    made.at = 0.5
    with Image.open(made.animate(tmp_path / name, frames=3, seconds=1.5)) as moving:
        assert getattr(moving, "n_frames", 1) == 3
        frames = []
        for number in range(3):
            moving.seek(number)
            frames.append(moving.convert("RGB").tobytes())
        assert moving.info["duration"] == 500
    assert len(set(frames)) == 3
    assert made.at == 0.5


def test_figure_of_a_run_shows_its_moment() -> None:
    made = FillBench()
    made.at = 1.5
    assert "Level: 15.0 mm" in made.figure().svg


@pytest.mark.parametrize("library", ["resvg_py", "PIL"])
def test_pictures_say_how_to_get_the_library_that_is_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, library: str
) -> None:
    monkeypatch.setitem(sys.modules, library, None)
    with pytest.raises(PictureError, match=r"pip install .fuelcircuits\[pictures\]"):
        FillBench().animate(tmp_path / "run.gif", frames=2)
