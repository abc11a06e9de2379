"""The crown's strip: to be cut out and stuck on the upper edge of a floating bridge, with the place at which each
string is to break; file away what lies before and behind it.

How far that place lies behind the crown's front edge stands beside each string, and what stays out of tune in a table.
Where its height is known, the crown is drawn from the front as well.
"""

import math
from typing import Literal

from export.drawing.dimension import arrow
from export.drawing.flatten import around, polyline
from export.drawing.marks import XY, Line, Mark, Text
from export.errors import ExportError
from export.hole_table import Table, filled
from export.records import SCALES, Figure, Stamp
from export.templates.blanks import solid_views
from export.templates.standing import crown_profile
from geometry.job import Job, Saddle
from geometry.layout import Layout, SaddleBlank, SaddlePlan, StringPlan
from geometry.units import in_decimals, mm, named, show

BY_EAR = "Set the bridge up and tune it by ear first: what is filed away does not come back."
LETTERS, LEADER = 2.4, 7.0
"""Height of the strings' names and how far from the crown they stand, mm."""
TICK = 0.9
"""Half the length of the line that a string breaks on, across the string, mm."""
LETTER_IN = 2.6
"""How far from an end the middle of the letter for its side stands, mm."""
TO_PROFILE = 26.0
"""From the crown's back to the profile's left end, mm."""
PAST = 3.0
"""How far a string's line runs past the crown, mm."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """The crown from above. Raises `ExportError` where there is none."""
    saddle = layout.saddle
    if job.floating is None:
        raise ExportError("The crown template is for a bridge that is held by the strings alone")
    if saddle is None or layout.floating is None:
        raise ExportError("The crown template needs the neck, the frets and the strings; fill in what is missing first")
    marks = [
        Mark(shape=polyline(saddle.slot, closed=True), purpose="cut", of="crown"),
        *(mark for string in layout.strings for mark in _string(job, string, saddle)),
        *_sides(job, saddle),
        *_arrow(saddle),
    ]
    heights, keep, tables = layout.floating.heights, [around(saddle.slot)], [_table(job, layout, saddle)]
    if heights is not None:
        corner = _beside(saddle, heights)
        marks += crown_profile.front(job, heights, corner)
        keep += solid_views.whole(marks, crown_profile.OF)
        tables.append(filled(crown_profile.table(job, heights)))
    thick = show(mm((job.saddle or Saddle()).thickness), job.unit)
    return Figure(
        title="Crown",
        marks=tuple(marks),
        keep=tuple(one.grown(4.0) for one in keep),
        notes=(
            f"Seen from above, {thick} {job.unit} thick. Cut out, stick on the crown with its front to the nut, and "
            "file it to a ridge at each string’s line.",
            f"Numbers in {named(job.unit)}, from the crown’s front edge back to where the string breaks.",
            *(() if heights is None else crown_profile.notes(job, heights)),
            f"{BY_EAR} {SCALES}",
        ),
        of_scales={f"{BY_EAR} {SCALES}": BY_EAR},
        kept=("crown", crown_profile.OF),
        loose=True,
        tables=tuple(tables),
    )


def _beside(saddle: SaddlePlan, heights: SaddleBlank) -> XY:
    """Where the profile's lower left corner stands: behind the strip, level with its middle."""
    box, high = around(saddle.slot), max(high for _, high in heights.profile)
    return box.x1 + TO_PROFILE, (box.y0 + box.y1 - high) / 2


def _frame(saddle: SaddlePlan) -> tuple[complex, complex, float]:
    """The crown's front left corner, its direction to the right end, and its thickness."""
    front_left, front_right, back_right, _ = (complex(*at) for at in saddle.slot)
    way = (front_right - front_left) / abs(front_right - front_left)
    return front_left, way, abs(back_right - front_right)


def _at(saddle: SaddlePlan, along: float, back: float) -> XY:
    """The place so far along the crown from its left end and behind its front edge."""
    start, way, _ = _frame(saddle)
    place = start + way * along + way * 1j * back
    return place.real, place.imag


def break_place(string: StringPlan, saddle: SaddlePlan) -> tuple[float, float]:
    """Where a string breaks on the crown: along it from its left end, and behind its front edge, mm."""
    start, way, thick = _frame(saddle)
    off = (complex(*string.break_point) - start) * way.conjugate()
    return off.real, string.peak * thick


def _string(job: Job, string: StringPlan, saddle: SaddlePlan) -> list[Mark]:
    along, back = break_place(string, saddle)
    thick, of = _frame(saddle)[2], f"string:{string.name}"
    ends = _at(saddle, along, -PAST), _at(saddle, along, thick + PAST)
    ridge = _at(saddle, along - TICK, back), _at(saddle, along + TICK, back)
    front, behind = _at(saddle, along, -LEADER), _at(saddle, along, thick + LEADER)
    return [
        Mark(shape=Line(*ends), purpose="lay", of=of, weight=0.6),
        Mark(shape=Line(*ridge), purpose="mark", of=of, weight=1.4),
        Mark(shape=Text(front, string.name, LETTERS, 0.0, "em", bold=True), purpose="note", of=of),
        Mark(shape=Text(behind, show(back, job.unit, 1), LETTERS, 0.0, "sm"), purpose="dimension", of=of),
    ]


def _sides(job: Job, saddle: SaddlePlan) -> list[Mark]:
    """BASS and TREBLE beside its ends, their first letters inside, so that it keeps its sides when it is cut out."""
    marks = []
    length = math.dist(*saddle.front)
    for side, along in (("left", -3.0), ("right", length + 3.0)):
        across: Literal["mb", "mt"] = "mb" if side == "left" else "mt"
        at = _at(saddle, along, _frame(saddle)[2] / 2)
        name, thick = job.bass_or_treble(side).upper(), _frame(saddle)[2]
        marks.append(Mark(shape=Text(at, name, 4.0, 0.0, across, bold=True), purpose="note"))
        inside = _at(saddle, LETTER_IN if side == "left" else length - LETTER_IN, thick / 2)
        own = Text(inside, name[0], min(2.4, 0.6 * thick), 0.0, "mm", bold=True)
        marks.append(Mark(shape=own, purpose="note", of="crown"))
    return marks


def _arrow(saddle: SaddlePlan) -> list[Mark]:
    """The arrow to the nut, before the crown's middle."""
    middle = math.dist(*saddle.front) / 2
    tail, head = _at(saddle, middle, -LEADER - 8.0), _at(saddle, middle, -LEADER - 26.0)
    return [
        *arrow(tail, head, "note", scale=0.6, of="arrow"),
        Mark(shape=Text((head[0], head[1] + 2.0), "to the nut", 2.6, 0.0, "sb"), purpose="note", of="arrow"),
    ]


def _table(job: Job, layout: Layout, saddle: SaddlePlan) -> Table:
    """Each string's place from the crown's bass end and from its front edge, and what stays at fret 12."""
    length = math.dist(*saddle.front)
    rows = []
    for string in layout.strings:
        along, back = break_place(string, saddle)
        from_bass = along if job.bass == "left" else length - along
        stays = string.cents.get(12)
        cents = "" if stays is None else in_decimals(stays, sign=True)
        rows.append((f"string {string.name}", show(from_bass, job.unit), show(back, job.unit, 1), cents))
    return Table(
        title=f"The crown, {job.unit}",
        head=("", "from bass end", "from front", "cents, fret 12"),
        rows=tuple(rows),
        sides="seee",
    )
