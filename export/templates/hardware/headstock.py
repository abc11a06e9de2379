"""The headstock: old holes to plug, new posts to drill, from the face and from the back, and a strip for a jig.

What is drawn from the back is mirrored and says so. Posts are drilled from the face as far as the bit's point, and
then from the back, or with scrap clamped behind, so that no wood breaks out. A slotted headstock's are drilled from its
sides: its sheets have their axes.
"""

from collections.abc import Sequence
from itertools import pairwise

from export.drawing.dimension import arrow, cross, dimension
from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Purpose, Text
from export.drawing.room.clear_words import is_clear, lines_of
from export.drills import nearest_names
from export.hole_table import Bored
from export.plan.bridge.old_work_drawn import old_hole
from export.records import Figure, Stamp
from export.templates.hardware import headstock_notes
from export.templates.hardware.headstock_notes import posts_of
from export.templates.hardware.headstock_sides import axes
from export.templates.parts import seen_from
from geometry.job import Job
from geometry.job.sides import SIDES, Side
from geometry.job.told_by_rule import by_rule_alone
from geometry.layout import HeadstockPlan, Layout, Post
from geometry.units import mm, show, show_size

LETTERS, ROOM = 2.3, 4.0
"""Height of the letters, and how far a seam stays from a hole, mm."""
ARM, GAP = 1.4, 1.6
"""How far a hole's cross reaches past its rim, and from there to the centre line, mm."""
NAME_OFF, OFF_PLATE, STEPS = 1.6, 0.7, 20
"""From a post to its name, and from that to a plate's line, mm; and how many times 0.4 mm farther it is tried."""
JIG_WIDE, JIG_PAST = 30.0, 15.0
"""How wide a jig's strip is, and how far it reaches past its outer holes, mm."""


