"""The nut's blank from its front, from above and as a strip to stick on, in its own size and enlarged: each string's
slot with its place, its width and its bottom.

From the front it is seen as one looks from the saddle to the headstock, so that left is right; from above the tail lies
below.
"""

import math
from itertools import pairwise

from export.drawing.marks import XY, Mark
from export.errors import ExportError
from export.hole_table import Table, filled
from export.records import SCALES, Figure, Stamp
from export.templates.blanks import solid_views
from export.templates.blanks.nut import DEEP, LEAST_SEEN
from export.templates.blanks.solid_views import View, in_rows
from geometry.job import Job
from geometry.layout import Layout, NutBlank, NutSlot
from geometry.solids.fineness import slot_wide, told_nut
from geometry.units import named, said, said_pm

ENLARGED = "Enlarged views are to read, not to cut by."
GAP, TO_ABOVE, TO_STRIP = 26.0, 15.0, 9.0
"""Between both sizes, from the front view up to that from above, and from that up to the strip, mm."""
OUT = 0.5
"""Of its thickness a string stands out of a blank whose height is not told."""
PAST = 0.3
"""How much higher than that it is drawn, mm."""
BARE = 8.0
"""How high a blank is drawn of which nothing is known, mm."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:
    """The blank. Raises `ExportError` where none is asked for, or nut or strings are missing."""
    blank = layout.nut_blank
    if blank is None or not blank.slots:
        raise ExportError("The nut’s blank needs a nut that is to be made, and the strings; see the Strings card")
    own, enlarged = (
        [
            *_front(job, layout, blank, view),
            *solid_views.sides(job, view, blank.length[0], "right", "seen from the saddle"),
            *_above(job, blank, view, _low_of_above(layout, blank, view)),
        ]
        for view in (solid_views.OWN, solid_views.LARGE)
    )
    marks = solid_views.laid_out(own, enlarged, blank.length[0] + GAP, stamp)
    one = solid_views.OWN
    marks += _strip(job, blank, one, _low_of_above(layout, blank, one) + blank.thickness + TO_STRIP)
    return Figure(
        title="Nut blank",
        marks=tuple(marks),
        keep=solid_views.whole(marks, "nut front", "nut above", "nut strip"),
        notes=_notes(job, blank),
        of_scales={f"{SCALES} {ENLARGED}": ENLARGED},
        kept=("nut front", "nut strip"),
        loose=True,
        nowhere=True,
        tables=(filled(_table(job, blank)),),
    )


def _x(job: Job, blank: NutBlank, slot: NutSlot) -> float:
    """Where a slot's middle stands from the end that is drawn at the left: the right one."""
    return slot.along[0] if job.bass == "right" else blank.length[0] - slot.along[0]


def _bottom(blank: NutBlank, slot: NutSlot) -> float | None:
    """Its bottom over the nut's own, or over the board's face where the nut's bottom is not told."""
    known = slot.over_bed if blank.face else slot.over_board
    return None if known is None else known[0]


def _top(layout: Layout, blank: NutBlank) -> float:
    """The blank's top: as told, or so that half of the highest string stands out."""
    if blank.height is not None and blank.face:
        return blank.height
    sizes = {string.name: string.diameter or 0.0 for string in layout.strings}
    tops = [
        bottom + OUT * sizes.get(slot.string, 0.0)
        for slot in blank.slots
        if (bottom := _bottom(blank, slot)) is not None
    ]
    return max(tops) + PAST if tops else BARE


def _low_of_above(layout: Layout, blank: NutBlank, view: View) -> float:
    """Where the view from above begins, in the view's own mm."""
    return _top(layout, blank) + TO_ABOVE * (1.4 if view.scale > 1 else 1.0) / view.scale


def _front(job: Job, layout: Layout, blank: NutBlank, view: View) -> list[Mark]:
    """The outline, the board's face, each slot down to its bottom, its string's name and the bottom's height."""
    length, top = blank.length[0], _top(layout, blank)
    ring = [(0.0, 0.0), (length, 0.0), (length, top), (0.0, top)]
    marks = [view.ring(ring, "cut" if blank.face and blank.height is not None else "mark", "nut front")]
    if blank.face:
        face = [(length - along, high) for along, high in blank.face]
        marks.append(view.run(face, "hidden", "board face"))
    places = [_x(job, blank, slot) for slot in blank.slots]
    for slot, x, row in zip(blank.slots, places, in_rows([view.scale * x for x in places]), strict=True):
        bottom = _bottom(blank, slot)
        marks.append(_slot_from_front(view, slot, x, bottom, top))
        value = told_nut(job, blank).fine(bottom) if bottom is not None else ""
        marks += solid_views.label(view, (x, top), slot.string, value, row)
    return marks


def _slot_from_front(view: View, slot: NutSlot, x: float, bottom: float | None, top: float) -> Mark:
    """A slot with its round bottom; only its middle where its width or its depth is not known."""
    of = f"string:{slot.string}"
    if bottom is None or slot.width is None or bottom >= top:
        return view.line((x, 0.0 if bottom is None else min(bottom, top)), (x, top), "centre", of)
    half = slot.width / 2
    if bottom + half >= top:  # so shallow that only a part of its round bottom is there
        rise = top - bottom
        half = math.sqrt(rise * (slot.width - rise))
        return view.bent([(x - half, top, rise / half), (x + half, top, 0.0)], "mark", of)
    return view.bent(
        [(x - half, top, 0.0), (x - half, bottom + half, 1.0), (x + half, bottom + half, 0.0), (x + half, top, 0.0)],
        "mark",
        of,
    )


