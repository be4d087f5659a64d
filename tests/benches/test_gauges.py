"""The gauge bench: published factors on its dials, and a drawing to scale."""

from typing import Any

import pytest
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.gauges.bench import GaugesBench
from fuelcircuits.benches.gauges.drawing import FLOOR, KILOPASCAL, WATER

from tests.benches.checks import ends, whole

BENCH = GaugesBench()


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def reading(found: State, label: str) -> str:
    return next(line.text("SI") for line in found.readings if line.label == label)


@pytest.mark.parametrize(
    ("changed", "label", "text"),
    [
        # NIST Special Publication 811 (2008), appendix B.8: inch of mercury (32 degF) 3386.38 Pa,
        # inch of water (39.2 degF) 249.082 Pa, psi 6894.757 Pa
        ({"vacuum": 10 * 3386.38}, "Vacuum, mercury", "10.0 inHg"),
        ({"port": 4 * 249.082}, "Idle-port vacuum, water", "4.00 inH₂O"),
        ({"fuel_pressure": 5 * 6894.757}, "Fuel pressure, shop", "5.00 psi"),
        # ANSI/ASME B94.11M: number 53 is 0.0595 in across
        ({"drill": 53.0}, "Drill, across", "1.51 mm"),
        ({"vacuum": 60e3, "barometer": 100e3}, "Absolute in the manifold", "40.0 kPa"),
    ],
)
def test_readings_agree_with_published_factors(
    changed: dict[str, float], label: str, text: str
) -> None:
    assert reading(state(**changed), label) == text


@pytest.mark.parametrize(
    ("kelvin", "celsius", "fahrenheit"), [(273.15, "0 °C", "32 °F"), (373.15, "100 °C", "212 °F")]
)
def test_both_thermometers_agree_at_ice_and_steam_point(
    kelvin: float, celsius: str, fahrenheit: str
) -> None:
    texts = [each.measure.text(each.value, "SI") for each in state(temperature=kelvin).gauges[-2:]]
    assert texts == [celsius, fahrenheit]


def test_more_vacuum_than_air_is_refused_in_words() -> None:
    found = state(vacuum=90e3, barometer=80e3)
    assert found.alarm
    assert "more vacuum than" in found.verdict


def test_drawing_is_to_scale() -> None:
    at = state(vacuum=60e3, barometer=100e3, port=500.0).numbers
    assert (FLOOR - at["air"]) / KILOPASCAL == pytest.approx(100e3)
    assert (at["manifold"] - at["air"]) / KILOPASCAL == pytest.approx(60e3)
    assert (at["left"] - at["right"]) / WATER == pytest.approx(500.0)


@pytest.mark.parametrize("shown", ["vacuum", "fuel_pressure", "port", "temperature"])
@pytest.mark.parametrize("name", ["low", "high"])
def test_every_plot_holds_its_dot_at_both_ends(shown: str, name: str) -> None:
    outermost = {key: getattr(control, name) for key, control in BENCH.controls().items()}
    panel = state(**outermost, converted=shown).chart.panels[0]
    assert panel.dot is not None
    assert panel.y.low <= panel.dot.y <= panel.y.high


def test_words_carry_the_numbers() -> None:
    assert "60.0 kPa along is 17.7 inHg up" in state().plotted


def test_every_number_is_one_and_the_drawing_has_all_it_asks_for() -> None:
    assert [whole(BENCH, BENCH.compute(each, "US")) for each in ends(BENCH)] == [
        [] for _ in ends(BENCH)
    ]
