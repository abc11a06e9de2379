"""The old work: what of the old footprint would stay uncovered (the **scar**), old pin holes, metal in the wood."""

import math
from functools import lru_cache
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from geometry import words
from geometry.bridge.bridge_outline import back_at, outline
from geometry.bridge.seat_bridge import SeatedBridge
from geometry.findings import Finding
from geometry.frame import Points, xy, xys
from geometry.job import Bridge, Job, Old, OldMetal
from geometry.layout import XY, Hole, Metal, OldPlan, PlacedPoint
from geometry.units import mm, said

if TYPE_CHECKING:
    from shapely import Polygon

NOTHING, KEEP_OUT = Old(), OldMetal()
"""What is known of old work where nothing was said, and of metal that was only measured."""
OLD = ("pin.", "metal.")
"""What points of the old work are called, beside the footprint's corners."""
SHOWS, LEAST_PIECE = 0.2, 0.5
"""A scar narrower than the first (mm) is not worth a word, a piece smaller than the second (mm²) not drawn (common
practice, no source)."""
FAR = 1000.0
"""Beyond every bridge and footprint, mm."""
ARC_STEP = 0.05
"""Arcs are followed by chords no longer than this in radians, for the scar only."""


def find_old(job: Job, points: dict[str, PlacedPoint], measured: dict[str, float]) -> OldPlan:
    """What of the old work could be placed, without the scar.

    `points` are all that are placed; hole sizes come from `measured`, else from the job. Metal that was measured but
    has no keep-out of its own is kept clear of by the usual one.
    """
    old = job.old or NOTHING
    named = {*old.outline, *old.pins, *old.metal}
    at = {name: (point.x, point.y) for name, point in points.items() if name.startswith(OLD) or name in named}
    metal = dict.fromkeys((name for name in at if name.startswith("metal.")), KEEP_OUT) | old.metal
    sizes = {name: mm(pin.diameter) for name, pin in old.pins.items()} | measured
    return OldPlan(
        outline=tuple(at[name] for name in old.outline) if all(name in at for name in old.outline) else (),
        pins=tuple(Hole(name=name, at=at[name], diameter=size) for name, size in sizes.items() if name in at),
        metal=tuple(
            Metal(name=name, at=at[name], keep_out=mm(found.keep_out)) for name, found in metal.items() if name in at
        ),
    )


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

    return Polygon([xy(at) for at in _followed(bridge)])


def _followed(bridge: Bridge) -> list[complex]:
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


def findings(job: Job, plan: OldPlan, bridge: Bridge, seated: SeatedBridge, pins: Points | None) -> tuple[Finding, ...]:
    """What will show, and what is in the way of slot and holes."""
    found = []
    if plan.scar_widths:
        side, most = max(plan.scar_widths.items(), key=lambda item: item[1])
        found.append(
            Finding(
                grade="look",
                code="scar",
                text=f"The old footprint shows: {said(most, job.unit)} {_shown_at(job, side)} stays uncovered.",
                values=dict(plan.scar_widths),
                where="scar",
            )
        )
    elif plan.outline and not _goes_round(plan.outline):
        found.append(
            Finding(
                grade="look",
                code="old.crossed",
                text="The old footprint's corners, joined in the order given, go round nothing, or cross: name three "
                "or more, in order round it.",
                where="field:old.outline",
            )
        )
    elif plan.outline:
        found.append(Finding(grade="good", code="scar", text="The new bridge covers the old footprint.", where="scar"))
    return (*found, *(_metal(job, metal, bridge, seated, pins) for metal in plan.metal))


def _metal(job: Job, metal: Metal, bridge: Bridge, seated: SeatedBridge, pins: Points | None) -> Finding:
    spot = complex(*metal.at)
    room = {"the slot": _from_slot(spot, seated)}
    if pins is not None and bridge.pins is not None:
        room["a pin hole"] = min(abs(pin - spot) for pin in pins[0].tolist()) - mm(bridge.pins.diameter) / 2
    what, least = min(room.items(), key=lambda item: item[1])
    where = f"metal:{metal.name}"
    if least < metal.keep_out or least <= 0:
        return Finding(
            grade="stop",
            code="metal.in_the_way",
            text=f"{_called(job, metal)} lies {said(max(least, 0), job.unit)} from {what}; "
            f"{said(metal.keep_out, job.unit)} is to be kept clear. A cutter that meets metal can break and "
            f"throw pieces: take the metal out, or move the cut.",
            values={"room": least, "keep_out": metal.keep_out},
            where=where,
        )
    within = seated.own(spot)
    under = 0 <= within.real <= mm(bridge.width) and abs(within.imag) <= mm(bridge.length) / 2
    return Finding(
        grade="good",
        code="metal.clear",
        text=f"{_called(job, metal)}{' lies under the bridge and' if under else ''} is clear of slot and pins by "
        f"{said(least, job.unit)}.",
        values={"room": least, "keep_out": metal.keep_out},
        where=where,
    )


def _called(job: Job, metal: Metal) -> str:
    """Metal at the beginning of a sentence: “Metal 1”."""
    called = words.called(metal.name, job.hand)
    return f"The metal {called}" if words.is_own(metal.name) else words.first_large(called)


def _from_slot(spot: complex, seated: SeatedBridge) -> float:
    """How far a spot lies from the slot's edge; 0 inside it."""
    slot = seated.slot
    off = (spot - complex(slot.middle[0])) * complex(slot.tailward[0]).conjugate()
    past, along = off.real, abs(off.imag)
    return math.hypot(max(-past, past - slot.thickness, 0.0), max(along - slot.length / 2, 0.0))


def _shown_at(job: Job, side: str) -> str:
    if side in ("front", "back"):
        return "in front" if side == "front" else "behind"
    return f"at the {job.bass_or_treble(side.removesuffix(' wing'))} wing"
