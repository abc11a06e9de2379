"""What a hand gets wrong: a value misread, two values exchanged, frets left out, a rule whose end is worn."""

import math

import numpy as np

from geometry.job import Reading
from tests.campaign.invented.cases import Slip
from tests.campaign.invented.hands import LEAST, Values
from tests.campaign.invented.mirroring import other_side

ELSEWHERE = (1.0, 10.0)
"""A laying begins so far from where it is said to, mm."""
WORN = (0.3, 1.5)
"""So much of a rule's end is gone, mm (common practice, no source)."""
MISREAD = (1.0, 5.0)
"""A misread value is out by so much, mm."""
APART = (2.0, 60.0)
"""Two values that are exchanged differ by so much, mm."""
SEEN = 2.0
"""mm. An exchange that leaves a board's six lengths at one to less than this cannot be found out by anybody: it is some
four standard deviations of what their own errors leave (derived: 0.25 mm in each of six, 0.6 mm together)."""


def few_frets(
    random: np.random.Generator, readings: tuple[Reading, ...], taken: dict[str, Values]
) -> dict[str, Values]:
    """What is left where one to three frets a side are read, at random."""
    left_out = set()
    for side in ("left", "right"):
        ids = [reading.id for reading in readings if reading.kind == "fret" and reading.on == side]
        count = int(random.integers(1, min(3, len(ids)) + 1))
        left_out |= set(ids) - set(random.permutation(ids)[:count].tolist())
    return {name: values for name, values in taken.items() if name not in left_out}


def slipped(
    random: np.random.Generator, slip: Slip, readings: tuple[Reading, ...], taken: dict[str, Values]
) -> tuple[dict[str, Values], tuple[str, ...]]:
    """The values with the hand's slip, and which readings it made wrong."""
    measured = [reading for reading in readings if reading.id in taken and reading.kind not in ("inline", "height")]
    if slip == "swap":
        return _exchanged(random, measured, taken)
    if slip == "laying":
        return _laid_elsewhere(random, measured, taken)
    if slip == "worn":
        return _worn(float(random.uniform(*WORN)), readings, taken), ()
    if not slip:
        return taken, ()
    able = [reading for reading in measured if slip == "any" or reading.kind == "fret"]
    wrong = able[int(random.integers(len(able)))].id
    by = float(random.uniform(*MISREAD) * random.choice([-1, 1]))
    values = taken[wrong]
    # of a hole one rim is misread, and the far one stays beyond the near one
    slipped = (values[0] + by,) if len(values) == 1 else (values[0] + min(by, 0), values[1] + max(by, 0))
    return taken | {wrong: slipped}, (wrong,)


def _worn(by: float, readings: tuple[Reading, ...], taken: dict[str, Values]) -> dict[str, Values]:
    """All that the rule reads too much alike; no reading is wrong by itself."""
    ruled = {reading.id for reading in readings if (reading.with_ or "").startswith("rule")}
    return {name: tuple(v + by for v in values) if name in ruled else values for name, values in taken.items()}


def _laid_elsewhere(
    random: np.random.Generator, measured: list[Reading], taken: dict[str, Values]
) -> tuple[dict[str, Values], tuple[str, ...]]:
    """All readings of one laying out alike; one that would read under the rule's end reads so much more instead."""
    layings: dict[str, list[str]] = {}
    for reading in measured:
        if reading.laid:
            layings.setdefault(reading.laid, []).append(reading.id)
    able = [mine for mine in layings.values() if len(mine) > 1]
    if not able:
        return taken, ()
    mine = able[int(random.integers(len(able)))]
    by = float(random.uniform(*ELSEWHERE) * random.choice([-1, 1]))
    if min(taken[name][0] for name in mine) + by < LEAST:
        by = -by
    return taken | {name: tuple(value + by for value in taken[name]) for name in mine}, tuple(mine)


def _exchanged(
    random: np.random.Generator, measured: list[Reading], taken: dict[str, Values]
) -> tuple[dict[str, Values], tuple[str, ...]]:
    """Two values of one kind exchanged, where anything that was read can tell."""
    able = [
        (one, two)
        for i, one in enumerate(measured)
        for two in measured[i + 1 :]
        if one.kind == two.kind != "rims" and APART[0] < abs(taken[one.id][0] - taken[two.id][0]) < APART[1]
    ]
    for place in random.permutation(len(able)).tolist():
        one, two = able[place]
        exchanged = taken | {one.id: taken[two.id], two.id: taken[one.id]}
        if not mirrors(one, two) and contradicts(measured, exchanged):
            return exchanged, (one.id, two.id)
    return taken, ()


def mirrors(one: Reading, two: Reading) -> bool:
    """Whether two readings mirror each other: exchanged they make the mirrored instrument, which fits as well."""
    pairs = ((one.of, two.of), (one.from_, two.from_))
    return one.fret == two.fret and all({other_side(name) for name in here} == set(there) for here, there in pairs)


def contradicts(measured: list[Reading], taken: dict[str, Values]) -> bool:
    """Whether the values contradict each other, as far as a board's four sides and two diagonals alone can. With more
    than these something always does.

    Six lengths between four points have one condition: the sixth follows from the other five.
    """
    lengths = {frozenset(reading.of): taken[reading.id][0] for reading in measured if reading.kind == "distance"}
    if len(lengths) != 6:
        return True
    nut, end, left, right, one, other = (
        lengths[frozenset(f"{a}.{b}" for a, b in pair)]
        for pair in (
            (("nut", "left"), ("nut", "right")),
            (("end", "left"), ("end", "right")),
            (("nut", "left"), ("end", "left")),
            (("nut", "right"), ("end", "right")),
            (("nut", "left"), ("end", "right")),
            (("nut", "right"), ("end", "left")),
        )
    )
    # nut.left at 0, end.left on the x axis, and the two right corners from both
    here, there = _apex(left, nut, other), _apex(left, one, end)
    return here is None or there is None or abs(abs(here - there) - right) > SEEN


def _apex(base: float, from_start: float, from_stop: float) -> complex | None:
    """Where two lengths from the ends of a base meet beside it; None where they do not."""
    along = (base**2 + from_start**2 - from_stop**2) / (2 * base)
    across = from_start**2 - along**2
    return complex(along, math.sqrt(across)) if across > 0 else None
