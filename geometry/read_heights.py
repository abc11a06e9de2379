"""Heights as they were read, with their spread: as long as readings are accused it covers what each height would be
without them.
"""

from typing import NamedTuple

import numpy as np

from geometry.frame import Array
from geometry.layout import TWO_SIDED_95, Side
from geometry.neck import SIDES
from geometry.sample import Sample, sample
from geometry.strings.heights import FRETS


class Height(NamedTuple):
    """A height and its standard deviation, mm, and the ids of the accused readings that it hangs on."""

    mm: float
    sd: float
    waits_for: tuple[str, ...] = ()


def read_height(seen: Sample, place: str, side: Side) -> Height | None:
    """A height as it was read; None where it was not."""
    name = f"height.{place}.{side}"
    own = sample(seen.surveyed, (), (name,))
    rows = own.unknown(name)
    if rows is None:
        return None
    return Height(float(rows[0]), float(own.pm95(rows)) / TWO_SIDED_95, own.waits_for(rows))


def action_sd(seen: Sample) -> Array:
    """The standard deviation of the heights read over frets 1 and 12 at [left, right], (2, 2) mm; 0 where none was."""
    read = [[read_height(seen, fret, side) for side in SIDES] for fret in FRETS]
    return np.array([[height.sd if height is not None else 0.0 for height in row] for row in read])


def action_waits_for(seen: Sample) -> tuple[str, ...]:
    """The ids of the accused readings that the heights over frets 1 and 12 hang on."""
    read = (read_height(seen, fret, side) for fret in FRETS for side in SIDES)
    return tuple(dict.fromkeys(name for height in read if height is not None for name in height.waits_for))
