"""Heights as they were read, with their spread: as long as readings are accused it covers what each height would be
without them.
"""

import math
from typing import NamedTuple

import numpy as np

from geometry.frame import Array
from geometry.job.sides import SIDES, Side
from geometry.layout import TWO_SIDED_95
from geometry.perturbed_states import HANGS, PerturbedStates
from geometry.strings.string_heights import FRETS


class Height(NamedTuple):
    """A height and its standard deviation, mm, and the ids of the accused readings that it hangs on."""

    mm: float
    sd: float
    waits_for: tuple[str, ...] = ()


def read_height(states: PerturbedStates, place: str, side: Side) -> Height | None:
    """A height as it was read; None where it was not. It is an unknown of the survey itself, and nothing is carried."""
    surveyed = states.surveyed
    column = surveyed.extra_at.get(f"height.{place}.{side}")
    if column is None:
        return None
    variance = max(float(surveyed.cov[column, column]), 0.0)
    wide, waits = TWO_SIDED_95 * math.sqrt(variance), dict[str, None]()
    for other in surveyed.alternatives:
        change = abs(float(other.change[column]))
        if change > HANGS:
            waits.update(dict.fromkeys(other.ids))
        if not other.aside:
            more = float(other.more[column] @ other.more[column])
            wide = max(wide, change + TWO_SIDED_95 * math.sqrt(variance + more))
    return Height(float(surveyed.state[column]), wide / TWO_SIDED_95, tuple(waits))


def action_sd(states: PerturbedStates) -> Array:
    """The standard deviation of the heights read over frets 1 and 12 at [left, right], (2, 2) mm; 0 where none was."""
    read = [[read_height(states, fret, side) for side in SIDES] for fret in FRETS]
    return np.array([[height.sd if height is not None else 0.0 for height in row] for row in read])


def action_waits_for(states: PerturbedStates) -> tuple[str, ...]:
    """The ids of the accused readings that the heights over frets 1 and 12 hang on."""
    read = (read_height(states, fret, side) for fret in FRETS for side in SIDES)
    return tuple(dict.fromkeys(name for height in read if height is not None for name in height.waits_for))