def _above(job: Job, blank: NutBlank, view: View, low: float) -> list[Mark]:
    """The blank from above, its front edge below; each slot, and a front edge that is moved for each string."""
    length, thick = blank.length[0], blank.thickness
    ring = [(0.0, low), (length, low), (length, low + thick), (0.0, low + thick)]
    marks = [view.ring(ring, "mark", "nut above")]
    for slot in blank.slots:
        marks += _lines(view, slot, _x(job, blank, slot), low + slot.behind, low + thick, blank.turn)
    if is_moved(blank):
        marks.append(view.run(_moved_edge(job, blank, low), "mark", "nut front edge", 1.2))
    if view.scale > 1:
        says = f"from above, {told_nut(job, blank).fine(thick)} thick"
        marks.append(view.words((length, low + thick), says, off=(0.0, 1.5), anchor="eb"))
    return [*marks, *solid_views.way(view, (0.0, low), "tail")]


def is_moved(blank: NutBlank) -> bool:
    """Whether the nut's front edge is moved for any string by what can be seen."""
    return any(abs(slot.behind) > LEAST_SEEN for slot in blank.slots)


def _moved_edge(job: Job, blank: NutBlank, low: float) -> list[XY]:
    """The front edge in steps, each string's own half way to its neighbours."""
    ordered = sorted((_x(job, blank, slot), slot.behind) for slot in blank.slots)
    borders = [0.0, *((a + b) / 2 for (a, _), (b, _) in pairwise(ordered)), blank.length[0]]
    return [
        (x, low + behind)
        for (_, behind), (start, stop) in zip(ordered, pairwise(borders), strict=True)
        for x in (start, stop)
    ]


def _lines(view: View, slot: NutSlot, x: float, low: float, high: float, turn: float) -> list[Mark]:
    """A slot's two edges from above, or its middle; it runs along the neck, to which the nut may be turned."""
    of, aside = f"string:{slot.string}", (high - low) * math.tan(turn)
    if slot.width is None or slot.width * view.scale < 0.6:
        return [view.line((x, low), (x + aside, high), "centre", of)]
    half = slot.width / 2
    return [view.line((x + off, low), (x + off + aside, high), "mark", of, 0.6) for off in (-half, half)]


def _strip(job: Job, blank: NutBlank, view: View, low: float) -> list[Mark]:
    """A strip to cut out and stick on the nut, its lower edge on the nut's front."""
    length = blank.length[0]
    ring = [(0.0, low), (length, low), (length, low + DEEP), (0.0, low + DEEP)]
    marks = [view.ring(ring, "cut", "nut strip")]
    places = [_x(job, blank, slot) for slot in blank.slots]
    numbers = [told_nut(job, blank).fine(slot.along[0]) for slot in blank.slots]
    for slot, x, number, row in zip(blank.slots, places, numbers, in_rows(places, numbers), strict=True):
        marks += _lines(view, slot, x, low, low + DEEP, blank.turn)
        off = (0.0, 1.5 + solid_views.ROW * row)
        marks.append(view.words((x, low + DEEP), number, off=off, height=solid_views.NUMBER, anchor="mb"))
    marks += solid_views.letters(job, View(view.xy((0.0, low)), view.scale), length, "right", DEEP)
    edge = view.words((length / 2, low), "this edge on the nut’s front", off=(0.0, -1.2), height=1.9, anchor="mt")
    return [*marks, edge]


def _notes(job: Job, blank: NutBlank) -> tuple[str, ...]:
    unit = job.unit
    over = "the nut’s bottom" if blank.face else "the board’s face"
    turned = abs(math.degrees(blank.turn))
    lines = [
        f"Numbers in {named(unit)}: bottoms over {over}, at the nut’s front; along the strip from its bass end.",
        f"The nut is {said_pm(blank.length[1], unit, blank.length[0])} long and {said(blank.thickness, unit)} thick; "
        f"its slots fall away to the headstock by {math.degrees(blank.back_angle):g}°.",
        "File slots to their bottoms last and a little at a time, with all strings on.",
    ]
    if turned >= 0.1:
        near = job.bass_or_treble("left" if blank.turn > 0 else "right")
        lines.append(
            f"The nut stands {turned:.1f}° out of square to the neck, its {near} end nearer the headstock; its slots "
            "run along the neck."
        )
    if blank.zero_fret:
        lines.append("The zero fret carries the strings: these slots only guide them.")
    if all(slot.over_board is None for slot in blank.slots):
        lines.append("The slots’ bottoms wait for the frets’ height; places and widths are as they will be.")
    if is_moved(blank):
        lines.append("A compensated nut: the thick stepped line is the front edge that each string leaves.")
    lines.append(f"{SCALES} {ENLARGED}")
    return tuple(lines)


def _table(job: Job, blank: NutBlank) -> Table:
    """Each slot's place, width and bottom with their ±."""
    unit, moved, told = job.unit, is_moved(blank), told_nut(job, blank)
    rows = tuple(
        (
            slot.string,
            told.with_pm(slot.along),
            slot_wide(slot, unit),
            told.with_pm(slot.over_board),
            told.with_pm(slot.over_bed),
            told.with_pm(slot.deep),
            *((told.fine(slot.behind),) if moved else ()),
        )
        for slot in blank.slots
    )
    head = ("string", "from bass end", "width", "over board", "over bottom", "deep", *(("set back",) if moved else ()))
    return Table(title=f"The nut’s slots, {unit}", head=head, rows=rows, sides="s" + "e" * (len(head) - 1))
