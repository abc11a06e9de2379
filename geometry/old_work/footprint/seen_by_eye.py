"""What an eye compares the bridge with: the seam, and the body's edges and middle line.

The body runs straight from one of its points to the next, in the order of their numbers. Its middle line is the long
axis of that outline (the main axis of its second moments of area): a body that is cut away on one side has another.
"""

from collections.abc import Iterator

import numpy as np

from geometry.bridge.bridge_outline import tips
from geometry.frame import Array, Points, best_line, cross, crossing, following, xy
from geometry.job import Bridge
from geometry.job.sides import SIDES
from geometry.layout import Amount, SeenAgainst, WingTip
from geometry.old_work.gaps.old_work_states import OldInRows
from geometry.units import mm

ENOUGH = 6
"""A body's middle line wants so many points at the least (common practice, no source)."""


def wing_tips(rows: OldInRows, bridge: Bridge) -> Iterator[WingTip]:
    """From each wing's tip along the bridge to the body's edge; none where the outline does not reach so far."""
    names = rows.body()
    if len(names) < 3:
        return
    body = rows.points(names)
    stop = following(body)
    for side, tip, way in zip(SIDES, tips(bridge), (1j, -1j), strict=True):
        at, along = rows.front + rows.tailward * tip, rows.tailward * way
        first, last = cross(along[0], body[0] - at[0]), cross(along[0], stop[0] - at[0])
        ends = np.flatnonzero((first > 0) != (last > 0)).tolist()
        meets = [(crossing(at, along, body[:, k], stop[:, k] - body[:, k]), k) for k in ends]
        far = [((place - at) * along.conj()).real for place, _ in meets]
        ahead = [(float(reach[0]), index) for index, reach in enumerate(far) if reach[0] > 0]
        if ahead:
            _, index = min(ahead)
            pm95 = float(rows.pm95(far[index][:, None])[0])
            to_edge = Amount(value=float(far[index][0]), pm95=pm95)
            edge = xy(complex(meets[index][0][0]))
            yield WingTip(side=side, to_edge=to_edge, tip_xy=xy(complex(at[0])), edge_xy=edge)


def seen(rows: OldInRows, bridge: Bridge) -> Iterator[SeenAgainst]:
    """The bridge against the seam, and against the body's middle line."""
    middle = rows.front + rows.tailward * (mm(bridge.width) / 2)
    seam = [name for name in rows.places if name.startswith("seam.")]
    if len(seam) > 1:
        at, way = best_line(rows.points(seam), np.ones_like(middle))
        yield _against(rows, "seam", middle, at, way)
    names = rows.body()
    if len(names) >= ENOUGH:
        yield _against(rows, "body", middle, *_long_axis(rows.points(names)))


def _against(rows: OldInRows, what: str, middle: Points, at: Points, way: Points) -> SeenAgainst:
    turn, offset = np.angle(rows.tailward / way), cross(way, middle - at)
    pm95 = rows.pm95(np.stack((turn, offset), axis=1)).tolist()
    return SeenAgainst(
        against="seam" if what == "seam" else "body",
        turn=Amount(value=float(turn[0]), pm95=pm95[0]),
        offset=Amount(value=float(offset[0]), pm95=pm95[1]),
    )


def _long_axis(ring: Points) -> tuple[Points, Points]:
    """The middle of closed outlines (rows, m) and the direction of their main axis that runs to the tail, (rows,).

    Of second moments of a polygon's area, from its corners z: ∫z² dA = Σ c (z₀² + z₀z₁ + z₁²)/12, with c the vector
    product of two corners next to each other; ∫z dA = Σ c (z₀ + z₁)/6 (derived: triangles from the origin).
    """
    shift = ring.mean(axis=1)
    z = ring - shift[:, None]
    after = following(z)
    part: Array = cross(z, after)
    area = part.sum(axis=1) / 2
    middle = (part * (z + after)).sum(axis=1) / 6 / area
    second = (part * (z * z + z * after + after * after)).sum(axis=1) / 12 / area - middle * middle
    way = np.sqrt(second)
    way = way / np.abs(way)
    return shift + middle, np.where(way.real < 0, -way, way)
