"""The saddle's blank from the front and from above, in its own size and enlarged: heights under each string, crown,
ends, thickness, and where it peaks.

From the front it is seen as one looks from the nut to the tail, so that left is left; from above the nut lies below.
"""

from export.drawing.marks import XY, Mark
from export.errors import ExportError
from export.hole_table import Table, filled
from export.records import SCALES, Figure, Stamp
from export.templates.blanks import solid_views
from export.templates.blanks.solid_views import View, break_and_press, in_rows
from geometry.job import Job
from geometry.layout import Layout, SaddleBlank, SaddleString
from geometry.solids.fineness import told_saddle
from geometry.units import Unit, named, said_pm, said_roughly

FLOORS = {
    "slot": "over the slot’s floor",
    "bridge": "over the bridge’s top",
    "top": "over the instrument’s top",
}
"""What heights count from, in words."""
BELOW = {
    "bridge": "Its lower edge is drawn on the bridge’s top: add your slot’s depth, or give it on the Bridge card.",
    "top": "Its lower edge is drawn on the instrument’s top: give the bridge’s thickness and the slot’s depth on the "
    "Bridge card.",
}
GAP, TO_ABOVE = 22.0, 15.0
"""Between both sizes, and from the front view up to that from above, mm."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:
    """The blank. Raises `ExportError` without a glued bridge, and where its height is not known at both sides."""
    blank = layout.saddle_blank
    if job.held == "strings":
        raise ExportError("The saddle-blank template is not for a bridge that is held by the strings; take “Crown”")
    if job.held == "screws":
        raise ExportError("The saddle-blank template is not for saddles of their own; take “Saddle bases”")
    if blank is None:
        raise ExportError(
            "The saddle’s blank needs a glued bridge, its thickness at the slot (Bridge card), and at both sides the "
            "string over the top at the bridge, or with the bridge off the straightedge (Measure card)"
        )
    own, enlarged = (
        [
            *_front(job, blank, view),
            *solid_views.sides(job, view, blank.length, "left", "seen from the nut"),
            *_above(job, layout, blank, view),
        ]
        for view in (solid_views.OWN, solid_views.LARGE)
    )
    marks = solid_views.laid_out(own, enlarged, blank.length + GAP, stamp)
    return Figure(
        title="Saddle blank",
        marks=tuple(marks),
        keep=solid_views.whole(marks, "saddle front", "saddle above"),
        notes=_notes(job, blank),
        kept=("saddle front",),
        loose=True,
        nowhere=True,
        tables=(filled(_table(job, blank)),),
    )


def _from_left(job: Job, blank: SaddleBlank, string: SaddleString) -> float:
    """Where a string stands from the left end."""
    return string.along if job.bass == "left" else blank.length - string.along


def _high(blank: SaddleBlank, string: SaddleString) -> XY:
    """Its height over what heights count from, with its ±."""
    return {"slot": string.whole, "bridge": string.over_bridge}.get(blank.floor) or string.over_top


def _depth(blank: SaddleBlank) -> float | None:
    """How deep the slot is, where heights count from its floor."""
    first = blank.strings[0]
    if blank.floor != "slot" or first.whole is None or first.over_bridge is None:
        return None
    return first.whole[0] - first.over_bridge[0]


def _front(job: Job, blank: SaddleBlank, view: View) -> list[Mark]:
    """The outline with its crown, a line under each string, its name and its height."""
    ring = [(0.0, 0.0), (blank.length, 0.0), *reversed(blank.profile)]
    marks = [view.ring(ring, "cut" if blank.floor == "slot" else "mark", "saddle front")]
    depth = _depth(blank)
    if depth is not None:
        marks.append(view.line((0.0, depth), (blank.length, depth), "hidden", "bridge top"))
    places = [_from_left(job, blank, string) for string in blank.strings]
    top = max(high for _, high in blank.profile)
    for string, x, row in zip(blank.strings, places, in_rows([view.scale * x for x in places]), strict=True):
        high = _high(blank, string)[0]
        marks.append(view.line((x, 0.0), (x, high), "centre", f"string:{string.string}", 0.75))
        value = told_saddle(job, blank).fine(high)
        marks += solid_views.label(view, (x, top), string.string, value, row)
    marks += solid_views.letters(job, view, blank.length, "left", min(blank.profile[0][1], blank.profile[-1][1]))
    if view.scale > 1 and depth is not None:
        marks.append(view.words((blank.length, depth), "bridge’s top", off=(1.5, 0.0), anchor="sm"))
    return marks


def _above(job: Job, layout: Layout, blank: SaddleBlank, view: View) -> list[Mark]:
    """The blank from above: its outline, the ridge, and the peak under each string."""
    top = max(high for _, high in blank.profile)
    low = top + TO_ABOVE * (1.4 if view.scale > 1 else 1.0) / view.scale
    ring = [(0.0, low), (blank.length, low), (blank.length, low + blank.thickness), (0.0, low + blank.thickness)]
    marks = [view.ring(ring, "mark", "saddle above")]
    peaks = {string.name: string.peak for string in layout.strings}
    ridge = sorted(
        (_from_left(job, blank, string), low + blank.thickness * peaks.get(string.string, 0.5))
        for string in blank.strings
    )
    ends = [(0.0, ridge[0][1]), *ridge, (blank.length, ridge[-1][1])] if ridge else []
    if ends:
        marks.append(view.run(ends, "mark", "ridge", 0.6))
    for x, y in ridge:
        marks.append(view.line((x, low), (x, low + blank.thickness), "lay", "peak"))
        marks.append(view.line((x - 0.8, y), (x + 0.8, y), "mark", "peak"))
    if view.scale > 1:
        thick = f"from above, {told_saddle(job, blank).fine(blank.thickness)} thick"
        marks.append(view.words((blank.length, low + blank.thickness), thick, off=(0.0, 1.5), anchor="eb"))
    return [*marks, *solid_views.way(view, (0.0, low), "nut")]


def _notes(job: Job, blank: SaddleBlank) -> tuple[str, ...]:
    unit: Unit = job.unit
    crown = (
        f"Crown: {said_pm(blank.crown[1], unit, blank.crown[0])} in the middle, by the board’s radius at the saddle, "
        f"{said_roughly(blank.radius[0], unit)}."
        if blank.radius is not None
        else "The board’s radius is not known: from outer string to outer string the edge is straight."
    )
    below = BELOW.get(blank.floor)
    return (
        f"Heights in {named(unit)}, {FLOORS[blank.floor]}, to the string’s underside. Leave it a little high.",
        crown,
        *((below,) if below else ()),
        "From above: the ridge, and a short line where each string peaks. Enlarged views are to read, not to cut by.",
        SCALES,
    )


def _table(job: Job, blank: SaddleBlank) -> Table:
    """Each string's heights with their ±, how steeply it breaks and how hard it presses."""
    rows, told = [], told_saddle(job, blank)
    for string in blank.strings:
        rows.append(
            (
                string.string,
                told.fine(string.along),
                told.with_pm(string.over_top),
                told.with_pm(string.over_bridge),
                told.with_pm(string.whole),
                *break_and_press(string, job.unit),
            )
        )
    return Table(
        title=f"The saddle under each string, {job.unit}",
        head=("string", "from bass end", "over top", "over bridge", "over floor", "breaks by", "presses"),
        rows=tuple(rows),
        sides="seeeeee",
        below=_wood(job, blank),
    )


def _wood(job: Job, blank: SaddleBlank) -> tuple[tuple[str, bool], ...]:
    """The wood under the slot at both ends."""
    sides = (("left", blank.wood[0]), ("right", blank.wood[1]))
    told = [(job.bass_or_treble(side), wood) for side, wood in sides if wood is not None]
    if not told:
        return ()
    says = ", ".join(f"{said_pm(wood[1], job.unit, wood[0])} at the {side}" for side, wood in told)
    return ((f"Wood under the slot: {says}.", False),)
