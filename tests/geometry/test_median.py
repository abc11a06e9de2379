"""The median, against its definition and NumPy's."""

import math

import numpy as np
import pytest

from geometry.median import median


@pytest.mark.parametrize(("values", "middle"), [([3.0], 3.0), ([4.0, 1.0, 9.0], 4.0), ([4.0, 1.0, 9.0, 5.0], 4.5)])
def test_it_is_the_middle_one_or_the_mean_of_two(values: list[float], middle: float) -> None:
    assert median(np.array(values)) == middle  # derived: by hand


def test_it_is_numpys_to_the_last_digit() -> None:
    values = np.random.default_rng(5)
    for count in range(1, 40):
        some = values.normal(size=count)
        assert median(some) == np.median(some)


def test_what_is_not_a_number_is_not_passed_over() -> None:
    assert math.isnan(median(np.array([1.0, math.nan, 2.0])))
