"""The placement template: taped on the top, against the board's end, the nut or fret 12, it shows where all goes.

What a top that is not flat costs: a bow of height f over a length L is longer than its chord by 8 f² / (3 L), a slope
that climbs h over L by h² / (2 L), both derived for small heights.
"""

import math
from collections.abc import Sequence
from functools import partial

from export.drawing.dimension import dimension
from export.drawing.flatten import Box, around
from export.drawing.marks import Circle, Line, Mark, Path, Text
from export.errors import ExportError
from export.plan.instrument import small_nut
from export.records import Figure, Stamp
from export.templates import numbered_holes, parts, registration, saddle_place
from export.templates.registration import Against, Start
from geometry.job import Job
from geometry.layout import BridgePlan, Check, Layout
from geometry.units import Unit, said

STUB = 25.0
"""How far the strings are shown before the bridge, mm."""
OFFS = (6.5, *(6.5 + sign * 0.5 * k for k in range(1, 8) for sign in (-1, 1)))
"""How far in from the board's edge the line of a distance to check may run, mm, the usual place first."""
OFF_STRINGS = 1.5
"""How far such a line keeps off a string, mm: nearer ones read as one line."""
WORDS: dict[bool, tuple[tuple[float, bool], ...]] = {
    True: ((0.44, False), (0.44, True), (0.3, True), (0.6, True), (0.7, False)),
    False: ((0.64, False), (0.64, True), (0.5, True), (0.4, False), (0.75, True)),
}
"""Where on such a line its words stand, and whether between it and the edge, the usual place first: by whether the
sheet is laid to the board's end, clear of seams behind it, or else of the board's end."""
USUAL: dict[Unit, tuple[tuple[float, str], tuple[float, str]]] = {
    "mm": ((2.0, "2 mm"), (5.0, "5 mm")),
    "cm": ((2.0, "0.2 cm"), (5.0, "0.5 cm")),
    "in": ((25.4 / 8, "1/8 in"), (25.4 / 4, "1/4 in")),
}
"""The bow of the top and the step at the board's end that the sheet's note counts with, mm and in words."""

CUT_WINDOWS = "Cut the round windows out: the seam must lie in line with their ticks."
"""A note that stands where such windows are."""
LACKING = ("neck.missing", "frets.missing", "frets.no_scale", "strings.missing", "bridge.missing")
"""The findings that say what is still to be told before the bridge has a place; a layout ends at the first."""
ALL = "It needs the neck, the strings, the saddle and a bridge"


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """From the board's end, or from fret 12 where the end will not do. Raises `ExportError`."""
    return _drawn(job, layout, "board end", "Placement template")


