"""What is worked out and what was there before: saddle, slot, bridge, pins; old footprint, scar, holes, metal."""

import math
from itertools import pairwise

from export.drawing.dimension import cross, hatch
from export.drawing.flatten import around, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Path, Purpose
from export.drawing.straight import carried_on
from export.plan.bridge import separate_drawn
from export.plan.bridge.old_work_drawn import footprint, metal_marks, old_hole, on_the_top, under_the_top
from export.plan.bridge.standing_drawn import as_it_stood, standing_bridge, strings_behind, tail_marks
from export.plan.labels import Label
from export.plan.measured_points import warning
from export.plan.plan_view import PlanView
from geometry import words
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout, OldPlan, SaddlePlan, TiePlan, leans_wrong
from geometry.old_work.holes.assumed_holes import after
from geometry.saddle.slot_leaning import as_it_stands
from geometry.units import said, show

APART = 20.0
"""Bass and treble stand beside a base where its ends lie so far apart, in paper mm; at the nut always."""
WINGS = 12.0
"""The same of a bridge's wings: nearer ones leave no room, and those at the nut tell it as well. Nor does
a line longer than `SHORT` lead to words.
"""
SHORT = 4.5
HATCH = 1.6
"""Between a hatch's lines, in paper mm."""
SAME = 0.01
"""mm. Steps that differ by less are one."""


def bridge_outline(layout: Layout, view: PlanView) -> list[Mark]:
    """The bridge's ground and outline, under strings and old work."""
    if layout.separate is not None:
        return separate_drawn.grounds(layout.separate, 0.8 if view.near else 0.6)
    if layout.bridge is None:
        return as_it_stood(layout.floating) if layout.floating is not None else []
    outline = Path(layout.bridge.outline, closed=True)
    if layout.floating is not None:
        return standing_bridge(layout.bridge, layout.floating, view)
    return [Mark(shape=outline, purpose="cut", of="bridge", filled=True, weight=0.8 if view.near else 0.6)]


