"""Random numbers of our own: those published for the mixer, and evenly or normally spread."""

from itertools import islice, pairwise
from math import sqrt
from statistics import NormalDist, mean, pstdev

from fuelcircuits.benches.frame.noise import drawn, mixed, normal, uniform

MANY = 20_000
GOLDEN = 0x9E3779B97F4A7C15


def test_mixer_gives_the_published_numbers() -> None:
    # Rosetta Code, "Pseudo-random numbers/Splitmix64": the first five for the seed 1234567.
    found = [mixed(1234567 + count * GOLDEN) for count in range(1, 6)]
    assert found == [
        6457827717110365317,
        3203168211198807973,
        9817491932198370423,
        4593380528125082431,
        16408922859458223821,
    ]


def test_same_key_gives_the_same_numbers_and_every_part_of_it_counts() -> None:
    first = list(islice(drawn(3, 8), 4))
    assert list(islice(drawn(3, 8), 4)) == first
    for other in ((8, 3), (3, 9), (3,), (3, 8, 0)):
        assert not set(islice(drawn(*other), 4)) & set(first)


def test_numbers_are_spread_evenly() -> None:
    numbers = drawn(1)
    found = sorted(uniform(numbers, -1, 3) for _ in range(MANY))
    # Kolmogorov: the largest gap is below 1.63 / sqrt(n) in 99 of 100 samples.
    gaps = [abs((value + 1) / 4 - (rank + 0.5) / MANY) for rank, value in enumerate(found)]
    assert max(gaps) < 1.63 / sqrt(MANY)


def test_numbers_are_spread_normally_and_each_for_itself() -> None:
    numbers = drawn(2)
    found = [normal(numbers) for _ in range(MANY)]
    ranked = [NormalDist().cdf(each) for each in sorted(found)]
    gaps = [abs(value - (rank + 0.5) / MANY) for rank, value in enumerate(ranked)]
    assert max(gaps) < 1.63 / sqrt(MANY)
    follow = mean(one * other for one, other in pairwise(found))
    assert abs(follow) < 3 / sqrt(MANY)
    assert abs(pstdev(found) - 1) < 3 / sqrt(2 * MANY)
