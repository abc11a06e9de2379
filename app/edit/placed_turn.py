"""How the frame in which points were placed (`at`) lies in the neck frame: needed when such a point is dragged."""

import math

from geometry import units
from geometry.job import Job
from geometry.layout import Layout


def placed_turn(job: Job, layout: Layout | None) -> float:
    """The angle (radians, counter-clockwise) from the placed points' frame to the neck frame; 0 under two points.

    The turn of a least-squares fit of two sets of points: the argument of Σ conj(p) q, both about their middles.
    """
    if layout is None:
        return 0.0
    pairs: list[tuple[complex, complex]] = []
    for r in job.readings:
        solved = layout.points.get(r.of[0]) if r.of else None
        if r.kind == "at" and r.taken and solved is not None:
            x, y = (units.mm(part) for part in r.parts)
            pairs.append((complex(x, y), complex(solved.x, solved.y)))
    if len(pairs) < 2:
        return 0.0
    p_mean, q_mean = (sum(side) / len(pairs) for side in zip(*pairs, strict=True))
    turn = sum((p - p_mean).conjugate() * (q - q_mean) for p, q in pairs)
    return math.atan2(turn.imag, turn.real)
