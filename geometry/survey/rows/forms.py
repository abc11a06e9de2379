"""The forms of row, one record each: the equation with its slopes, and where a row lets one of its points lie.

In equations points are complex numbers (x + iy): arrays (k, 4), or fewer where a form needs fewer, for many rows at
once. With u the unit vector A→B and n = iu its left-hand normal, the part of a vector d along e is Re(conj(e) d). A
slope (k, points) is complex too: its real part belongs to the point's x, its imaginary part to its y. Each is checked
against differences in the tests. `lean` (k,) is a row's own direction, for the forms that need one.
"""

import cmath
import math
from collections.abc import Callable, Mapping
from typing import NamedTuple, TypedDict

import numpy as np
from numpy.typing import NDArray

from geometry.frame import heading
from geometry.job.measured.kinds import BLADE
from geometry.survey.result import Array
from geometry.survey.rows import loci
from geometry.survey.rows.loci import Locus, circle, line, two_lines
from geometry.survey.rows.row import Row

Complex = NDArray[np.complex128]
LEAST = 1e-9
"""Two points nearer than this have no direction (mm); keeps a division finite while places are still sought."""
Equation = tuple[Array, Complex]
Placed = Mapping[str, complex]


def _part(d: Complex, e: Complex) -> Array:
    return np.asarray((np.conj(e) * d).real)


def _unit(d: Complex) -> tuple[Complex, Array]:
    length = np.maximum(np.abs(d), LEAST)
    return d / length, length


def _slopes(*parts: Complex) -> Complex:
    """Slopes (k, points) from those of each point (k,)."""
    slopes = np.empty((len(parts[0]), len(parts)), dtype=complex)
    for place, part in enumerate(parts):
        slopes[:, place] = part
    return slopes


def distance(z: Complex, _lean: Complex) -> Equation:
    """|B − A|."""
    u, length = _unit(z[:, 1] - z[:, 0])
    return length, _slopes(-u, u)


def _by_distance(row: Row, point: str, placed: Placed, sigma: float) -> Locus | None:
    a, b = row.points
    return circle(placed[b if point == a else a], row.value, sigma)


def same(z: Complex, _lean: Complex) -> Equation:
    """|B − A| − |D − C|."""
    u, first = _unit(z[:, 1] - z[:, 0])
    w, second = _unit(z[:, 3] - z[:, 2])
    return first - second, _slopes(-u, u, w, -w)


def _by_same(row: Row, point: str, placed: Placed, sigma: float) -> Locus | None:
    ends = _end_and_other(row, point, placed)
    return circle(ends[0], abs(ends[1]), sigma) if ends else None


def _end_and_other(row: Row, point: str, placed: Placed) -> tuple[complex, complex] | None:
    """Of the two lines of a row: the other end of the one that the point ends, and the other line from end to end."""
    first, second = row.points[:2], row.points[2:]
    if point in first and point in second:
        return None
    own, other = (first, second) if point in first else (second, first)
    return placed[own[1] if point == own[0] else own[0]], placed[other[1]] - placed[other[0]]


def laid(z: Complex, lean: Complex) -> Equation:
    """(P − Q) along lean × u; points P, Q, A, B. The straightedge turns with A and B."""
    u, length = _unit(z[:, 3] - z[:, 2])
    e = lean * u
    d = np.conj(e) * (z[:, 0] - z[:, 1])
    turn = d.imag / length * (1j * u)
    return d.real, _slopes(e, -e, -turn, turn)


def _by_straightedge(row: Row, point: str, placed: Placed, sigma: float) -> Locus | None:
    p, q, a, b = row.points
    if point not in (a, b):
        e = row.lean * heading(placed[b] - placed[a])
        return line(placed[q] + row.value * e if point == p else placed[p] - row.value * e, e, sigma)
    if q != a or point == p or row.lean.imag == 0:
        return None
    pivot = placed[b if point == a else a]
    d = placed[p] - pivot
    if abs(d) <= row.value + loci.LEAST:
        return None
    lift = math.asin(row.value / abs(d)) * row.lean.imag
    return line(pivot, 1j * d / abs(d) * cmath.exp(1j * (lift if point == a else -lift)), sigma)


