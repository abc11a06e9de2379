"""A **locus**: where one row allows a point to be while the row's other points already have a place.

A circle, or a straight line. Points are complex numbers (x + iy) in mm. Where two loci cross the point may be.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

NEAR_ENOUGH = 1.0
"""Places sought one after the other are themselves out by about this much (mm), which is added to a row's sigma."""
MOST = 400.0
"""The most that one locus counts against a place: a reading that is wildly out must not carry the others away."""


class Locus(NamedTuple):
    """A circle of radius `size` round `at`; or, `size` below 0, the line through `at` square to the unit `normal`.

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
    return Locus(at, -1.0, normal, 1 / sigma)


def cost(z: complex, loci: Sequence[Locus]) -> float:
    """The sum of squared misses of a place, in standard deviations, none counted for more than `MOST`."""
    total = 0.0
    for at, size, normal, per in loci:
        d = z - at
        off = (abs(d) - size if size >= 0 else d.real * normal.real + d.imag * normal.imag) * per
        off *= off
        total += off if off < MOST else MOST
    return total


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
