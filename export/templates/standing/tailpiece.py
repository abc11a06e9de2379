"""The tailpiece's sheet: its middle line on the strings' own, where each string ends, its screw holes where they are
given, and a line over the edge to the strap pin. It is laid with its line on the saddle.
"""

from typing import Literal

from export.drawing.dimension import arrow, dimension
from export.drawing.flatten import around
from export.drawing.marks import Circle, Line, Mark, Text
from export.drills import nearest_names
from export.errors import ExportError
from export.hole_table import Bored, Table
from export.plan.bridge.bridgework import saddle_lines
from export.plan.bridge.standing_drawn import BEFORE_EDGE, as_it_must_be, tail_marks
from export.records import SCALES_FIRST, Figure, Stamp
from export.templates import numbered_holes
from geometry.forces import force
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Hole, Layout, SaddlePlan, TailPlan
from geometry.units import named, said_angle, show, show_pm, shows

PAST = 11.0
"""How far the saddle line is carried on past the crown's ends, mm."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """From the saddle to the tail. Raises `ExportError` where there is no tail."""
    tail, saddle = layout.tail, layout.saddle
    if tail is None or saddle is None:
        lacks = "its place is not known yet" if job.tail is not None else "this job has none"
        raise ExportError(f"The tailpiece template needs a tail behind the bridge; {lacks}")
    screws = [_listed(hole) for hole in tail.screws]
    front = min(x for x, _ in saddle.line)
    back = max((string.at[0] for string in tail.strings), default=tail.middle[0])
    marks = [
        *saddle_lines(saddle, PAST),
        Mark(
            shape=Text((front - 1.5, saddle.line[0][1] + 2.0), f"lay on the {how_held(job).ridge}", 2.1, 0.0, "eb"),
            purpose="note",
        ),
        Mark(shape=Line((front - 8.0, 0.0), (back + 14.0, 0.0)), purpose="centre", of="neck"),
        *_strings(layout, tail),
        *tail_marks(tail),
        *_measured(tail),
        *_names(layout, tail),
        *numbered_holes.numbers(screws),
        *dimension(
            (saddle_at(saddle, tail.middle[1]), tail.middle[1]),
            tail.middle,
            show(tail.middle[0] - saddle_at(saddle, tail.middle[1]), job.unit),
            off=min((string.at[1] for string in as_it_must_be(tail).strings), default=0.0) - tail.middle[1] - 12.0,
            height=2.5,
            of="field:tail.behind",
        ),
        *_sides(job, saddle),
        *arrow((front - 12.0, 8.0), (front - 34.0, 8.0), "note", scale=0.6, of="arrow"),
        Mark(shape=Text((front - 34.0, 10.0), "to the nut", 2.6, 0.0, "sb"), purpose="note", of="arrow"),
    ]
    box = around([tail.middle, *(one.at for one in tail.strings), *(one.at for one in screws), *saddle.line])
    balance = (
        "The thick crosses are where the strings end when their pulls across the neck balance."
        if tail.by == "pulls"
        else "The thick crosses are where the strings end on the middle of the outer strings, carried on."
    )
    ridge = how_held(job).ridge
    notes = [
        f"Lay the {ridge}’s line on the {ridge}, the long line on the neck centre line.",
        SCALES_FIRST,
        balance,
        f"Numbers in {named(job.unit)}.",
    ]
    if tail.screws:
        notes.append("Look how the tailpiece hangs with the strings on before you drill.")
    if tail.pin is not None:
        notes.append("The strap pin is bored into the body’s end, not from above: carry its line over the edge.")
    figure = Figure(
        title="Tailpiece",
        marks=tuple(marks),
        keep=(box.grown(4.0),),
        notes=tuple(notes),
        seen="outside",
        is_template=True,
        own_datum=(f"{ridge} line on the neck centre line", (saddle_at(saddle, 0.0), 0.0)),
        bored=tuple(screws),
        tables=(_table(job, tail),),
    )
    return numbered_holes.with_hole_table(job, layout, figure)


def _listed(hole: Hole) -> Bored:
    """A screw hole as its table lists it."""
    drill = nearest_names(hole.diameter)
    return Bored(name=hole.name, at=hole.at, diameter=hole.diameter, drill=drill, depth="by your screw")


def saddle_at(saddle: SaddlePlan, y: float) -> float:
    """Where the saddle line lies at y."""
    (ax, ay), (bx, by) = saddle.line
    return ax + (y - ay) * (bx - ax) / (by - ay)


def _strings(layout: Layout, tail: TailPlan) -> list[Mark]:
    """Each string from the crown to where it ends."""
    ends = {string.name: string.at for string in as_it_must_be(tail).strings}
    return [
        Mark(shape=Line(string.break_point, ends[string.name]), purpose="lay", of=f"string:{string.name}", weight=0.75)
        for string in layout.strings
        if string.name in ends
    ]


def _measured(tail: TailPlan) -> list[Mark]:
    """Where its strings end today."""
    if tail.measured is None:
        return []
    x, y = tail.measured
    rings = [Mark(shape=Circle(string.at, 1.2), purpose="before", of="tail today") for string in tail.strings]
    return [*rings, Mark(shape=Line((x - 9.0, y), (x + 9.0, y)), purpose="before", of="tail today")]


def _names(layout: Layout, tail: TailPlan) -> list[Mark]:
    """The strings' names before the crown, clear of the holes' numbers, and the strap pin's word over its line."""
    pin = [] if tail.pin is None else [(tail.pin.at[0] - BEFORE_EDGE, tail.pin.at[1] + 1.5)]
    words = [Mark(shape=Text(at, "strap pin, in the end", 2.1, 0.0, "sb"), purpose="note") for at in pin]
    return words + [
        Mark(
            shape=Text((string.break_point[0] - 3.0, string.break_point[1]), string.name, 2.4, 0.0, "em", bold=True),
            purpose="note",
        )
        for string in layout.strings
        if string.name in {one.name for one in tail.strings}
    ]