def meets(z: Complex, _lean: Complex) -> Equation:
    """From A along u to where the line C-D crosses; points A, B, C, D. `u_` and `d` are seen along C-D."""
    u, length = _unit(z[:, 1] - z[:, 0])
    v, span = _unit(z[:, 3] - z[:, 2])
    u_, d = np.conj(v) * u, np.conj(v) * (z[:, 2] - z[:, 0])
    safe = np.where(np.abs(u_.imag) < LEAST, LEAST, u_.imag)
    t = d.imag / safe
    share = (t * u_.real - d.real) / span
    across = 1j * v / safe
    turn = t * u_.real / safe / length * (1j * u)
    return t, _slopes(turn - across, -turn, (1 - share) * across, share * across)


def _by_meeting(row: Row, point: str, placed: Placed, sigma: float) -> Locus | None:
    a, b, c, d = row.points
    if point not in (c, d) or point in (a, b):
        return None
    along = placed[a] + row.value * heading(placed[b] - placed[a]) - placed[d if point == c else c]
    return line(placed[d if point == c else c], 1j * heading(along), sigma) if abs(along) > loci.LEAST else None


def square(z: Complex, _lean: Complex) -> Equation:
    """How far A-B leans from square to C-D, as an offset over the shorter of the two."""
    a, b = z[:, 1] - z[:, 0], z[:, 3] - z[:, 2]
    swap = np.abs(b) > np.abs(a)
    long, short = np.where(swap, b, a), np.where(swap, a, b)
    u, length = _unit(long)
    value = _part(short, u)
    by_long = (short - value * u) / length
    by_a, by_b = np.where(swap, u, by_long), np.where(swap, by_long, u)
    return value, _slopes(-by_a, by_a, -by_b, by_b)


def _by_square(row: Row, point: str, placed: Placed, sigma: float) -> Locus | None:
    ends = _end_and_other(row, point, placed)
    return line(ends[0], heading(ends[1]), sigma) if ends else None


def angle(z: Complex, _lean: Complex) -> Equation:
    """By how much the direction A→B turns to C→D, either way round, as the arc (mm) that it is at a blade's length."""
    u, one = _unit(z[:, 1] - z[:, 0])
    w, other = _unit(z[:, 3] - z[:, 2])
    turn = np.angle(np.conj(u) * w)
    way = np.where(turn < 0, -BLADE, BLADE)
    by_a, by_c = way * 1j * u / one, way * 1j * w / other
    return way * turn, _slopes(by_a, -by_a, -by_c, by_c)


def _by_angle(row: Row, point: str, placed: Placed, sigma: float) -> Locus | None:
    """Through the line's other end, turned either way. What the row is out at a blade's length grows along the line."""
    ends = _end_and_other(row, point, placed)
    return two_lines(ends[0], 1j * heading(ends[1]), row.value / BLADE, 3 * sigma) if ends else None


def at(z: Complex, lean: Complex) -> Equation:
    """P seen in a turned frame: along the axis `lean` (1 or 1j, turned back by the sheet's angle)."""
    return _part(z[:, 0], lean), lean[:, None]


def _nowhere(_row: Row, _point: str, _placed: Placed, _sigma: float) -> Locus | None:
    return None


class FormRecord(NamedTuple):
    """The value and slopes of a form's rows from their points (k, 4) and leans (k,), and where a row whose other points
    all have a place lets a point lie: nothing where it has no simple locus.
    """

    equation: Callable[[Complex, Complex], Equation]
    locus: Callable[[Row, str, Placed, float], Locus | None]


class ByForm(TypedDict):
    """A record for each form of row that has points: the type checker names the one that is missing."""

    distance: FormRecord
    same: FormRecord
    laid: FormRecord
    meets: FormRecord
    square: FormRecord
    angle: FormRecord
    at: FormRecord


FORMS: ByForm = {
    "distance": FormRecord(distance, _by_distance),
    "same": FormRecord(same, _by_same),
    "laid": FormRecord(laid, _by_straightedge),
    "meets": FormRecord(meets, _by_meeting),
    "square": FormRecord(square, _by_square),
    "angle": FormRecord(angle, _by_angle),
    "at": FormRecord(at, _nowhere),
}


def locus(row: Row, point: str, placed: Placed, slack: float = loci.NEAR_ENOUGH) -> Locus | None:
    """The locus of a point by one row whose other points are all placed; None where the row has no simple one."""
    if row.form == "none":
        return None
    return FORMS[row.form].locus(row, point, placed, math.hypot(row.sigma, slack))
