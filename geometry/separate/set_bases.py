"""Where each base lies in all perturbed states: in the middle of the strip that holds the places its strings want.

A base has a frame of its own: `back` runs from its front edge, the way the saddles travel, `left` along that edge.
"""

import msgspec
import numpy as np

from geometry.frame import Array, Points, dot, unit
from geometry.job import Separate
from geometry.saddle.saddle_line import SaddleLine, Strung
from geometry.separate.narrowest import narrowest
from geometry.units import mm


class Base(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """A base in all rows: the middle of its front edge, its direction from front to back (rows,); and the strings whose
    saddles it carries, by their places in the list.
    """

    front: Points
    tailward: Points
    strings: tuple[int, ...]

    def place(self, back: float, left: float) -> Points:
        """A place in the base's own frame, seen in the neck frame, (rows,)."""
        return self.front + self.tailward * complex(back, left)

    def own(self, points: Points) -> Points:
        """Places (rows, k) seen in the base's own frame."""
        return (points - self.front[:, None]) * self.tailward.conj()[:, None]


def set_bases(separate: Separate, strung: Strung, line: SaddleLine, pm95: Array) -> tuple[Base, ...]:
    """The one base, or one a string, each where the most reach is left beyond every string's ± `pm95` (n,), mm.

    Which strings decide that is taken from the first row, and the other rows keep to them.
    """
    wanted = strung.break_point
    if separate.bases == "one":
        slope, on = _slope(separate, wanted, line, pm95)
        return (_base(separate, wanted, _tailward(slope), pm95, tuple(range(wanted.shape[1])), on),)
    ways = unit(strung.along) if separate.set == "along string" else np.ones_like(wanted)
    return tuple(_base(separate, wanted, ways[:, i], pm95, (i,), None) for i in range(wanted.shape[1]))


def _tailward(slope: Array) -> Points:
    """Square to a front edge that runs at a slope, x per y."""
    return unit(np.asarray(1 - 1j * slope, dtype=np.complex128))


_On = tuple[int, int, int] | None


def _slope(separate: Separate, wanted: Points, line: SaddleLine, pm95: Array) -> tuple[Array, _On]:
    """How the one base's front edge runs, x per y in all rows; the strings on one edge of the strip where they tell."""
    rows, (x, y) = len(wanted), (wanted.real, wanted.imag)
    if separate.set == "saddle line":
        return line.lean, None
    if separate.set != "most reach":
        return np.zeros(rows), None
    strip = narrowest(x[0], y[0], pm95)
    if strip.on is None:
        return np.full(rows, strip.slope), None
    i, j, way = strip.on
    ends = x + way * pm95 * (1 + strip.slope**2)
    return (ends[:, i] - ends[:, j]) / (y[:, i] - y[:, j]), strip.on


def _base(separate: Separate, wanted: Points, way: Points, pm95: Array, strings: tuple[int, ...], on: _On) -> Base:
    """A base that travels along `way` (rows,): its travel's middle amid the strings' ends, its own amid their lanes."""
    lanes = dot(way[:, None], wanted[:, strings])
    wide = pm95[list(strings)] / way[0].real  # along the travel, where the ± is along the neck
    last, first = int((lanes[0] + wide).argmax()), int((lanes[0] - wide).argmin())
    if on is not None:  # the two on the strip's edge are alike there: the same one in every row
        last, first = (strings.index(on[0]), first) if on[2] > 0 else (last, strings.index(on[0]))
    middle = (lanes[:, last] + wide[last] + lanes[:, first] - wide[first]) / 2
    side = dot(1j * way[:, None], wanted[:, strings])
    left, right = int(side[0].argmax()), int(side[0].argmin())
    front = middle - mm(separate.travel) / 2 - mm(separate.foremost)
    return Base(front=way * (front + 1j * (side[:, left] + side[:, right]) / 2), tailward=way, strings=strings)
