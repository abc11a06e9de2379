"""Taking up the outline that covers the old footprint."""

import math

from app.edit.edits import replace
from geometry.bridge.seat_bridge import FRONT_SHARE
from geometry.job import Bridge, Job
from geometry.layout import Layout
from geometry.old_work.footprint.covering import covering_of, grown, seen_from
from geometry.units import INCH, Length, Unit, mm, show

PARTS = 64
"""Sizes in inches are rounded up to so many parts of one; others to tenths of a mm: no saw is set finer (common
practice, no source)."""


def cover_old(job: Job, layout: Layout | None) -> Job:
    """The job with the smallest bridge of its family that covers the old footprint, its sizes rounded up; as it is
    where the layout tells of none.
    """
    if layout is None or layout.bridge is None or job.bridge is None:
        return job
    found = covering_of(job.bridge, layout)
    if found is None:
        return job
    larger = grown(job.bridge, seen_from(layout.bridge, layout.old.outline), found.margin)
    return replace(job, bridge=_rounded(larger, job.bridge, job.unit))


def _rounded(larger: Bridge, bridge: Bridge, unit: Unit) -> Bridge:
    """Rounded up where it grew; what the front gains by rounding is added to the width."""
    made = {name: _up(mm(getattr(larger, name)), unit) for name in ("length",) if larger.length != bridge.length}
    if larger.width != bridge.width:
        exact = FRONT_SHARE * mm(larger.width) if larger.front_to_slot is None else mm(larger.front_to_slot)
        to_slot = _up(exact, unit)
        made |= {"front_to_slot": to_slot, "width": _up(mm(larger.width) + mm(to_slot) - exact, unit)}
    return replace(larger, **made)


def _up(length: float, unit: Unit) -> Length:
    """A length rounded up, as it would be typed."""
    if unit == "in":
        return f"{show(math.ceil(length / INCH * PARTS - 1e-6) / PARTS * INCH, unit)} in"
    return math.ceil(length * 10 - 1e-6) / 10
