from itertools import pairwise
from math import nan

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.quantities.drills import LARGEST, SMALLEST, diameter_of

from tests.published.table import Row, rows

NUMBERS = range(LARGEST, SMALLEST + 1)


# ANSI/ASME B94.11M; each row says where it was seen.
@pytest.mark.parametrize("row", rows("13 number drill diameter"))
def test_drill_has_its_published_diameter(row: Row) -> None:
    assert diameter_of(int(row.number("#"))) / 25.4e-3 == row.digits


def test_a_larger_number_is_a_smaller_drill() -> None:
    bores = [diameter_of(number) for number in NUMBERS]
    assert all(larger > smaller for larger, smaller in pairwise(bores))


@pytest.mark.parametrize(
    ("number", "message"),
    [
        (0, "between 1 and 97"),
        (98, "between 1 and 97"),
        (53.5, "whole number"),
        (nan, "got nan"),
    ],
)
def test_drill_that_does_not_exist_is_refused(number: float, message: str) -> None:
    with pytest.raises(RangeError, match=f"drill number must be .*{message}"):
        diameter_of(number)