def bridgework(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Slot, saddle line and pin holes, and the labels they ask for."""
    marks: list[Mark] = []
    labels: list[Label] = []
    bridge, saddle = layout.bridge, layout.saddle
    heavy = 1.0 if view.near else 0.7
    if layout.separate is not None:
        marks, labels = separate_drawn.separate(job, layout.separate, view)
    elif saddle is not None:
        more, label = _slot(job, layout, saddle, view, heavy)
        marks += more
        labels += label
        marks += saddle_lines(saddle, 9.0)
        if view.near:
            marks += crests(saddle)
        if "opposite slant" in view.overlays:
            more, label = _opposite(saddle.opposite)
            marks += more
            labels += label
    if bridge is not None and bridge.tie is not None:
        marks += tie_block(bridge.tie, heavy, near=view.near)
    if layout.tail is not None:
        marks += strings_behind(layout, view) + tail_marks(layout.tail)
        labels.append(Label(at=layout.tail.middle, words="tail", of="tail", prefer=25, clear=1.5))
    for pin in bridge.pins if bridge else ():
        hole = Circle(pin.at, pin.diameter / 2)
        marks.append(Mark(shape=hole, purpose="drill", of=f"pin:{pin.name}", weight=heavy))
        if view.near:
            marks += cross(pin.at, pin.diameter / 2 + 1.0, "centre", of=f"pin:{pin.name}", weight=0.7)
    if view.near:
        for string in layout.strings:
            dot = Circle(string.break_point, view.size(0.45))
            marks.append(Mark(shape=dot, purpose="cut", of=f"string:{string.name}", filled=True))
    return marks, labels + _sides(job, layout, view)


def _slot(job: Job, layout: Layout, saddle: SaddlePlan, view: PlanView, heavy: float) -> tuple[list[Mark], list[Label]]:
    """The slot with how it leans, in words; one that leans the wrong way for the hand is marked in shape and colour."""
    shapes = [polyline(slot, closed=True) for slot in saddle.slots]
    if leans_wrong(layout):
        front = saddle.front[0 if job.bass == "left" else 1]
        return [
            *(Mark(shape=shape, purpose="route", of="slot", weight=1.8 * heavy, tone="look") for shape in shapes),
            *(
                Mark(shape=line, purpose="dimension", of="slot", tone="look")
                for slot in saddle.slots
                for line in hatch(slot, view.size(0.9))
            ),
            Mark(shape=warning(front, view.size(2.0)), purpose="measured", of="slot", tone="look", weight=1.4),
        ], [_leans(front)]
    words = ridge = how_held(job).ridge
    leaning = as_it_stands(job, saddle)
    if view.near and leaning.longer != "neither":
        words = f"{ridge}, {said(leaning.mm, job.unit)} farther at {leaning.longer}"
    kind: Purpose = "route" if layout.floating is None else "mark"
    marks = [Mark(shape=shape, purpose=kind, of="slot", weight=heavy) for shape in shapes]
    return marks, [Label(at=saddle.line[0], words=words, of="saddle", prefer=145, short=ridge)]


def _leans(front: XY) -> Label:
    words, short = "leans the wrong way", "wrong way"
    return Label(
        at=front,
        words=words,
        of="slot",
        tone="look",
        bold=True,
        prefer=145,
        clear=1.5,
        farthest=16.5,
        short=short,
    )


def _sides(job: Job, layout: Layout, view: PlanView) -> list[Label]:
    """Bass and treble beside the bridge's wings and beside the nut."""
    names = ("treble", "bass") if job.bass == "right" else ("bass", "treble")
    labels: list[Label] = []
    wings = None if layout.bridge is None else (layout.bridge.corners[3], layout.bridge.corners[2])
    ways = [math.degrees(view.to_screen.angle(side * math.pi / 2)) for side in (1, -1)]
    if layout.separate is not None:
        backs = separate_drawn.backs(layout.separate)
        if math.dist(*backs) * view.scale >= APART:  # a base is short, and its two words must not cross
            labels += [
                _side(at, words, way, prefer=way, clear=1.5) for at, words, way in zip(backs, names, ways, strict=True)
            ]
    elif wings is not None and math.dist(*wings) * view.scale >= WINGS:
        far = math.inf if view.near else SHORT
        labels += [_side(at, words, way, farthest=far) for at, words, way in zip(wings, names, ways, strict=True)]
    if layout.neck is not None:
        nut = zip(layout.neck.nut, names, ways, strict=True)
        labels += [_side(at, words, way, prefer=way, clear=1.5) for at, words, way in nut]
    return labels


def _side(
    at: XY, words: str, outward: float, *, prefer: float = 0.0, clear: float = 0.0, farthest: float = math.inf
) -> Label:
    """A side's name, never on the other side of the board: `outward` is its own (screen degrees)."""
    return Label(
        at=at,
        words=words,
        of=f"side:{words}",
        height=2.6,
        bold=True,
        needed=True,
        prefer=prefer,
        clear=clear,
        farthest=farthest,
        ahead=outward,
    )


def _in_scar(scar: tuple[tuple[XY, ...], ...], side: str, wide: float) -> XY:
    """A place in the scar where it is widest: past a wing, or along the front or the back, clear of the strings."""
    way = -1.0 if side == "right wing" else 1.0
    x, y = max((at for ring in scar for at in ring), key=lambda at: way * at[1])
    if side.endswith("wing"):
        ring = next(ring for ring in scar if (x, y) in ring)
        near = [at[0] for at in ring if way * (y - at[1]) < wide]
        return (min(near) + max(near)) / 2, y - way * wide / 2
    box = max((around(ring) for ring in scar), key=lambda box: box.height)
    return (box.x0 + wide / 2 if side == "front" else box.x1 - wide / 2), box.y1 - min(12.0, box.height / 2)


def _opposite(ends: tuple[XY, XY]) -> tuple[list[Mark], list[Label]]:
    """The saddle line as it would lean for the other hand, to compare."""
    line = carried_on(*ends, 12.0)
    label = Label(at=line.a, words="the opposite slant", of="opposite", tone="quiet", prefer=145)
    return [Mark(shape=line, purpose="hidden", of="opposite", tone="quiet")], [label]


def saddle_lines(saddle: SaddlePlan, past: float) -> list[Mark]:
    """The saddle line, carried on past the slot's ends by so many mm; of several pieces each its own, so far at
    its outer end alone.
    """
    if len(saddle.lines) == 1:
        return [Mark(shape=carried_on(*saddle.line, past), purpose="centre", of="saddle")]
    ordered = sorted(saddle.lines, key=lambda line: -line[0][1])
    shapes = [carried_on(*line, past) for line in ordered]
    ends = [
        (long.a if at == 0 else a, long.b if at == len(ordered) - 1 else b)
        for at, ((a, b), long) in enumerate(zip(ordered, shapes, strict=True))
    ]
    return [Mark(shape=Line(a, b), purpose="centre", of="saddle") for a, b in ends]


def ridge(saddle: SaddlePlan, past: float) -> list[Mark]:
    """The saddle line, or of a stepped saddle its steps with the line beyond both ends of them: within the slot the two
    would run into one.
    """
    steps = crests(saddle)
    if not steps:
        return saddle_lines(saddle, past)
    (a, b), long = saddle.line, carried_on(*saddle.line, past)
    stubs = (Line(long.a, a), Line(b, long.b))
    return [*(Mark(shape=stub, purpose="centre", of="saddle") for stub in stubs), *steps]


def crests(saddle: SaddlePlan) -> list[Mark]:
    """The steps of a stepped saddle: where each is filed, and the walls between them."""
    rows = sorted((step.crest for step in saddle.steps), key=lambda crest: -crest[0][1])
    lines = [Line(*crest) for crest in rows]
    lines += [Line(one[1], other[0]) for one, other in pairwise(rows) if math.dist(one[1], other[0]) > SAME]
    return [Mark(shape=line, purpose="mark", of="saddle", weight=0.7) for line in lines]


def tie_block(tie: TiePlan, weight: float = 1.0, *, near: bool = True) -> list[Mark]:
    """The block's outline from above, and its holes through it, dashed."""
    marks = [Mark(shape=polyline(tie.corners, closed=True), purpose="mark", of="tie block", weight=0.7 * weight)]
    for hole in tie.holes if near else ():
        front, back = complex(*hole.front), complex(*hole.back)
        aside = (back - front) / abs(back - front) * 1j * hole.diameter / 2
        for off in (aside, -aside):
            a, b = front + off, back + off
            line = Line((a.real, a.imag), (b.real, b.imag))
            marks.append(Mark(shape=line, purpose="hidden", of=f"tie:{hole.string}", weight=0.7))
    return marks


def old_work(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """The old footprint, what of it stays bare, old holes, and metal with its keep-out."""
    old = layout.old
    marks: list[Mark] = []
    labels: list[Label] = []
    for ring in old.scar:
        lines = hatch(ring, view.size(HATCH))
        marks += [Mark(shape=line, purpose="dimension", of="scar", tone="before", weight=0.7) for line in lines]
    if old.scar and old.scar_widths and not view.close_up:
        side, widest = max(old.scar_widths.items(), key=lambda item: item[1])
        words = f"scar {show(widest, job.unit)} {job.unit}"
        labels.append(Label(at=_in_scar(old.scar, side, widest), words=words, of="scar", tone="before", prefer=145))
    marks += footprint(old.outline, "before")
    marks += under_the_top(old, "before") + on_the_top(old, view.size(HATCH), "before")
    for hole in (*old.pins, *old.holes):
        marks += old_hole(hole, f"point:{after(job, hole.name)[0]}", "before")
    labels += _old_names(old) if view.near else []
    for metal in old.metal:
        marks += metal_marks(metal, max(view.size(0.7), 1.6), "measured")
        clear, of = view.scale * metal.keep_out, f"metal:{metal.name}"
        labels.append(Label(at=metal.at, words="metal", of=of, tone="measured", bold=True, prefer=-25, clear=clear))
    return marks, labels


def _old_names(old: OldPlan) -> list[Label]:
    """What the former and the hidden lines are."""
    found: list[tuple[XY, str, str]] = []
    if old.pins:
        found.append((old.pins[-1].at, "old holes", "old"))
    assumed = [hole for hole in old.pins if hole.assumed]
    found += [(assumed[len(assumed) // 2].at, "assumed", "assumed")] if assumed else []
    found += [(hole.at, "old hole", f"point:{hole.name}") for hole in old.holes]
    found += [(area.outline[0], area.what, f"area:{area.name}") for area in old.areas]
    found += [(brace.line[0], words.brace(brace.name), f"brace:{brace.name}") for brace in old.braces]
    found += [(ring[0], says, says) for ring, says in ((old.slot, "old slot"), (old.bare, "bare wood")) if ring]
    found += [(old.plate[0], "plate inside", "old plate")] if old.plate else []
    return [Label(at=at, words=says, of=of, tone="before", prefer=-145, clear=1.5) for at, says, of in found]
