"""From string paths to the saddle line: each string's break point, the straight line that best fits them, the slot.

**Break point**: where a string leaves the saddle, `compensation` past its nominal place along the neck centre line.
The slot's front edge lies `peak_at` × thickness in front of the saddle line.
"""

import math
from collections.abc import Sequence

import msgspec
import numpy as np

from geometry.frame import Array, Points, crossing, xy
from geometry.frets.fret_fit import FittedSpacing, count_told
from geometry.job import Job, Saddle
from geometry.layout import BySheet, SaddlePlan
from geometry.neck.find_neck import NeckFrame
from geometry.neck.laid_sheet import lay_sheet
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.best_line import TIE, Line
from geometry.saddle.saddle_chain import chain_of
from geometry.spacing import CENTS
from geometry.units import mm

BEYOND = 10.0
"""How far the slot runs past the outer strings where its length is not given, mm (common practice, no source)."""
LEVEL, ROUNDING = 0.05, 1e-9
"""A slant or a rest under the first (mm) is none that a hand could cut; what a slot leaves over under the second is
rounding.
"""


class Strung(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """All strings in list order in all rows: `start` on the nut, `nominal` point and `break_point` (rows, n).

    `first` are the frets that strings begin at, empty where all begin at the nut; `start` is then where a string's
    line, carried back, crosses the nut.
    """

    start: Points
    nominal: Points
    break_point: Points
    first: tuple[int, ...] = ()

    @property
    def along(self) -> Points:
        """The paths from nut to break point, (rows, n), of any length."""
        return self.break_point - self.start

    def outer(self, frets: Sequence[int]) -> list[list[int]]:
        """The outer strings over each of these frets, 0 for the nut: left and right."""
        across = self.break_point[0].imag.tolist()
        alike = range(len(across))
        there = [[i for i in alike if self.first[i] <= fret] for fret in frets] if self.first else [alike]
        found = [[max(some, key=across.__getitem__), min(some, key=across.__getitem__)] for some in there]
        return found if self.first else found * len(frets)


class SaddleLine(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The line x = `at` + `lean` × y in all rows (rows,); at [left, right] the `outer` strings' y on it (2,), which no
    reading moves, their nominal places' x (2,) in the first row, and the x of the nut's front on their paths (rows, 2).
    """

    at: Array
    lean: Array
    outer: Array
    nominal: Array
    nut: Array

    @property
    def from_nut(self) -> Array:
        """The outer strings' distance from the nut's front to the line, along the centre line (rows, 2)."""
        return self.x(self.outer) - self.nut

    def x(self, y: Array) -> Array:
        """Where the line lies at places y (k,), (rows, k)."""
        return self.at[:, None] + self.lean[:, None] * y


def nominal_places(ends: Points, saddle: Array) -> Points:
    """Where y = `saddle` (n,) lies on the straight line between the outer paths' nominal places `ends` (rows, 2)."""
    at, way = ends[:, 1:], ends[:, :1] - ends[:, 1:]
    return at + way * ((saddle - at.imag) / way.imag)


def string_up(start: Points, ends: Points, saddle: Array, compensation: Array, first: tuple[int, ...] = ()) -> Strung:
    """Every string's path in all rows, from `start` (rows, n) on the nut to y = `saddle` (n,) at the saddle.

    The nominal places lie on the straight line between the outer paths' own, `ends` (rows, 2). A string crosses it on
    its path, and that path hangs a little on where it crosses: two rounds leave less than a millionth of a mm.
    `compensation` (rows, n) or (n,) in mm; `first` the frets that strings begin at.
    """
    at, way = ends[:, 1:], ends[:, :1] - ends[:, 1:]
    to: Points = compensation + 1j * saddle
    nominal = nominal_places(ends, saddle)
    for _ in range(2):
        nominal = crossing(start, nominal.real + to - start, at, way)
    return Strung(start=start, nominal=nominal, break_point=nominal.real + to, first=first if any(first) else ())


def fit_line(strung: Strung, best: Line, straight: bool, weights: Array | None = None) -> SaddleLine:
    """The saddle line in all rows: least squares with the strings held as `best` holds them in the first row, with the
    same `weights`.
    """
    x, y = strung.break_point.real, strung.break_point.imag[0]
    pressed = best.stays != 0
    held = np.where(pressed, 1 + TIE, TIE) * (1.0 if weights is None else weights)
    share = held / held.sum()
    aim = x - np.where(pressed, (best.break_x - best.line) / (1 + TIE), 0.0)
    at, lean = aim @ share, np.zeros(len(x))
    if not straight and len(y) > 1:
        off = y - share @ y
        lean = aim @ (share * off) / (share @ (off * off))
        at = at - lean * (share @ y)
    ends = [int(y.argmax()), int(y.argmin())]
    nominal = strung.nominal[0, ends].real
    return SaddleLine(at=at, lean=lean, outer=y[ends], nominal=nominal, nut=strung.start[:, ends].real)


class Slot(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """A slot in all rows: the middle of its front edge (rows,) and the direction `leftward` along it."""

    middle: Points
    leftward: Points
    length: float
    thickness: float
    peak: float

    @property
    def tailward(self) -> Points:
        """Square to the slot, toward the tail (rows,)."""
        return -1j * self.leftward

    def x_at(self, y: Array) -> Array:
        """Where the slot's saddle line lies in the first row at places y (k,)."""
        on = complex(self.middle[0] + self.tailward[0] * (self.peak * self.thickness))
        way = complex(self.leftward[0])
        return on.real + way.real / way.imag * (y - on.imag)

    def corners(self) -> list[complex]:
        """The slot's corners in the first row, counter-clockwise from the front left."""
        middle, left = complex(self.middle[0]), complex(self.leftward[0])
        reach, back = left * self.length / 2, -1j * left * self.thickness
        return [middle + reach, middle - reach, middle - reach + back, middle + reach + back]


def wanted_slot(line: SaddleLine, saddle: Saddle, longest: float | None = None) -> Slot:
    """The slot that the saddle line asks for, no longer than `longest` (mm) where its length is not given."""
    left, right = line.outer.tolist()
    usual = left - right + 2 * BEYOND
    usual = usual if longest is None else min(usual, longest)
    length = mm(saddle.slot_length) if saddle.slot_length is not None else usual
    return slot_on(line, (left + right) / 2, length, saddle)


def slot_on(line: SaddleLine, y: float, length: float, saddle: Saddle) -> Slot:
    """A slot so long along a saddle line, its middle at `y`."""
    leftward: Points = (line.lean + 1j) / np.sqrt(line.lean * line.lean + 1)
    return Slot(
        middle=line.at + line.lean * y + 1j * y + leftward * (1j * saddle.peak_at * mm(saddle.thickness)),
        leftward=leftward,
        length=length,
        thickness=mm(saddle.thickness),
        peak=saddle.peak_at,
    )


def beyond_sheet(frame: NeckFrame, line: SaddleLine) -> Array:
    """How far the saddle belongs at the outer strings, along the neck, from where a sheet carries it (rows, 2)."""
    return lay_sheet(frame).beyond(line.x(line.outer) + 1j * line.outer)


def _by_sheet(states: PerturbedStates, beyond: Array) -> BySheet:
    left, right = states.pm95(beyond).tolist()
    return BySheet(pm95=(left, right), checked=states.checked(beyond), waits_for=states.waits_for(beyond))


def describe(
    states: PerturbedStates,
    job: Job,
    frame: NeckFrame,
    spaced: FittedSpacing,
    line: SaddleLine,
    outer: tuple[Slot, Slot],
) -> SaddlePlan:
    """The saddle as the layout holds it: the line wanted, and the slot as it will be or as it is cut. `outer` are the
    slots under the outer strings [left, right], for a saddle of one piece the same.

    Its ± is that of its distance from the nut's front along the outer strings, which is what the tuning hangs on; what
    is told is the one with which a sheet puts it there, and the chain that leads to that.
    """
    x, length, beyond = line.x(line.outer), line.from_nut, beyond_sheet(frame, line)
    slant = (x[:, :1] - x[:, 1:]) * (1 if job.bass == "left" else -1)
    left_pm, right_pm, slant_pm = states.pm95(np.concatenate((length, slant), axis=1)).tolist()
    (left_x, right_x), (left_y, right_y), farther = x[0].tolist(), line.outer.tolist(), float(slant[0, 0])
    left_n, right_n = line.nominal.tolist()
    cents = [CENTS / nominal for nominal in spaced.nominal[0].tolist()]
    lies = np.array([slot.x_at(line.outer)[end] for end, slot in enumerate(outer)])
    over = [off if abs(off) >= ROUNDING else 0.0 for off in (lies - x[0]).tolist()]
    (front_left, _, _, back_left), (_, front_right, back_right, _) = (map(xy, slot.corners()) for slot in outer)
    middle = complex(left_x + right_x, left_y + right_y) / 2
    long = outer[0].length if outer[0] is outer[1] else left_y - right_y + 2 * BEYOND
    reach = complex(line.lean[0], 1) / math.hypot(line.lean[0], 1) * long / 2
    return SaddlePlan(
        line=(xy(middle + reach), xy(middle - reach)),
        at_strings=((left_x, left_y), (right_x, right_y)),
        from_nut=(float(length[0, 0]), float(length[0, 1])),
        opposite=((left_n + right_x - right_n, left_y), (right_n + left_x - left_n, right_y)),
        front=(front_left, front_right),
        slot=(front_left, front_right, back_right, back_left),
        slant=abs(farther),
        slant_pm95=slant_pm,
        longer="neither" if abs(farther) < LEVEL else "bass" if farther > 0 else "treble",
        pm95=(left_pm, right_pm),
        cents95=(cents[0] * left_pm, cents[1] * right_pm),
        checked=states.checked(length) and count_told(job),
        by_sheet=_by_sheet(states, beyond),
        waits_for=states.waits_for(length),
        chain=chain_of(states, beyond),
        left_over=(over[0], over[1]),
        left_over_cents=(cents[0] * over[0], cents[1] * over[1]),
    )
