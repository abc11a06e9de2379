"""How the frame in which points were placed (`at`) lies in the neck frame: needed when such a point is dragged."""

import math

from app.edit.edits import turned
from geometry import units
from geometry.job import Job
from geometry.layout import XY, Layout


def placed_turn(job: Job, layout: Layout | None, *, inside: bool = False) -> float:
    """The angle (radians, counter-clockwise) from the placed points' frame to the neck frame; 0 under two points. Of
    those placed on a sheet inside, from its mirror image.

    The turn of a least-squares fit of two sets of points: the argument of Σ conj(p) q, both about their middles.
    """
    if layout is None:
        return 0.0
    pairs: list[tuple[complex, complex]] = []
    for r in job.readings:
        solved = layout.points.get(r.of[0]) if r.of else None
        if r.kind == "at" and r.taken and r.inside is inside and solved is not None:
            x, y = (units.mm(part) for part in r.parts)
            pairs.append((complex(x, -y if inside else y), complex(solved.x, solved.y)))
    if len(pairs) < 2:
        return 0.0
    p_mean, q_mean = (sum(side) / len(pairs) for side in zip(*pairs, strict=True))
    turn = sum((p - p_mean).conjugate() * (q - q_mean) for p, q in pairs)
    return math.atan2(turn.imag, turn.real)


def step_on_sheet(job: Job, layout: Layout | None, name: str, by: XY) -> XY:
    """A step in the neck frame as it shows in the frame in which a point was placed, mirrored on a sheet inside."""
    inside = any(r.inside for r in job.readings if r.kind == "at" and r.of == (name,) and r.taken)
    x, y = turned(by, -placed_turn(job, layout, inside=inside))
    return x, -y if inside else y
