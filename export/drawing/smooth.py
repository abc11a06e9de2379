"""A smooth closed curve through points, as arcs that meet without a corner.

Between two points with given directions two arcs fit that share a tangent where they meet (K. M. Bolton, 'Biarc
curves', Computer-Aided Design 7 (1975) 89-92); directions are those of the circle through each three neighbours.
"""

import math
from functools import lru_cache

from export.drawing.marks import XY, Path, Vertex
from export.drawing.straight import unit


@lru_cache(maxsize=256)
def closed_curve(points: tuple[XY, ...]) -> Path:
    """The closed curve through at least three points, in their order."""
    count = len(points)
    tangents = [_tangent(points[i - 1], points[i], points[(i + 1) % count]) for i in range(count)]
    vertices: list[Vertex] = []
    for i in range(count):
        j = (i + 1) % count
        vertices += biarc(points[i], tangents[i], points[j], tangents[j])
    return Path(tuple(vertices), closed=True)


def _tangent(before: XY, at: XY, after: XY) -> XY:
    """The direction at `at` of the circle through three points, or of the line where they lie on one."""
    ax, ay, bx, by = at[0] - before[0], at[1] - before[1], after[0] - at[0], after[1] - at[1]
    aa, bb = ax * ax + ay * ay, bx * bx + by * by
    # the chords' slopes weighted by the other's length: the circle's (and parabola's) tangent
    x, y = ax * bb / math.sqrt(aa) + bx * aa / math.sqrt(bb), ay * bb / math.sqrt(aa) + by * aa / math.sqrt(bb)
    return unit(x, y)


def biarc(p: XY, t: XY, q: XY, u: XY) -> tuple[Vertex, Vertex]:
    """The vertices of the two arcs from `p` (direction `t`) to `q` (direction `u`), without `q` itself."""
    vx, vy = q[0] - p[0], q[1] - p[1]
    vv = vx * vx + vy * vy
    along = vx * (t[0] + u[0]) + vy * (t[1] + u[1])
    opening = 2 * (1 - (t[0] * u[0] + t[1] * u[1]))
    if opening > 1e-9:
        reach = (-along + math.sqrt(along * along + opening * vv)) / opening
    else:
        reach = vv / (2 * along) if along > 1e-12 else math.sqrt(vv) / 2
    middle = (p[0] + q[0] + reach * (t[0] - u[0])) / 2, (p[1] + q[1] + reach * (t[1] - u[1])) / 2
    return (*p, _bulge(p, middle, t)), (*middle, -_bulge(q, middle, (-u[0], -u[1])))


def _bulge(a: XY, b: XY, direction: XY) -> float:
    """The bulge of the arc from `a` to `b` that sets out in a direction."""
    x, y = b[0] - a[0], b[1] - a[1]
    half = math.atan2(direction[0] * y - direction[1] * x, direction[0] * x + direction[1] * y)
    return math.tan(half / 2)