def draw_full_length(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # as above
    """From the nut, the whole length. Raises `ExportError`."""
    return _drawn(job, layout, "nut", "Placement, full length")


def _drawn(job: Job, layout: Layout, against: Against, title: str) -> Figure:
    neck, saddle, bridge = layout.neck, layout.saddle, layout.bridge
    if neck is None or saddle is None or bridge is None:
        lacks = next((finding.text for finding in layout.findings if finding.code in LACKING), ALL)
        raise ExportError(f"The placement template cannot be drawn yet. {lacks.removesuffix('.')}")
    start = registration.start_at(job, layout, against)
    back = max(x for x, _, _ in bridge.outline)
    front = min((*(x for x, _, _ in bridge.outline), *(x for x, _ in layout.old.outline)))
    end = neck.end if neck.end is not None else (start.left, start.right)
    free = max(start.front, *(x for x, _ in end)) + registration.WINDOW + registration.TICK + 1.0
    windows = registration.seam_windows(layout, free, front - STUB - registration.WINDOW - 6.0)
    shown = strings(layout, start, front)
    pins = [] if job.sheets.window else numbered_holes.pins(job, layout)
    old, place = parts.old_work(layout), _bridge_place(layout, bridge, window=job.sheets.window)
    marks = [
        *registration.start_marks(start, neck),
        *registration.edge_lines(job, neck, start, back + 14.0),
        *on_the_way(layout, start),
        *shown,
        *centre_line(start.front + 3.0, back + 20.0, windows),
        *windows,
        *old,
        *place,
        *numbered_holes.numbers(pins, [*old, *place]),
        *distances(job, layout, start, [*shown, *windows]),
        *parts.sides(job, layout, front - 6.0),
        *registration.tape_tabs(start, neck, front),
        *registration.nut_arrow(job, (start.front + registration.ARROW_AT, max(start.left[1], end[0][1]) + 11.0)),
    ]
    keep = around([(x, y) for x, y, _ in bridge.outline]).grown(3.0)
    figure = Figure(
        title=title,
        marks=tuple(marks),
        keep=(keep,),
        notes=notes(job.unit, start, front - start.front, window=job.sheets.window),
        notes_of={CUT_WINDOWS: registration.SEAM},
        seen="outside",
        is_template=True,
        bored=tuple(pins),
        tables=(
            saddle_place.table(job, layout, "end" if start.against == "board end" else "fret12"),
            *saddle_place.proof_table(job, layout),
        ),
    )
    return numbered_holes.with_hole_table(job, layout, figure)


def centre_line(low: float, high: float, windows: list[Mark]) -> list[Mark]:
    """The neck centre line, with a gap where a seam window and its ticks lie on it."""
    reach = registration.WINDOW + registration.TICK + 1.0
    rounds = [mark.shape for mark in windows if isinstance(mark.shape, Circle)]
    on_it = sorted(shape.centre[0] for shape in rounds if abs(shape.centre[1]) < shape.radius + 1.0)
    starts = [low, *(x + reach for x in on_it)]
    stops = [*(x - reach for x in on_it), high]
    pieces = [Line((a, 0.0), (b, 0.0)) for a, b in zip(starts, stops, strict=True) if b - a > 1.0]
    return [Mark(shape=piece, purpose="centre", of="neck") for piece in pieces]


def _bridge_place(layout: Layout, bridge: BridgePlan, *, window: bool) -> list[Mark]:
    """The bridge's outline to mark with its slot and pin holes; or a window for it, with no holes to fall out of it."""
    outline = Path(bridge.outline, closed=True)
    if not window:
        return [Mark(shape=outline, purpose="mark", of="bridge"), *parts.slot_and_holes(layout)]
    (ax, ay), (bx, by) = bridge.corners[0], bridge.corners[2]
    words = Text(((ax + bx) / 2, (ay + by) / 2), "cut out: the bridge’s place", 3.0, math.pi / 2, "mb")
    return [Mark(shape=outline, purpose="cut", of="bridge"), Mark(shape=words, purpose="note", of="waste")]


def notes(
    unit: Unit, start: Start, length: float, *, window: bool = False, before: str = "the glue"
) -> tuple[str, ...]:
    """How to lay it, and what the sheet takes for granted."""
    (belly, bow), (high, step) = USUAL[unit]
    by_bow = said(8 * belly**2 / (3 * length), unit, 2)
    by_step = said(high**2 / (2 * length), unit, 2)
    if start.against == "board end":
        flat = f"The top is taken as flat: a bow of {bow} between board and bridge moves the bridge by {by_bow}."
    else:
        flat = (
            f"Keep the paper straight over the board’s end: a step of {step} moves the bridge by "
            f"{by_step}, a bow of {bow} in the top by {by_bow}."
        )
    return (
        registration.LAID[start.against],
        CUT_WINDOWS,
        *(
            ["The bridge lies in the large window; its slot and pin holes are on the bridge template."]
            if window
            else []
        ),
        f"Check edge distances before {before}: over {registration.CLOSE[unit]} off, lay it again.",
        flat,
    )


def on_the_way(layout: Layout, start: Start) -> list[Mark]:
    """Fret 12 and the board's end where the template runs over them."""
    marks = []
    twelfth = registration.fret_line(layout, 12)
    if twelfth is not None and start.against == "nut":
        marks.append(Mark(shape=Line(twelfth.left, twelfth.right), purpose="lay", of="fret:12", weight=2.0))
        at = (twelfth.left[0] + 1.6, 0.35 * twelfth.left[1])
        marks.append(Mark(shape=Text(at, "fret 12", 2.4, 0.0, "sm"), purpose="note"))
    if start.against == "nut":
        marks += _small_nuts(layout)
    end = layout.neck.end if layout.neck else None
    if end is not None and start.against != "board end":
        marks.append(Mark(shape=Line(*end), purpose="lay", of="board end"))
        at = (max(x for x, _ in end) + 1.6, 0.35 * end[0][1])
        marks.append(Mark(shape=Text(at, "board end", 2.4, 0.0, "sm"), purpose="note"))
    return marks


def _small_nuts(layout: Layout) -> list[Mark]:
    """Where the strings that begin at a fret have their own small nuts, named on the side away from the middle."""
    marks = []
    for string in layout.strings:
        if string.starts_at:
            (x, y), of = string.nut_xy, f"string:{string.name}"
            marks.append(Mark(shape=small_nut(string), purpose="mark", of=of, weight=1.6))
            words = f"string {string.name} starts"
            at = (x - 1.6, y + (5.0 if y > 0 else -5.0))
            marks.append(Mark(shape=Text(at, words, 2.4, 0.0, "em"), purpose="note", of=of))
    return marks


def strings(layout: Layout, start: Start, front: float) -> list[Mark]:
    """A stub of each string at the start and before the saddle: enough to sight by, and no more."""
    marks = []
    for string in layout.strings:
        (ax, ay), (bx, by) = string.nut_xy, string.end
        first = max(start.front, ax) if string.starts_at else start.front
        for x0, x1 in ((first + 2.0, first + 12.0), (front - STUB, string.break_point[0])):
            ends = [(x, ay + (by - ay) * (x - ax) / (bx - ax)) for x in (x0, x1)]
            marks.append(Mark(shape=Line(ends[0], ends[1]), purpose="lay", of=f"string:{string.name}", weight=0.75))
    return marks


def distances(
    job: Job, layout: Layout, start: Start, shown: list[Mark], feet: Sequence[Box] | None = None
) -> list[Mark]:
    """The distances to check along both edges, their lines off the strings that are `shown` before the bridge, and
    their words off the windows shown. Where of the bridge only `feet` are drawn, an extension line stands at each tip
    that none of them lies behind.
    """
    marks = []
    strung = [mark for mark in shown if mark.of.startswith("string:")]
    for name, check in registration.edge_checks(layout, start.against).items():
        inward = 1.0 if name == job.bass_or_treble("right") else -1.0
        off = inward * _clear_of_strings(check, inward, strung)
        at = check.to_xy[1] + off
        bare = feet is not None and not any(foot.y0 <= at <= foot.y1 for foot in feet)
        drawn = partial(
            dimension,
            check.from_xy,
            check.to_xy,
            registration.edge_distance(job, name, check.distance),
            off=off,
            height=3.0,
            extended=(False, bare),
            of=f"check:{check.code}",
        )
        places = WORDS[start.against == "board end"]
        tries = (drawn(share=share, within=within) for share, within in places)
        whole = next((tried for tried in tries if not registration.cut_through(tried, shown)), None)
        marks += whole or drawn(share=places[0][0], within=places[0][1])
    return marks


def _clear_of_strings(check: Check, inward: float, shown: list[Mark]) -> float:
    """How far in from the edge a distance's line runs: the usual, or the nearest to it that no string comes close to;
    where strings leave no such place, the one that is farthest off them.
    """
    a, b = complex(*check.from_xy), complex(*check.to_xy)
    along, long = (b - a) / abs(b - a), abs(b - a)
    beside = []
    for line in (mark.shape for mark in shown if isinstance(mark.shape, Line)):
        one, other = ((complex(*end) - a) / along for end in (line.a, line.b))
        slope = (other.imag - one.imag) / (other.real - one.real)
        ends = (max(0.0, one.real), min(long, other.real))
        beside += [inward * (one.imag + slope * (end - one.real)) for end in ends if ends[0] < ends[1]]

    def room(off: float) -> float:
        return min([abs(off - string) for string in beside], default=math.inf)

    return next((off for off in OFFS if room(off) >= OFF_STRINGS), None) or max(OFFS, key=room)
