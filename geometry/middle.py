"""The median. NumPy's own loads, on its first call, all that it has for masked values: a wait of its own."""

import math

import numpy as np
from numpy.typing import NDArray


def median(values: NDArray[np.float64]) -> float:
    """The middle one of values (k,), k ≥ 1, or the mean of the middle two; not a number where any is none."""
    ordered = np.sort(values).tolist()
    half = len(ordered) // 2
    if math.isnan(ordered[-1]):
        return math.nan
    return float(ordered[half]) if len(ordered) % 2 else float((ordered[half - 1] + ordered[half]) / 2)
