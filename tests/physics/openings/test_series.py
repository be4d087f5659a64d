"""Two openings in series: against the drops that one flow needs through each."""

import pytest
from fuelcircuits.physics.openings.series import in_series


# Bernoulli: at one flow the two drops, each as 1 over the area squared, add up.
@pytest.mark.parametrize(("first", "second"), [(1e-6, 1e-6), (3e-7, 2e-6), (1e-5, 1e-9)])
def test_one_opening_has_the_drop_of_both(first: float, second: float) -> None:
    assert in_series(first, second) ** -2 == pytest.approx(first**-2 + second**-2, rel=1e-12)


@pytest.mark.parametrize(("first", "second"), [(0.0, 1e-6), (1e-6, 0.0), (0.0, 0.0)])
def test_a_shut_opening_shuts_both(first: float, second: float) -> None:
    assert in_series(first, second) == 0
