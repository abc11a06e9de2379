"""The **scar**: what of the old footprint the new bridge leaves uncovered."""

from functools import lru_cache
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from geometry.bridge.bridge_outline import back_at, outline
from geometry.bridge.seat_bridge import SeatedBridge
from geometry.findings import Finding
from geometry.frame import xy, xys
from geometry.job import Bridge, Job
from geometry.layout import XY, OldPlan
from geometry.units import mm, said

if TYPE_CHECKING:
    from shapely import Polygon

SHOWS, LEAST_PIECE = 0.2, 0.5
"""A scar narrower than the first (mm) is not worth a word, a piece smaller than the second (mm²) not drawn (common
practice, no source)."""
FAR = 1000.0
"""Beyond every bridge and footprint, mm."""
ARC_STEP = 0.05
"""Arcs are followed by chords no longer than this in radians, for the scar only."""


def with_scar(plan: OldPlan, bridge: Bridge, seated: SeatedBridge) -> OldPlan:
    """The same with the parts of the old footprint that the new bridge leaves bare, and their widths by side."""
    if len(plan.outline) < 3:
        return plan
    from shapely import Polygon  # a tenth of a second at start-up that a job without old work need not pay

    old = Polygon([xy(seated.own(complex(*at))) for at in plan.outline])
    if not old.is_valid:
        return plan
    bare = old.difference(_shape(bridge))
    pieces = [ring for piece in getattr(bare, "geoms", [bare]) if piece.area > LEAST_PIECE for ring in _rings(piece)]
    widths: dict[str, float] = {}
    half, width = mm(bridge.length) / 2, mm(bridge.width)
    for piece in pieces:
        behind = [back - back_at(bridge, left) for back, left in piece if back > width]
        for side, most in (
            ("front", max(-back for back, _ in piece)),
            ("back", max(behind, default=0.0)),
            ("left wing", max(left for _, left in piece) - half),
            ("right wing", max(-left for _, left in piece) - half),
        ):
            if most > SHOWS:
                widths[side] = max(most, widths.get(side, 0.0))
    at, ahead = complex(seated.front[0]), complex(seated.tailward[0])
    scar = tuple(xys(at + ahead * np.array(piece).view(complex)[:, 0]) for piece in pieces)
    return msgspec.structs.replace(plan, scar=scar, scar_widths=widths)


def _rings(piece: "Polygon") -> list[list[XY]]:
    """A piece's edge; in two halves, left and right, where the bridge lies in the midst of it."""
    from shapely import box

    if not piece.interiors:
        return [_ring(piece)]
    halves = (piece.intersection(box(-FAR, low, FAR, high)) for low, high in ((0.0, FAR), (-FAR, 0.0)))
    return [_ring(part) for half in halves for part in getattr(half, "geoms", [half])]


def _ring(piece: "Polygon") -> list[XY]:
    return [(x, y) for x, y in piece.exterior.coords]


def _goes_round(outline: tuple[XY, ...]) -> bool:
    """Whether corners in this order go round a piece of wood: three or more, and no side crosses another."""
    from shapely import Polygon

    return len(outline) > 2 and bool(Polygon(outline).is_valid)


@lru_cache(maxsize=16)
def _shape(bridge: Bridge) -> "Polygon":
    """The bridge in its own frame, its arcs followed by short chords."""
    from shapely import Polygon

    return Polygon([xy(at) for at in followed(bridge)])


def followed(bridge: Bridge) -> list[complex]:
    """The bridge's outline with its arcs followed by short chords."""
    vertices = outline(bridge)
    points: list[complex] = []
    for (x0, y0, bulge), (x1, y1, _) in zip(vertices, (*vertices[1:], vertices[0]), strict=True):
        points.append(complex(x0, y0))
        if bulge:
            sweep = 4 * np.arctan(bulge)
            chord = complex(x1 - x0, y1 - y0)
            centre = complex(x0, y0) + chord * (0.5 + 0.5j / np.tan(sweep / 2))
            steps = int(np.ceil(abs(sweep) / ARC_STEP))
            turns = np.exp(1j * sweep * np.arange(1, steps) / steps)
            points += (centre + (complex(x0, y0) - centre) * turns).tolist()
    return points


def findings(job: Job, plan: OldPlan) -> tuple[Finding, ...]:
    """What will show."""
    if plan.scar_widths:
        side, most = max(plan.scar_widths.items(), key=lambda item: item[1])
        shows = Finding(
            grade="look",
            code="scar",
            text=f"The old footprint shows: {said(most, job.unit)} {_shown_at(job, side)} stays uncovered.",
            values=dict(plan.scar_widths),
            where="scar",
        )
        return (shows,)
    if plan.outline and not _goes_round(plan.outline):
        crossed = Finding(
            grade="look",
            code="old.crossed",
            text="The old footprint's corners, joined in the order given, go round nothing, or cross: name three "
            "or more, in order round it.",
            where="field:old.outline",
        )
        return (crossed,)
    if plan.outline:
        return (Finding(grade="good", code="scar", text="The new bridge covers the old footprint.", where="scar"),)
    return ()


def _shown_at(job: Job, side: str) -> str:
    if side in ("front", "back"):
        return "in front" if side == "front" else "behind"
    return f"at the {job.bass_or_treble(side.removesuffix(' wing'))} wing"