def _sides(job: Job, saddle: SaddlePlan) -> list[Mark]:
    marks = []
    for side, (x, y) in zip(("left", "right"), saddle.line, strict=True):
        across: Literal["eb", "et"] = "eb" if side == "left" else "et"
        at = (x - 3.0, y + (9.0 if side == "left" else -9.0))
        text = Text(at, job.bass_or_treble(side).upper(), 5.0, 0.0, across, bold=True)
        marks.append(Mark(shape=text, purpose="note"))
    return marks


def _table(job: Job, tail: TailPlan) -> Table:
    """Each string: how it turns sideways at the saddle as the tail stands or is to stand, and how it breaks."""
    rows = []
    for string in tail.strings:
        to = "" if abs(string.sideways) < 0.05 else job.bass_or_treble("left" if string.sideways > 0 else "right")
        breaks = "" if string.breaks is None else said_angle(string.breaks, string.breaks_pm95)
        rows.append((f"string {string.name}", f"{abs(string.sideways):.1f}° {to}".strip(), breaks))
    side = job.bass_or_treble("left" if tail.middle[1] > 0 else "right")
    pm = show_pm(tail.across_pm95, job.unit)
    lies = f"to the {side} of the" if shows(tail.middle[1], job.unit) else "on the"
    below = [(f"Middle: {show(abs(tail.middle[1]), job.unit)} ±{pm} {job.unit} {lies} centre line.", False)]
    if tail.push is not None and tail.off is not None and abs(tail.off) > tail.off_pm95:
        way = job.bass_or_treble("left" if tail.push > 0 else "right")
        pull = force(abs(tail.push), job.unit, tail.push_pm95)
        below.append((f"As it hangs today it pulls the bridge to the {way} by {pull}.", True))
    today = "sideways today" if tail.measured is not None else "sideways"
    return Table(
        title="Over the crown" if tail.measured is None else "Over the crown, as it hangs",
        head=("", today, "breaks by"),
        rows=tuple(rows),
        sides="see",
        below=tuple(below),
    )
