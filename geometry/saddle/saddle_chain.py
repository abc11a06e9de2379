"""The saddle's ± along the chain that leads to it: from the board, by the frets to the nominal place, by the strings to
the saddle line.

Of the variance of a worked-out value each part of the unknowns carries its **share**: the covariance of what the part
alone does to the value with the value itself (JCGM 100:2008, 5.2.2, its double sum split by the first index). Shares
add up to the whole, however the parts hang together; where they do, one can be less than nought.
"""

import numpy as np

from geometry.frame import Array
from geometry.layout import TWO_SIDED_95, Contribution, Source
from geometry.perturbed_states import PerturbedStates

SOURCES: tuple[Source, ...] = ("board", "frets", "strings")
OF_FRETS = ("scale.", "shift.", "askew.", "unread.", "declared.", "fret12.")
OF_STRINGS = ("compensation.", "trial.")
"""What the unknowns' names begin with; all others are of the board."""
SAME = 1e-6
"""Parts by which two sums of the same variances differ at most."""


def chain_of(states: PerturbedStates, value: Array) -> tuple[Contribution, ...]:
    """What board, frets and strings contribute to the variance of a worked-out value (rows, 2), in this order; nothing
    while accused readings widen its ±, which no variance tells.
    """
    slopes, sources = states.gradient(value), np.array(_sources(states), dtype=np.str_)
    parts = slopes * (states.spread @ slopes)
    variance = {source: parts[sources == source].sum(axis=0) for source in SOURCES}
    whole, so_far = np.maximum(sum(variance.values()), 0.0), np.zeros(2)
    found = []
    for source in SOURCES:
        so_far = so_far + variance[source]
        share = np.divide(variance[source], whole, out=np.zeros(2), where=whole > 0)
        wide = TWO_SIDED_95 * np.sqrt(np.maximum(so_far, 0.0))
        found.append(Contribution(source=source, share=_two(share), pm95=_two(wide)))
    told = np.array(found[-1].pm95)
    return tuple(found) if bool((states.pm95(value) <= told * (1 + SAME)).all()) else ()


def _sources(states: PerturbedStates) -> list[Source]:
    """Where each moved unknown comes from, in the order of the spread."""
    surveyed = states.surveyed
    names = {column + axis: name for name, column in surveyed.point_at.items() for axis in (0, 1)}
    names |= {column: name for name, column in (surveyed.extra_at | states.own).items()}
    return [_source(names[column]) for column in states.moved]


def _source(name: str) -> Source:
    if name.startswith(OF_FRETS):
        return "frets"
    return "strings" if name.startswith(OF_STRINGS) else "board"


def _two(values: Array) -> tuple[float, float]:
    left, right = values.tolist()
    return left, right