def draw_face(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all are drawn by the same call
    """The headstock from its face. Raises `ExportError` where there are no new posts."""
    return _headstock(job, posts_of(layout), layout, back=False)


def draw_back(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all are drawn by the same call
    """The same from its back, mirrored. Raises `ExportError` where there are no new posts."""
    return _headstock(job, posts_of(layout), layout, back=True)


def draw_jig(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all are drawn by the same call
    """A strip a side with the posts' middles, to make a drilling jig by. Raises `ExportError` without new posts."""
    found, marks, bored = posts_of(layout), [], []
    for number, side in enumerate(SIDES):
        row = [post for post in found.posts if post.side == side]
        if row:
            more, holes = _strip(job, row, _steps(found, row), side, -number * (JIG_WIDE + 12.0))
            marks += more
            bored += holes
    notes = (
        "Stick each strip on the jig’s wood, drill through square on a stand, and try the jig in scrap first.",
        headstock_notes.drilled(job, found, jig=True),
    )
    return Figure(
        title="Drilling jig",
        marks=tuple(marks),
        keep=_whole(marks),
        notes=notes,
        kept=tuple(f"strip {side}" for side in SIDES),
        loose=True,
        nowhere=True,
        bored=tuple(bored),
    )


def _headstock(job: Job, found: HeadstockPlan, layout: Layout, *, back: bool) -> Figure:
    plates = _plates(found, back=back)
    marks, bored, names = [*_as_found(job, found, layout), *plates], [], _names(found, plates)
    slotted = job.hardware.slotted
    if slotted:
        marks += axes(found)
    for number, post in enumerate(() if slotted else found.posts, 1):
        name, of = _called(post, number), f"post:{number}"
        marks.append(Mark(shape=Circle(post.at, post.diameter / 2), purpose="drill", of=of))
        marks += cross(post.at, post.diameter / 2 + 1.4, "centre", of=of, weight=0.75)
        if post.bushing is not None:
            bushing: Purpose = "hidden" if back else "mark"
            marks.append(Mark(shape=Circle(post.at, post.bushing / 2), purpose=bushing, of=of))
        marks.append(Mark(shape=names[number - 1], purpose="note", of=of))
        bored.append(_listed(job, post, name, "post", post.at))
    screws, holes = _screws(job, found, back=back)
    marks += screws
    bored += holes
    marks += _words(job, found, layout)
    side = "BACK" if back else "FACE"
    marks += seen_from(_corner(layout), f"SEEN FROM THE {side}", "mirrored" if back else "")
    return Figure(
        title="Headstock, back" if back else "Headstock",
        marks=tuple(marks),
        keep=_whole(marks),
        notes=(
            *headstock_notes.order(job, found),
            headstock_notes.drilled(job, found),
            *headstock_notes.screwed(job, found),
        ),
        mirror=back,
        seen="the back" if back else "the face",
        is_template=True,
        own_datum=("nut", (0.0, 0.0)),
        bored=tuple(bored),
    )


def _screws(job: Job, found: HeadstockPlan, *, back: bool) -> tuple[list[Mark], list[Bored]]:
    """The holes of the plates' screws: they go into the back, so that from the face they are only seen as hidden."""
    tuners = job.hardware.tuners
    if tuners is None or tuners.plate is None:
        return [], []
    wide = mm(tuners.plate.screw_hole)
    purpose: Purpose = "drill" if back else "hidden"
    marks = [Mark(shape=Circle(at, wide / 2), purpose=purpose, of="screw") for at in found.screws]
    drill = nearest_names(wide)
    listed = [Bored(name="plate screw", at=at, diameter=wide, drill=drill, depth="as its screw") for at in found.screws]
    return marks, listed if back else []


def _plates(found: HeadstockPlan, *, back: bool) -> list[Mark]:
    """The tuners' plates, which are screwed on the back: lines to lay them on there, hidden from the face."""
    purpose: Purpose = "lay" if back else "hidden"
    return [Mark(shape=polyline(ring, closed=True), purpose=purpose, of="tuner plate") for ring in found.plates]


def _called(post: Post, number: int) -> str:
    """A post by its string, or by its number."""
    return post.string or str(number)


def _names(found: HeadstockPlan, plates: Sequence[Mark]) -> list[Text]:
    """Each post's name beside it, toward the headstock's middle, where no old hole and no edge is: all of a side as far
    off, where the plates' lines leave all of them clear.
    """
    lines = lines_of(plates)
    far: dict[Side, float] = {}
    for side in SIDES:
        row = [(post, _called(post, number)) for number, post in enumerate(found.posts, 1) if post.side == side]
        tried = (NAME_OFF + 0.4 * step for step in range(STEPS))
        clear = (off for off in tried if all(is_clear(_name(*one, off), lines, OFF_PLATE) for one in row))
        far[side] = next(clear, NAME_OFF)
    return [_name(post, _called(post, number), far[post.side]) for number, post in enumerate(found.posts, 1)]


def _name(post: Post, name: str, off: float) -> Text:
    """A post's name so far off its hole or its bushing's, toward the middle."""
    x, y = post.at
    toward = -1.0 if post.side == "left" else 1.0
    beside = y + toward * ((post.bushing or post.diameter) / 2 + off)
    return Text((x, beside), name, LETTERS, 0.0, "mt" if post.side == "left" else "mb", bold=True)


def _listed(job: Job, post: Post, number: str, name: str, at: XY) -> Bored:
    """A post's hole as a file for a machine lists it, by what is printed beside it, with its bushing's."""
    depth, tuners = "through", job.hardware.tuners
    if post.bushing is not None and tuners is not None:
        wide, deep = (show_size(length, job.unit) for length in (post.bushing, mm(tuners.bushing_deep)))
        depth = f"through; bushing {wide} wide, {deep} {job.unit} deep"
    drill = nearest_names(post.diameter)
    return Bored(name=name, number=number, at=at, diameter=post.diameter, drill=drill, depth=depth)


def _as_found(job: Job, found: HeadstockPlan, layout: Layout) -> list[Mark]:
    """Outline and slots to lay the sheet on, the nut's front, the middle line, and old holes as they were."""
    marks = [Mark(shape=polyline(ring, closed=True), purpose="lay", of="headstock") for ring in _rings(found)]
    assert layout.neck is not None
    left, right = layout.neck.nut
    marks.append(Mark(shape=Line(left, right), purpose="lay", of="nut"))
    end = min(x for x, _ in _places(found))
    (x, y), (dx, dy) = found.middle.at, found.middle.direction
    far = (end - 6.0 - x) / dx
    marks.append(Mark(shape=Line((x, y), (x + far * dx, y + far * dy)), purpose="centre", of="headstock middle"))
    for hole in () if job.hardware.slotted else (*found.old_posts, *found.old_screws):
        marks += old_hole(hole, f"old:{hole.name}")
        marks.append(Mark(shape=Circle(hole.at, 0.3), purpose="before", of=f"old:{hole.name}", filled=True))
    return marks


def _rings(found: HeadstockPlan) -> list[tuple[XY, ...]]:
    return [ring for ring in (found.outline, *found.slots) if ring]


def _places(found: HeadstockPlan) -> list[XY]:
    """All that is drawn of it, by its places."""
    return [*(at for ring in _rings(found) for at in ring), *(post.at for post in found.posts)]


def _words(job: Job, found: HeadstockPlan, layout: Layout) -> list[Mark]:
    """BASS and TREBLE beside the headstock, and where the nut is."""
    places = _places(found)
    middle = sum(x for x, _ in places) / len(places)
    marks = []
    outs: dict[Side, float] = {"left": max(y for _, y in places) + 5.0, "right": min(y for _, y in places) - 5.0}
    for side, out in outs.items():
        text = Text(
            (middle, out), job.bass_or_treble(side).upper(), 5.0, 0.0, "mb" if side == "left" else "mt", bold=True
        )
        marks.append(Mark(shape=text, purpose="note"))
    assert layout.neck is not None
    x, y = layout.neck.nut[1]
    return [*marks, Mark(shape=Text((x + 2.0, y - 2.0), "nut’s front", LETTERS, 0.0, "st"), purpose="note")]


def _corner(layout: Layout) -> XY:
    """Where it is said from where it is seen: beyond the nut, the words on the neck centre line."""
    assert layout.neck is not None
    return max(x for x, _ in layout.neck.nut) + 8.0, 2.0


def _steps(found: HeadstockPlan, row: Sequence[Post]) -> list[float]:
    """How far each post of a row stands from the first, mm; on a slotted headstock along its edge."""
    bores = [bore for post, bore in zip(found.posts, found.bores, strict=True) if post in row and bore is not None]
    if len(bores) == len(row):
        return [bore.along[0] - bores[0].along[0] for bore in bores]
    first = complex(*row[0].at)
    return [abs(complex(*post.at) - first) for post in row]


def _strip(
    job: Job, row: Sequence[Post], along: Sequence[float], side: Side, y: float
) -> tuple[list[Mark], list[Bored]]:
    """A side's strip, its first post at the origin, the way from the nut to the left as the headstock lies."""
    half, of = JIG_WIDE / 2, f"strip {side}"
    left, right = -along[-1] - JIG_PAST, JIG_PAST
    ring = [(left, y - half), (right, y - half), (right, y + half), (left, y + half)]
    marks = [Mark(shape=polyline(ring, closed=True), purpose="cut", of=of)]
    reach = max(post.diameter for post in row) / 2 + ARM
    stops = [left, *(x for step in reversed(along) for x in (-step - reach - GAP, -step + reach + GAP)), right]
    marks += [
        Mark(shape=Line((a, y), (b, y)), purpose="centre", of=of) for a, b in zip(stops[::2], stops[1::2], strict=True)
    ]
    bored = []
    for post, step in zip(row, along, strict=True):
        at = (-step, y)
        marks.append(Mark(shape=Circle(at, post.diameter / 2), purpose="drill", of=of))
        marks += cross(at, post.diameter / 2 + ARM, "centre", of=of, weight=0.75)
        marks.append(
            Mark(shape=Text((-step, y + half - 4.0), post.string, LETTERS, 0.0, "mb", bold=True), purpose="note", of=of)
        )
        bored.append(_listed(job, post, post.string, f"{job.bass_or_treble(side)} post", at))
    low = y - reach - 2.0
    places = 2 if job.unit == "in" and not by_rule_alone(job) else 1
    for one, other in pairwise(along):
        says = show(other - one, job.unit, places)
        marks += dimension((-other, y), (-one, y), says, off=low - y, height=LETTERS, extended=(False, False), of=of)
    ends = [((-step, y - reach - 0.8), (-step, low - 1.5)) for step in along] if len(along) > 1 else []
    marks += [Mark(shape=Line(*end), purpose="dimension", of=of, weight=0.8) for end in ends]
    hand = Text((right - 1.5, y - half + 2.0), job.bass_or_treble(side).upper(), LETTERS, 0.0, "eb", bold=True)
    nut = Text((right - 1.5, y + half - 4.0), "nut", LETTERS, 0.0, "eb", bold=True)
    marks += [Mark(shape=text, purpose="note", of=of) for text in (hand, nut)]
    return [*marks, *arrow((right - 12.0, y + 4.5), (right - 3.0, y + 4.5), "note", of=of)], bored


def _whole(marks: Sequence[Mark]) -> tuple[Box, ...]:
    """What no seam should cross: each hole with its cross."""
    holes = [mark.shape for mark in marks if mark.purpose == "drill" and isinstance(mark.shape, Circle)]
    rooms = [(hole.centre, hole.radius + ROOM) for hole in holes]
    return tuple(Box(x - room, y - room, x + room, y + room) for (x, y), room in rooms)
