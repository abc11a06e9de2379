"""Saddle and nut as solids, added to a layout whose strings and bridge are placed."""

from msgspec.structs import replace

from geometry.job import Job
from geometry.layout import Layout
from geometry.placed.place_everything import PlacedInstrument
from geometry.solids import board_told, nut_told, saddle_told
from geometry.solids.board_bend import FLAT, bend_at
from geometry.solids.nut_blank import nut_blank
from geometry.solids.saddle_blank import solid_saddle


def with_solids(job: Job, placed: PlacedInstrument, layout: Layout) -> Layout:
    """The layout with the saddle's blank, where the bridge is glued and the saddle's height known at both sides, and
    with the nut's, where one is asked for; and what is to be said of them.
    """
    on, strings = placed.neck, placed.saddle
    if on is None or strings is None or layout.neck is None or layout.frets is None or layout.saddle is None:
        return layout
    (left, _), (right, _) = layout.saddle.at_strings
    at_nut, at_saddle = (bend_at(job, layout.neck, layout.frets, x) for x in (0.0, (left + right) / 2))
    found = [*board_told.findings(job, layout.neck, layout.saddle, at_saddle)]
    if found:  # what is wrong with the radius makes no crown
        at_nut = at_saddle = FLAT
    if job.held == "glue":
        solid = solid_saddle(job, placed.states, strings, at_saddle or FLAT)
        if solid is not None:
            layout = replace(layout, saddle_blank=solid.blank)
            found += saddle_told.findings(job, solid, layout.findings)
    if job.nut is not None:
        nut = nut_blank(job, job.nut, placed.states, on.frame, strings, at_nut or FLAT)
        layout = replace(layout, nut_blank=nut)
        found += nut_told.findings(job, job.nut, nut, layout)
    return replace(layout, findings=(*layout.findings, *found))
