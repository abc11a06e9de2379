"""The strip that a floating bridge is stood up by: laid against the board's end, on fret 12 or at the nut, it shows the
feet, the crown, and how far the bridge may be slid from there to tune it.
"""

from typing import Literal

from export.drawing.flatten import around
from export.drawing.marks import XY, Mark, Text
from export.errors import ExportError
from export.hole_table import Table
from export.plan.bridge.bridgework import saddle_lines
from export.plan.bridge.standing_drawn import feet_marks, old_marks, window_marks
from export.records import Figure, Stamp
from export.templates import parts, registration, saddle_place
from export.templates.glued import placement
from export.templates.registration import Against
from geometry.floating.sliding import SLIDES, told_at
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import FloatingPlan, Layout
from geometry.units import show_pm

LACKING = ("neck.missing", "frets.missing", "frets.no_scale", "strings.missing")
"""The findings that say what is still to be told before the bridge has a place; a layout ends at the first."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """From the board's end, or from fret 12 where the end will not do. Raises `ExportError`."""
    return drawn(job, layout, "board end", "Bridge’s place")


def drawn(job: Job, layout: Layout, against: Against, title: str) -> Figure:
    """The same from another start."""
    neck, bridge, floating = layout.neck, layout.bridge, layout.floating
    if job.floating is None:
        raise ExportError("The template of the bridge’s place is for a bridge that is held by the strings alone")
    if neck is None or bridge is None or floating is None or layout.saddle is None:
        lacks = next((finding.text for finding in layout.findings if finding.code in LACKING), "")
        raise ExportError(f"The bridge’s place cannot be drawn yet. {lacks.removesuffix('.')}".strip())
    start = registration.start_at(job, layout, against)
    marks_before = [x for ring in floating.marks for x, _ in ring]
    front = min((*(x for x, _ in bridge.corners), *marks_before)) - max(floating.window)
    back = max(x for x, _ in bridge.corners) + max(floating.window)
    end = neck.end if neck.end is not None else (start.left, start.right)
    free = max(start.front, *(x for x, _ in end)) + registration.WINDOW + registration.TICK + 1.0
    windows = registration.seam_windows(layout, free, front - placement.STUB - registration.WINDOW - 6.0)
    shown = placement.strings(layout, start, front)
    marks = [
        *registration.start_marks(start, neck),
        *registration.edge_lines(job, neck, start, back + 14.0),
        *placement.on_the_way(layout, start),
        *shown,
        *placement.centre_line(start.front + 3.0, back + 20.0, windows),
        *windows,
        *old_marks(floating),
        *feet_marks(floating, "mark"),
        *window_marks(bridge, floating),
        *_window_words(job, bridge.corners, floating),
        *saddle_lines(layout.saddle, parts.PAST_SLOT),
        *placement.distances(job, layout, start, [*shown, *windows], [around(foot.corners) for foot in floating.feet]),
        *parts.sides(job, layout, front - 6.0),
        *registration.tape_tabs(start, neck, front),
        *registration.nut_arrow(job, (start.front + registration.ARROW_AT, max(start.left[1], end[0][1]) + 11.0)),
    ]
    keep = around([*bridge.corners, *floating.crown]).grown(4.0)
    return Figure(
        title=title,
        marks=tuple(marks),
        keep=(keep,),
        notes=(
            "Stand the feet on their outlines, bring the strings to pitch, and slide or turn the bridge until the "
            "octave is true at fret 12.",
            "The thin lines before and behind the outer feet are the window: the true place lies between them 19 times "
            "in 20. Let the strings down a little before you slide it.",
            *placement.notes(
                job.unit,
                start,
                front - start.front,
                before=how_held(job).before,
            ),
        ),
        notes_of={placement.CUT_WINDOWS: registration.SEAM},
        seen="outside",
        is_template=True,
        tables=(
            saddle_place.table(job, layout, "end" if start.against == "board end" else "fret12"),
            _slides(job, floating),
        ),
    )


def _window_words(job: Job, corners: tuple[XY, XY, XY, XY], plan: FloatingPlan) -> list[Mark]:
    """The ± beside each outer foot, and the word once."""
    marks = []
    for at, side, pm in ((corners[3], "left", plan.window[0]), (corners[2], "right", plan.window[1])):
        outer = 1.0 if side == "left" else -1.0
        across: Literal["sb", "st"] = "sb" if outer > 0 else "st"
        says = f"slide ±{show_pm(pm, job.unit)} {job.unit}"
        place = (at[0] + pm + 1.6, at[1] + outer * 0.4)
        marks.append(Mark(shape=Text(place, says, 2.3, 0.0, across), purpose="note", of="bridge"))
    return marks


def _slides(job: Job, plan: FloatingPlan) -> Table:
    """What a slide does to each string, and how far the bridge may be turned."""
    by, named = SLIDES[job.unit]
    rows = tuple((f"string {name}", f"{abs(cents) * by:.1f}") for name, cents in plan.cents_per_mm.items())
    turn = f"It may be turned by ±{plan.turn_pm95:.1f}°: ±{show_pm(plan.feet_pm95, job.unit)} {job.unit} at its feet."
    return Table(
        title=f"Cents at {told_at(job, plan)} for {named}",
        head=("", "flatter toward the tail"),
        rows=rows,
        sides="se",
        below=((turn, False),) if plan.turns and job.strings is not None and len(job.strings.list) > 1 else (),
    )
