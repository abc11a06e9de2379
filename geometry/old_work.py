"""The old work: what of the old footprint would stay uncovered (the **scar**), old pin holes, metal in the wood."""

from functools import lru_cache

import numpy as np

from geometry.bridge import Seated
from geometry.findings import Finding
from geometry.frame import Points, xy
from geometry.job import Bridge, Job
from geometry.layout import Hole, Metal, OldPlan
from geometry.neck import NeckFrame
from geometry.outline import outline
from geometry.sample import Sample
from geometry.units import mm, said

SHOWS = 0.2
"""A scar narrower than this is not worth a word, mm (common practice, no source)."""
ARC_STEP = 0.05
"""Arcs are followed by chords no longer than this in radians, for the scar only."""


def find_old(sample: Sample, job: Job, frame: NeckFrame) -> OldPlan:
    """What of the old work could be placed, without the scar. Old hole sizes come from readings, else from the job."""
    if job.old is None:
        return OldPlan()
    measured = sample.surveyed.report.diameters
    outlined = job.old.outline if job.old.outline and sample.has(*job.old.outline) else ()
    holes = [name for name in job.old.pins if sample.has(name)]
    holes += [name for name in measured if sample.has(name) and name.startswith("pin.") and name not in job.old.pins]
    return OldPlan(
        outline=tuple(xy(corner) for corner in frame.see(sample, *outlined)[0]) if outlined else (),
        pins=tuple(
            Hole(
                name=name,
                at=_seen(sample, frame, name),
                diameter=measured[name] if name in measured else mm(job.old.pins[name].diameter),
            )
            for name in holes
        ),
        metal=tuple(
            Metal(name=name, at=_seen(sample, frame, name), keep_out=mm(metal.keep_out))
            for name, metal in job.old.metal.items()
            if sample.has(name)
        ),
    )


def with_scar(plan: OldPlan, bridge: Bridge, seated: Seated) -> OldPlan:
    """The same with the parts of the old footprint that the new bridge leaves bare, and their widths by side."""
    from shapely import Polygon  # a tenth of a second at start-up that a job without old work need not pay

    if len(plan.outline) < 3:
        return plan
    old = Polygon(plan.outline)
    if not old.is_valid:
        return plan
    placed = seated.front[0] + seated.tailward[0] * _followed(bridge)
    new = Polygon(np.stack((placed.real, placed.imag), axis=-1))
    bare = old.difference(new)
    pieces = [piece for piece in getattr(bare, "geoms", [bare]) if piece.area > 0.5]
    widths: dict[str, float] = {}
    half, width = mm(bridge.length) / 2, mm(bridge.width)
    for piece in pieces:
        ring = seated.own(np.array([complex(*at) for at in piece.exterior.coords]))
        back, left = ring.real, ring.imag
        for side, most in (
            ("front", float(-back.min())),
            ("back", float(back.max()) - width),
            ("left wing", float(left.max()) - half),
            ("right wing", float(-left.min()) - half),
        ):
            if most > SHOWS:
                widths[side] = max(most, widths.get(side, 0.0))
    return OldPlan(
        outline=plan.outline,
        pins=plan.pins,
        metal=plan.metal,
        scar=tuple(tuple((float(x), float(y)) for x, y in piece.exterior.coords) for piece in pieces),
        scar_widths=widths,
    )


@lru_cache(maxsize=16)
def _followed(bridge: Bridge) -> Points:
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
    return np.array(points)


def findings(job: Job, plan: OldPlan, bridge: Bridge, seated: Seated, pins: Points | None) -> tuple[Finding, ...]:
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
    elif plan.outline:
        found.append(Finding(grade="good", code="scar", text="The new bridge covers the old footprint.", where="scar"))
    return (*found, *(_metal(job, metal, bridge, seated, pins) for metal in plan.metal))


def _metal(job: Job, metal: Metal, bridge: Bridge, seated: Seated, pins: Points | None) -> Finding:
    spot = np.complex128(complex(*metal.at))
    room = {"the slot": _from_slot(spot, seated)}
    if pins is not None and bridge.pins is not None:
        away = np.abs(pins[0] - spot) - mm(bridge.pins.diameter) / 2
        room["a pin hole"] = float(away.min())
    what, least = min(room.items(), key=lambda item: item[1])
    where = f"metal:{metal.name}"
    if least < metal.keep_out:
        return Finding(
            grade="stop",
            code="metal.in_the_way",
            text=f"Metal ({metal.name}) lies {said(max(least, 0), job.unit)} from {what}; "
            f"{said(metal.keep_out, job.unit)} is to be kept clear. A cutter that meets metal can break and "
            f"throw pieces: take the metal out, or move the cut.",
            values={"room": least, "keep_out": metal.keep_out},
            where=where,
        )
    within = complex((spot - seated.front[0]) * seated.tailward[0].conj())
    under = 0 <= within.real <= mm(bridge.width) and abs(within.imag) <= mm(bridge.length) / 2
    return Finding(
        grade="good",
        code="metal.clear",
        text=f"Metal ({metal.name}) {'under the bridge, ' if under else ''}clear of slot and pins by "
        f"{said(least, job.unit)}.",
        values={"room": least, "keep_out": metal.keep_out},
        where=where,
    )


def _from_slot(spot: np.complex128, seated: Seated) -> float:
    """How far a spot lies from the slot's edge; 0 inside it."""
    slot = seated.slot
    off = complex((spot - slot.middle[0]) * slot.tailward[0].conj())
    past, along = off.real, abs(off.imag)
    return float(np.hypot(max(-past, past - slot.thickness, 0.0), max(along - slot.length / 2, 0.0)))


def _shown_at(job: Job, side: str) -> str:
    if side in ("front", "back"):
        return "in front" if side == "front" else "behind"
    return f"at the {'bass' if side.startswith(job.bass) else 'treble'} wing"


def _seen(sample: Sample, frame: NeckFrame, name: str) -> tuple[float, float]:
    return xy(frame.see(sample, name)[0, 0])
