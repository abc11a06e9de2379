"""Saddle, crown and nut as solids, added to a layout whose strings and bridge are placed."""

from functools import partial

from msgspec.structs import replace

from geometry.findings import Finding
from geometry.frame import Array
from geometry.job import Job, Nut
from geometry.layout import XY, Laid, Layout, NutBlank, with_findings
from geometry.placed.place_everything import PlacedInstrument
from geometry.solids import board_told, nut_told, saddle_told
from geometry.solids.board_bend import FLAT, Bend, bend_at, bulges
from geometry.solids.nut_blank import nut_blank
from geometry.solids.saddle_blank import SolidSaddle, solid_saddle


def with_solids(job: Job, placed: PlacedInstrument, laid: Laid) -> Laid:
    """The layout with the saddle's blank, or a floating bridge's crown, where its height is known at both sides, and
    with the nut's, where one is asked for; and what is to be said of them.
    """
    on, strings, layout = placed.neck, placed.saddle, laid.layout
    if on is None or strings is None or layout.neck is None or layout.frets is None or layout.saddle is None:
        return laid
    at_saddle, wrong = _bend_at_saddle(job, layout)
    at_nut = FLAT if wrong else bend_at(job, layout.neck, layout.frets, 0.0)
    laid = laid.says(*wrong)
    if job.held == "glue" or layout.floating is not None:
        solid = solid_saddle(job, placed.states, strings, at_saddle, _breaks(layout))
        if solid is not None and layout.floating is not None:
            laid = laid.with_places(floating=replace(layout.floating, heights=solid.blank))
            laid = laid.tells(saddle_told.crown_findings, job, solid)
        elif solid is not None:
            laid = laid.with_places(saddle_blank=solid.blank).then(partial(_with_saddle_told, job, solid))
    if job.nut is not None:
        nut = nut_blank(job, job.nut, placed.states, on.frame, strings, at_nut or FLAT)
        laid = laid.with_places(nut_blank=nut).then(partial(_with_nut_told, job, job.nut, nut))
    return laid


def _with_saddle_told(job: Job, solid: SolidSaddle, layout: Layout) -> Layout:
    return with_findings(layout, saddle_told.findings(job, solid, layout.findings))


def _with_nut_told(job: Job, nut: Nut, blank: NutBlank, layout: Layout) -> Layout:
    return with_findings(layout, nut_told.findings(job, nut, blank, layout))


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
