"""A **locus**: where one row allows a point to be while the row's other points already have a place.

A circle, or a straight line. Points are complex numbers (x + iy) in mm. Where two loci cross the point may be.
"""

import cmath
import math
from collections.abc import Mapping
from typing import NamedTuple

from geometry.survey.rows import Row

NEAR_ENOUGH = 1.0
"""Places sought one after the other are themselves out by about this much (mm), which is added to a row's sigma."""


class Locus(NamedTuple):
    """A circle of radius `size` round `at`; or, `size` below 0, the line through `at` square to `normal`."""

    at: complex
    size: float
    normal: complex
    sigma: float

    def miss(self, z: complex) -> float:
        """How far z lies off the locus, in standard deviations."""
        if self.size >= 0:
            off = abs(z - self.at) - self.size
        else:
            off = (z - self.at).real * self.normal.real + (z - self.at).imag * self.normal.imag
        return off / self.sigma


def circle(at: complex, size: float, sigma: float) -> Locus:
    """A circle."""
    return Locus(at, abs(size), 0j, math.hypot(sigma, NEAR_ENOUGH))


def line(at: complex, normal: complex, sigma: float) -> Locus:
    """A line through `at` square to `normal`."""
    return Locus(at, -1.0, normal, math.hypot(sigma, NEAR_ENOUGH))


def loci(row: Row, point: str, placed: Mapping[str, complex]) -> tuple[Locus, ...]:
    """The loci of a point by one row whose other points are all placed; none where the row has no simple locus."""
    if row.form == "distance":
        a, b = row.points
        return (circle(placed[b if point == a else a], row.value, row.sigma),)
    if row.form == "laid":
        return _by_straightedge(row, point, placed)
    if row.form == "same":
        a, b, c, d = row.points
        first, second = (a, b), (c, d)
        if point in first and point in second:
            return ()
        own, other = (first, second) if point in first else (second, first)
        size = abs(placed[other[1]] - placed[other[0]])
        return (circle(placed[own[1] if point == own[0] else own[0]], size, row.sigma),)
    if row.form == "square":
        return _by_square(row, point, placed)
    if row.form == "meets":
        return _by_meeting(row, point, placed)
    return ()


def _by_straightedge(row: Row, point: str, placed: Mapping[str, complex]) -> tuple[Locus, ...]:
    p, q, a, b = row.points
    if point not in (a, b):
        if point == q and point == p:
            return ()
        e = row.lean * _unit(placed[b] - placed[a])
        return (line(placed[q] + row.value * e if point == p else placed[p] - row.value * e, e, row.sigma),)
    if q != a or point == p or row.lean.imag == 0:
        return ()
    pivot = placed[b if point == a else a]
    d = placed[p] - pivot
    if abs(d) <= row.value + 1e-9:
        return ()
    lift = math.asin(row.value / abs(d)) * row.lean.imag
    along = d / abs(d) * cmath.exp(1j * (lift if point == a else -lift))
    return (line(pivot, 1j * along, row.sigma),)


def _by_square(row: Row, point: str, placed: Mapping[str, complex]) -> tuple[Locus, ...]:
    a, b, c, d = row.points
    first, second = (a, b), (c, d)
    if point in first and point in second:
        return ()
    own, other = (first, second) if point in first else (second, first)
    return (line(placed[own[1] if point == own[0] else own[0]], _unit(placed[other[1]] - placed[other[0]]), row.sigma),)


def _by_meeting(row: Row, point: str, placed: Mapping[str, complex]) -> tuple[Locus, ...]:
    a, b, c, d = row.points
    if point not in (c, d) or point in (a, b):
        return ()
    crossing = placed[a] + row.value * _unit(placed[b] - placed[a])
    other = placed[d if point == c else c]
    if abs(crossing - other) < 1e-6:
        return ()
    return (line(other, 1j * _unit(crossing - other), row.sigma),)


def crossings(one: Locus, two: Locus) -> list[complex]:
    """Where two loci cross: up to two places; where they just miss each other, the place between them."""
    if one.size < 0 and two.size < 0:
        return _two_lines(one, two)
    if one.size < 0:
        one, two = two, one
    if two.size < 0:
        off = _dot(one.at - two.at, two.normal)
        foot, along, reach = one.at - off * two.normal, 1j * two.normal, one.size**2 - off * off
    else:
        apart = abs(two.at - one.at)
        if apart < 1e-6:
            return []
        u = (two.at - one.at) / apart
        ahead = (apart**2 + one.size**2 - two.size**2) / (2 * apart)
        foot, along, reach = one.at + ahead * u, 1j * u, one.size**2 - ahead**2
    if reach <= 0:
        return [foot] if reach > -((one.size + 20.0) ** 2 - one.size**2) else []
    half = math.sqrt(reach)
    return [foot + half * along, foot - half * along]


def _two_lines(one: Locus, two: Locus) -> list[complex]:
    turn = one.normal.real * two.normal.imag - one.normal.imag * two.normal.real
    if abs(turn) < 0.01:
        return []
    u, v = _dot(one.at, one.normal), _dot(two.at, two.normal)
    return [1j * (v * one.normal - u * two.normal) / turn]


def _dot(a: complex, b: complex) -> float:
    return a.real * b.real + a.imag * b.imag


def _unit(d: complex) -> complex:
    size = abs(d)
    return d / size if size > 0 else 1 + 0j
