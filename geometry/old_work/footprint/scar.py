"""The **scar**: what of the old footprint the new bridge leaves uncovered."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from geometry import words
from geometry.bridge.bridge_outline import edges_at, is_traced
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.findings import Finding
from geometry.frame import Array, Points, following, xys
from geometry.job import Bridge, Job
from geometry.layout import XY, Consequences, OldPlan, ScarAt
from geometry.old_work.gaps.uncovered import left_bare
from geometry.units import mm, said, said_pm

if TYPE_CHECKING:
    from shapely import Polygon

SHOWS, LEAST_PIECE = 0.2, 0.5
"""A scar narrower than the first (mm) is not worth a word, a piece smaller than the second (mm²) not drawn (common
practice, no source)."""
AS_WIDE = 1e-6
"""mm. Places whose widths differ by less are one as wide as the other."""
STEP = 1.0
"""A traced bridge's scar is measured in steps of so many mm."""
FAR = 1000.0
"""Beyond every bridge and footprint, mm."""


def with_scar(plan: OldPlan, bridge: Bridge, seated: SeatedBridge) -> OldPlan:
    """The same with the parts of the old footprint that the new bridge leaves bare, and their widths by side."""
    bare = left_bare(np.array([seated.own(complex(*at)) for at in plan.outline]), bridge)
    if bare is None:
        return plan
    pieces = [ring for piece in getattr(bare, "geoms", [bare]) if piece.area > LEAST_PIECE for ring in _rings(piece)]
    widths = {side: most for side, (most, _) in most_bare(pieces, bridge).items() if most > SHOWS}
    at, ahead = complex(seated.front[0]), complex(seated.tailward[0])
    return msgspec.structs.replace(plan, scar=tuple(xys(at + ahead * piece) for piece in pieces), scar_widths=widths)


def most_bare(pieces: Iterable[Points], bridge: Bridge) -> dict[ScarAt, tuple[float, tuple[complex, ...]]]:
    """The scar's greatest width on each side of the bridge, mm, less than 0 where it stays inside that side; and
    where that is, in the bridge's own frame: all places that are as wide.
    """
    half, middle = mm(bridge.length) / 2, mm(bridge.width) / 2
    at = np.concatenate(
        [_in_steps(piece) if is_traced(bridge) else piece for piece in pieces] or [np.empty(0, complex)]
    )
    front, back = edges_at(bridge, at.imag)
    wide: dict[ScarAt, Array] = {
        "front": np.where(at.real < middle, front - at.real, 0.0),
        "back": np.where(at.real > middle, at.real - back, 0.0),
        "left wing": at.imag - half,
        "right wing": -at.imag - half,
    }
    if not len(at):
        return {}
    return {side: (float(most.max()), tuple(at[most > most.max() - AS_WIDE].tolist())) for side, most in wide.items()}


def _in_steps(ring: Points) -> Points:
    """A ring with further places on its edges: a traced bridge may leave most of it bare between two corners."""
    after = following(ring)
    counts = np.ceil(np.abs(after - ring) / STEP).astype(int)
    pieces = [a + (b - a) * np.arange(n) / n for a, b, n in zip(ring, after, counts.tolist(), strict=True) if n]
    return np.concatenate(pieces)


def _rings(piece: "Polygon") -> list[Points]:
    """A piece's edge; in two halves, left and right, where the bridge lies in the midst of it."""
    from shapely import box

    if not piece.interiors:
        return [_ring(piece)]
    halves = (piece.intersection(box(-FAR, low, FAR, high)) for low, high in ((0.0, FAR), (-FAR, 0.0)))
    return [_ring(part) for half in halves for part in getattr(half, "geoms", [half])]


def _ring(piece: "Polygon") -> Points:
    return np.array(piece.exterior.coords).view(np.complex128)[:, 0]


def _goes_round(outline: tuple[XY, ...]) -> bool:
    """Whether corners in this order go round a piece of wood: three or more, and no side crosses another."""
    from shapely import Polygon

    return len(outline) > 2 and bool(Polygon(outline).is_valid)


def findings(job: Job, plan: OldPlan, found: Consequences | None) -> tuple[Finding, ...]:
    """What will show."""
    if plan.scar_widths:
        side, most = max(plan.scar_widths.items(), key=lambda item: item[1])
        shows = Finding(
            grade="look",
            code="scar",
            text=f"The old footprint shows: {said(most, job.unit)} {_shown_at(job, side)} stays uncovered.",
            values={at: wide for at, wide in plan.scar_widths.items()},
            where="scar",
        )
        return (shows,)
    if plan.outline and not _goes_round(plan.outline):
        crossed = Finding(
            grade="look",
            code="old.crossed",
            text="The old footprint’s corners, joined in the order given, go round nothing, or cross: name three "
            "or more, in order round it.",
            where="field:old.outline",
        )
        return (crossed,)
    cover = found.cover if found is not None else None
    if cover is not None and cover.value + SHOWS < cover.pm95:
        unsure = Finding(
            grade="look",
            code="scar.may_show",
            text="The new bridge covers the old footprint, but not surely: by "
            f"{said_pm(cover.pm95, job.unit, max(cover.value, 0.0))} where it is nearest to the edge.",
            values={"mm": cover.value, "pm95": cover.pm95},
            where="scar",
        )
        return (unsure,)
    if plan.outline:
        return (Finding(grade="good", code="scar", text="The new bridge covers the old footprint.", where="scar"),)
    return ()


def _shown_at(job: Job, side: str) -> str:
    if side in ("front", "back"):
        return "in front" if side == "front" else "behind"
    return f"at the {words.wing(side, job.hand)}"
