"""The median, and distinct values. NumPy's own load, on a first call, all it has for masked values: that takes long."""

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Number = TypeVar("Number", np.float64, np.intp)


def median(values: NDArray[np.float64]) -> float:
    """The middle one of values (k,), k ≥ 1, or the mean of the middle two; not a number where any is none."""
    ordered = np.sort(values).tolist()
    half = len(ordered) // 2
    if math.isnan(ordered[-1]):
        return math.nan
    return float(ordered[half]) if len(ordered) % 2 else float((ordered[half - 1] + ordered[half]) / 2)


def distinct(values: NDArray[Number]) -> NDArray[Number]:
    """Values (k,) in their order, each once."""
    ordered = np.sort(values)
    first = np.ones(len(ordered), dtype=bool)
    first[1:] = ordered[1:] != ordered[:-1]
    return ordered[first]
