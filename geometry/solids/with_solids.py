"""Saddle, crown and nut as solids, added to a layout whose strings and bridge are placed."""

from msgspec.structs import replace

from geometry.findings import Finding
from geometry.frame import Array
from geometry.job import Job
from geometry.layout import XY, Layout
from geometry.placed.place_everything import PlacedInstrument
from geometry.solids import board_told, nut_told, saddle_told
from geometry.solids.board_bend import FLAT, Bend, bend_at, bulges
from geometry.solids.nut_blank import nut_blank
from geometry.solids.saddle_blank import solid_saddle


def with_solids(job: Job, placed: PlacedInstrument, layout: Layout) -> Layout:
    """The layout with the saddle's blank, or a floating bridge's crown, where its height is known at both sides, and
    with the nut's, where one is asked for; and what is to be said of them.
    """
    on, strings = placed.neck, placed.saddle
    if on is None or strings is None or layout.neck is None or layout.frets is None or layout.saddle is None:
        return layout
    at_saddle, wrong = _bend_at_saddle(job, layout)
    at_nut = FLAT if wrong else bend_at(job, layout.neck, layout.frets, 0.0)
    found = [*wrong]
    if job.held == "glue" or layout.floating is not None:
        solid = solid_saddle(job, placed.states, strings, at_saddle, _breaks(layout))
        if solid is not None and layout.floating is not None:
            layout = replace(layout, floating=replace(layout.floating, heights=solid.blank))
            found += saddle_told.crown_findings(job, solid)
        elif solid is not None:
            layout = replace(layout, saddle_blank=solid.blank)
            found += saddle_told.findings(job, solid, layout.findings)
    if job.nut is not None:
        nut = nut_blank(job, job.nut, placed.states, on.frame, strings, at_nut or FLAT)
        layout = replace(layout, nut_blank=nut)
        found += nut_told.findings(job, job.nut, nut, layout)
    return replace(layout, findings=(*layout.findings, *found))


def crown_over_outer(job: Job, layout: Layout, across: Array) -> tuple[Array, Array]:
    """How far a crown by the board's radius stands over the straight line between the outermost of places `across` the
    neck (n,), and its standard deviation, mm; nought where no radius is told, or one that cannot be.
    """
    return bulges(_bend_at_saddle(job, layout)[0], across)


def _bend_at_saddle(job: Job, layout: Layout) -> tuple[Bend, list[Finding]]:
    """The board's face carried on to the saddle; what is wrong with its radius makes no crown, and is said."""
    if layout.neck is None or layout.frets is None or layout.saddle is None:
        return FLAT, []
    (left, _), (right, _) = layout.saddle.at_strings
    bend = bend_at(job, layout.neck, layout.frets, (left + right) / 2)
    wrong = list(board_told.findings(job, layout.neck, layout.saddle, bend))
    return FLAT if wrong or bend is None else bend, wrong


def _breaks(layout: Layout) -> dict[str, XY]:
    """How steeply each string breaks to its tie hole or to the tail, and its ±, degrees; those that are known."""
    found: dict[str, XY] = {}
    if layout.bridge is not None and layout.bridge.tie is not None:
        found |= {name: (over.degrees, over.pm95) for name, over in layout.bridge.tie.breaks.items()}
    if layout.tail is not None:
        found |= {one.name: (one.breaks, one.breaks_pm95) for one in layout.tail.strings if one.breaks is not None}
    return found
