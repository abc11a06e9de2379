"""A **locus**: where one row allows a point to be while the row's other points already have a place.

A circle, a straight line, or two straight lines that cross. Points are complex numbers (x + iy) in mm. Where two loci
cross the point may be.
"""

import cmath
import math
from collections.abc import Sequence
from typing import NamedTuple

NEAR_ENOUGH = 1.0
"""Places sought one after the other are themselves out by about this much (mm), which is added to a row's sigma."""
MOST = 400.0
"""The most that one locus counts against a place: a reading that is wildly out must not carry the others away."""


LINE = -1.0
"""The `size` of what is a straight line."""


class Locus(NamedTuple):
    """A circle of radius `size` round `at`; or, `size` −1, the line through `at` square to the unit `normal`; or,
    below, two lines through `at` whose normals are `normal` turned by −2 − `size` (radians) either way.

    `per` is one over the standard deviation.
    """

    at: complex
    size: float
    normal: complex
    per: float


def circle(at: complex, size: float, sigma: float) -> Locus:
    """A circle."""
    return Locus(at, abs(size), 0j, 1 / sigma)


def line(at: complex, normal: complex, sigma: float) -> Locus:
    """A line through `at` square to the unit vector `normal`."""
    return Locus(at, LINE, normal, 1 / sigma)


def two_lines(at: complex, normal: complex, turn: float, sigma: float) -> Locus:
    """Both lines through `at` that are square to the unit vector `normal` turned by `turn` either way, 0 to π."""
    return Locus(at, -2.0 - turn, normal, 1 / sigma)


def is_line(one: Locus) -> bool:
    """Whether it is one straight line."""
    return one.size == LINE


def parts(one: Locus) -> tuple[Locus, ...]:
    """Two lines apart; any other locus alone."""
    if one.size >= LINE:
        return (one,)
    turn = cmath.rect(1.0, -2.0 - one.size)
    return one._replace(size=LINE, normal=one.normal * turn), one._replace(size=LINE, normal=one.normal / turn)


def _off_lines(d: complex, size: float, normal: complex) -> float:
    """How far a place at `d` from where two lines cross lies off the nearer one."""
    turn = cmath.rect(1.0, -2.0 - size)
    return min(abs(_dot(d, normal * turn)), abs(_dot(d, normal / turn)))


def cost(z: complex, loci: Sequence[Locus]) -> float:
    """The sum of squared misses of a place, in standard deviations, none counted for more than `MOST`."""
    total = 0.0
    for at, size, normal, per in loci:
        d = z - at
        if size >= 0:
            off = (abs(d) - size) * per
        elif size == LINE:
            off = (d.real * normal.real + d.imag * normal.imag) * per
        else:
            off = _off_lines(d, size, normal) * per
        off *= off
        total += off if off < MOST else MOST
    return total


def crossings(one: Locus, two: Locus) -> list[complex]:
    """Where two loci cross: up to two places of each two parts; where they just miss each other, the one between."""
    if one.size < LINE or two.size < LINE:
        return [z for part in parts(one) for other in parts(two) for z in crossings(part, other)]
    if one.size < 0 and two.size < 0:
        return _two_lines(one, two)
    if one.size < 0:
        one, two = two, one
    if two.size < 0:
        off = _dot(one.at - two.at, two.normal)
        foot, along, reach = one.at - off * two.normal, 1j * two.normal, one.size**2 - off * off
    else:
        apart = abs(two.at - one.at)
        if apart < LEAST:
            return []
        u = (two.at - one.at) / apart
        ahead = (apart**2 + one.size**2 - two.size**2) / (2 * apart)
        foot, along, reach = one.at + ahead * u, 1j * u, one.size**2 - ahead**2
    if reach <= 0:
        return [foot]
    half = math.sqrt(reach) * along
    return [foot + half, foot - half]


LEAST = 1e-6
"""Two places nearer than this (mm) have no direction."""
PARALLEL = 0.01
"""Two lines at less than this angle (radians) cross nowhere of use."""


def _two_lines(one: Locus, two: Locus) -> list[complex]:
    turn = one.normal.real * two.normal.imag - one.normal.imag * two.normal.real
    if abs(turn) < PARALLEL:
        return []
    u, v = _dot(one.at, one.normal), _dot(two.at, two.normal)
    return [1j * (v * one.normal - u * two.normal) / turn]


def _dot(a: complex, b: complex) -> float:
    return a.real * b.real + a.imag * b.imag
