"""Straight lines on a drawing: their directions and middles, where they cross, and how they are carried on."""

import math

from export.drawing.marks import XY, Line


def cross(u: XY, w: XY) -> float:
    """The vector product: how far `w` lies to the left of a direction `u`."""
    return u[0] * w[1] - u[1] * w[0]


def unit(x: float, y: float) -> XY:
    """A vector scaled to length one; nought stays nought."""
    length = math.hypot(x, y) or 1.0
    return x / length, y / length


def direction(a: XY, b: XY) -> XY:
    """The unit vector from `a` to `b`; nought where they are one place."""
    return unit(b[0] - a[0], b[1] - a[1])


def foot(a: XY, b: XY, p: XY) -> XY:
    """Where `p` stands square on the line through `a` and `b`."""
    ux, uy = direction(a, b)
    along = (p[0] - a[0]) * ux + (p[1] - a[1]) * uy
    return a[0] + along * ux, a[1] + along * uy


def halfway(a: XY, b: XY) -> XY:
    """The place halfway between two."""
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def crossing(a: XY, u: XY, b: XY, w: XY, parallel: float = 1e-12) -> XY | None:
    """Where the line through `a` along `u` crosses the one through `b` along `w` (unit vectors); None where they open
    by less than `parallel` (radians).
    """
    opening = cross(u, w)
    if abs(opening) < parallel:
        return None
    along = cross((b[0] - a[0], b[1] - a[1]), w) / opening
    return a[0] + along * u[0], a[1] + along * u[1]


def cross_each_other(one: tuple[XY, XY], other: tuple[XY, XY]) -> bool:
    """Whether two straight pieces, from end to end, cross; not where one ends on the other."""

    def parts(piece: tuple[XY, XY], ends: tuple[XY, XY]) -> bool:
        (ax, ay), (bx, by) = piece
        sides = [cross((bx - ax, by - ay), (x - ax, y - ay)) for x, y in ends]
        return sides[0] * sides[1] < 0.0

    return parts(one, other) and parts(other, one)


def carried_on(a: XY, b: XY, by: float) -> Line:
    """The line from `a` to `b`, carried on by so much at both ends."""
    share = by / max(math.dist(a, b), 1e-9)
    dx, dy = share * (b[0] - a[0]), share * (b[1] - a[1])
    return Line((a[0] - dx, a[1] - dy), (b[0] + dx, b[1] + dy))
