"""What the move does to the old work, told in the order in which a person meets it: the move itself, the scar, the
finish, the holes and their plugs, what lies under the top, and how it looks.

Each **line** is one sentence with the place it is about, for the card and the job sheet alike.
"""

import math
from collections.abc import Iterator, Sequence
from typing import Literal

import msgspec

from geometry import rings, words
from geometry.findings import Finding, Grade
from geometry.job import Job, OldMetal
from geometry.layout import XY, Amount, Consequences, Gap, HoleFate, Layout
from geometry.old_work.holes.assumed_holes import after
from geometry.old_work.holes.old_holes import SLOT
from geometry.old_work.holes.old_holes_told import hole_called, new_called
from geometry.old_work.holes.plugs_told import plug_size, plugged
from geometry.old_work.inside.unchecked_told import lies_in, place_of, slip_unseen
from geometry.units import MM_PER, Unit, mm, said, said_angle, said_pm, shows, told_alike

Part = Literal["move", "scar", "finish", "holes", "plugs", "under", "looks"]
TITLES: dict[Part, str] = {
    "move": "The move",
    "scar": "What shows",
    "finish": "Finish",
    "holes": "Old holes",
    "plugs": "Plugs",
    "under": "Under the top",
    "looks": "To the eye",
}
TOLD = ("scar", "scar.may_show", "old.cut", "old.thin_wall", "old.shows", "old.may_show", "brace.pin", "plate.pin")
"""The findings that the lines tell one by one."""
LEAST_AREA = 0.5
"""mm². What is smaller is not seen (common practice, no source)."""
NAMED = 2
"""So many readings that nothing checks are named."""


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """A sentence, what it is about as a mark's `of`, and where that is; `grade` as of a finding."""

    part: Part
    text: str
    where: str = "bridge"
    at: XY | None = None
    grade: Grade = "good"


def tells(found: Finding) -> bool:
    """Whether the lines tell a finding that asks to look; what stops the work is said by itself besides."""
    return found.grade == "look" and found.code in TOLD


def told(job: Job, layout: Layout) -> tuple[Line, ...]:
    """All lines; none before there is a bridge, or where nothing old is known."""
    found = layout.consequences
    if found is None or layout.bridge is None:
        return ()
    return (
        *_move(job, layout, found),
        *_scar(job, layout, found),
        *_finish(job, layout, found),
        *(_hole(job, layout, found, hole) for hole in found.holes),
        *_plugs(job, found),
        *_under(job, found),
        *_looks(job, layout, found),
    )


def _move(job: Job, layout: Layout, found: Consequences) -> Iterator[Line]:
    """How far the bridge's front edge moves from the old footprint's, along the neck and across it."""
    if found.moves is None or layout.bridge is None:
        return
    moves = found.moves
    bass, treble = (moves.left, moves.right) if job.bass == "left" else (moves.right, moves.left)
    ways = [*_along(job, bass, treble)]
    if shows(moves.across.value, job.unit):
        side = job.bass_or_treble("left" if moves.across.value > 0 else "right")
        ways.append(f"{_far(job, moves.across)} toward the {side}")
    by = ", and ".join(ways)
    text = f"The front edge moves {by}." if ways else "The front edge stays where it was."
    yield Line(part="move", text=text, at=rings.middle(layout.bridge.corners))


def _along(job: Job, bass: Amount, treble: Amount) -> Iterator[str]:
    """How far the front edge's ends move along the neck, where they do."""
    ends = {side: by for side, by in (("bass", bass), ("treble", treble)) if shows(by.value, job.unit)}
    far = {side: _far(job, by) for side, by in ends.items()}
    way = {side: f"toward the {'tail' if by.value > 0 else 'nut'}" for side, by in ends.items()}
    if len(ends) == 1:
        (side,) = ends
        yield f"{far[side]} {way[side]} at {side} alone"
    elif ends and far["bass"] == far["treble"] and way["bass"] == way["treble"]:
        yield f"{far['bass']} {way['bass']}"
    elif ends and way["bass"] == way["treble"]:
        yield f"{far['bass']} at bass and {far['treble']} at treble {way['bass']}"
    elif ends:
        yield ", ".join(f"{far[side]} {way[side]} at {side}" for side in ends)


def _far(job: Job, amount: Amount) -> str:
    return said_pm(amount.pm95, job.unit, abs(amount.value))


def _scar(job: Job, layout: Layout, found: Consequences) -> Iterator[Line]:
    for side in found.scar_sides:
        may = "shows" if side.widest.value >= side.widest.pm95 else "may show"
        text = f"The old footprint {may} {_side(job, side.side)}, by {_length(job, side.widest)} at most."
        yield Line(part="scar", text=text, where="scar", at=side.at, grade="look")
    if found.scar_area is not None and found.scar_area.value >= LEAST_AREA:
        text = f"In all, {area(found.scar_area, job.unit)} of it stay uncovered."
        yield Line(part="scar", text=text, where="scar", at=_first(layout.old.scar), grade="look")
    elif found.cover is not None and found.cover.value >= 0:
        sure = found.cover.value >= found.cover.pm95
        by = _length(job, found.cover)
        text = f"The old footprint is covered, by {by} where that is least{'' if sure else ': it may show'}."
        yield Line(part="scar", text=text, where="scar", grade="good" if sure else "look")
    whats = {one.name: one.what for one in layout.old.areas}
    for bared in found.areas:
        name = words.first_large(words.area(bared.name))
        shows = bared.area.value >= LEAST_AREA
        left = f"{area(bared.area, job.unit)} of it stay uncovered" if shows else "the new bridge covers it"
        at = next((rings.middle(one.outline) for one in layout.old.areas if one.name == bared.name), None)
        text = f"{name}, {whats.get(bared.name, 'marked')}: {left}."
        yield Line(part="scar", text=text, where=f"area:{bared.name}", at=at, grade="look" if shows else "good")


def _side(job: Job, side: str) -> str:
    if side in ("front", "back"):
        return "in front of the new bridge" if side == "front" else "behind the new bridge"
    return f"at the {words.wing(side, job.hand)}"


def _finish(job: Job, layout: Layout, found: Consequences) -> Iterator[Line]:
    clear, save = found.finish_clear, found.finish_save
    if clear is not None and clear.value >= LEAST_AREA:
        text = f"To be cleared under the new bridge: {area(clear, job.unit)}."
        yield Line(part="finish", text=text, at=rings.middle(layout.bridge.corners) if layout.bridge else None)
    if save is not None and save.value >= LEAST_AREA:
        text = f"Bare wood that stays beside the bridge, to be finished: {area(save, job.unit)}."
        yield Line(part="finish", text=text, where="old", at=_first(layout.old.scar), grade="look")


def _hole(job: Job, layout: Layout, found: Consequences, hole: HoleFate) -> Line:
    name = f"the {SLOT}" if hole.kind == "slot" else hole_called(job, hole.hole)
    under = {"covered": "under the new bridge", "opened": "partly beside the new bridge", "bare": "not covered"}
    said_of = [under[hole.under]]
    if hole.off_top:
        said_of = ["outside the body’s outline"]
    if hole.used_by:
        said_of.append(f"{new_called(hole.used_by)} takes it away")
    elif hole.walls:
        said_of.append(_wall(job, hole.walls[0]))
    near = bool(hole.walls) and not hole.used_by and hole.walls[0].mm < hole.walls[0].pm95
    shows = hole.under != "covered" and not hole.used_by
    spot = next((one.at for one in (*layout.old.pins, *layout.old.holes) if one.name == hole.hole), None)
    if hole.kind == "slot" and layout.old.slot:
        spot = rings.middle(layout.old.slot)
    where = "old" if hole.kind == "slot" else f"point:{after(job, hole.hole)[0]}"
    text = f"{words.first_large(name)}: {', '.join(said_of)}{_unchecked(job, found, f'point:{hole.hole}')}."
    return Line(part="holes", text=text, where=where, at=spot, grade="look" if near or shows else "good")


def _unchecked(job: Job, found: Consequences, old: str) -> str:
    """What is added where a slip in a reading of something old would not show: which reading, so that it is not taken
    for all of them.
    """
    ids = found.unseen.get(old, ())
    if not ids:
        return ""
    if len(ids) > NAMED:
        return "; nothing checks where it lies"
    point = old.partition(":")[2]
    own = any(reading.id in ids and point in reading.of for reading in job.readings)
    hangs = "" if own else f"its place was read from {words.called(_read_at(job, ids), job.hand)}: "
    return f"; {hangs}{slip_unseen(words.readings_called(job, ids))}"


def _read_at(job: Job, ids: Sequence[str]) -> str:
    """The point that the first of some readings is of."""
    return next(reading.of[0] for reading in job.readings if reading.id in ids)


def _wall(job: Job, gap: Gap) -> str:
    """How a new hole or the slot stands to an old hole: “the slot cuts it by 1.2 ±0.5 mm”."""
    new = new_called(gap.new)
    if gap.mm <= 0:
        return f"{new} cuts it by {said_pm(gap.pm95, job.unit, -gap.mm)}"
    unsure = ", which is not sure" if gap.mm < gap.pm95 else ""
    return f"{said_pm(gap.pm95, job.unit, gap.mm)} of wood to {new}{unsure}"


def _plugs(job: Job, found: Consequences) -> Iterator[Line]:
    for plugs in found.plugs:
        grain = "the grain along the top’s" if plugs.grain == "face" else "end grain"
        count = f"{len(plugs.holes)} plug{'s' if len(plugs.holes) > 1 else ''}"
        text = f"{count} of {plug_size(plugs.diameter, job.unit)}, {grain}, before anything is drilled: for "
        text += f"{words.several(plugged(job, plugs.holes))}."
        yield Line(part="plugs", text=text, where=f"point:{after(job, plugs.holes[0])[0]}")
    wide = [hole for hole in found.holes if hole.plug is None and not hole.used_by and hole.kind != "slot"]
    for hole in wide:
        text = f"{words.first_large(hole_called(job, hole.hole))} is too wide for a plug: let a piece in."
        yield Line(part="plugs", text=text, where=f"point:{after(job, hole.hole)[0]}", grade="look")


def _under(job: Job, found: Consequences) -> Iterator[Line]:
    """The least gap to each brace, to the plate's edge and to each piece of metal, for holes and slot by themselves."""
    least: dict[tuple[str, bool], Gap] = {}
    for gap in found.gaps:
        key = gap.old, gap.new == "slot"
        if gap.old.startswith(("brace:", "metal:")) or (gap.old == "plate" and gap.new != "slot"):
            least[key] = min(least.get(key, gap), gap, key=lambda one: one.mm - one.pm95)
    for gap in least.values():
        yield Line(
            part="under",
            text=f"{_gap(job, gap)}.",
            where="old plate" if gap.old == "plate" else gap.old,
            at=gap.new_xy,
            grade=_graded(job, gap),
        )
    once = list(dict.fromkeys(gap.old for gap in least.values() if gap.old in found.unseen))
    if once:
        lie = "lie" if len(once) > 1 else "lies"
        ids = [name for old in once for name in found.unseen[old]]
        text = f"Nothing checks {place_of(job, ids)} {words.joined([lies_in(job, old) for old in once])} {lie}."
        at = next(gap.new_xy for gap in least.values() if gap.old == once[0])
        yield Line(part="under", text=text, where="old plate" if once[0] == "plate" else once[0], at=at)


def _gap(job: Job, gap: Gap) -> str:
    kind, _, name = gap.old.partition(":")
    new = words.first_large(new_called(gap.new))
    much = said_pm(gap.pm95, job.unit, abs(gap.mm))
    unsure = ", which is not sure" if 0 < gap.mm < gap.pm95 else ""
    if kind == "plate":
        return f"{new} lies {much} {'inside' if gap.mm > 0 else 'beyond'} the plate’s edge{unsure}"
    called = words.brace(name) if kind == "brace" else words.called(name, job.hand)
    if gap.mm > 0:
        # metal is known by a point, and how far it reaches round that by what is kept clear
        edge = called if kind == "brace" else f"the middle of {called}"
        return f"{new} clears {edge} by {much}{_kept_clear(job, gap) or unsure}"
    return f"{new} {'lies over' if gap.new == 'slot' else 'runs into'} {called}, by {much}"


def _kept_clear(job: Job, gap: Gap) -> str:
    """What is said where metal comes as near as it is to be kept clear, or may."""
    keep = _keep(job, gap)
    if not keep or gap.mm - gap.pm95 >= keep:
        return ""
    short = gap.mm < keep and not told_alike(gap.mm, keep, job.unit)
    how = "that is too near" if short else "it may be nearer"
    return f", and {said(keep, job.unit)} is to be kept clear: {how}"


def _keep(job: Job, gap: Gap) -> float:
    """How far is kept clear round what is metal, mm; 0 round all else."""
    kind, _, name = gap.old.partition(":")
    known = job.old.metal if job.old is not None else {}
    return mm(known.get(name, OldMetal()).keep_out) if kind == "metal" else 0.0


def _graded(job: Job, gap: Gap) -> Grade:
    """What comes nearer than is sure asks to look; what lies within metal's keep-out stops the work, as does what runs
    into something; a brace under the slot only asks.
    """
    keep, only_asks = _keep(job, gap), gap.new == "slot" and not gap.old.startswith("metal:")
    if not only_asks and (gap.mm < keep or gap.mm <= 0):
        return "stop"
    return "look" if gap.mm - gap.pm95 < keep else "good"


def _looks(job: Job, layout: Layout, found: Consequences) -> Iterator[Line]:
    for tip in found.wings:
        side = words.first_large(job.bass_or_treble(tip.side))
        yield Line(part="looks", text=f"{side} wing to the body’s edge: {_length(job, tip.to_edge)}.", at=tip.tip_xy)
    middle = rings.middle(layout.bridge.corners) if layout.bridge else None
    for seen in found.seen:
        what = "the seam" if seen.against == "seam" else "the body’s middle line"
        turn = math.degrees(abs(seen.turn.value)), math.degrees(seen.turn.pm95)
        text = f"Against {what} the bridge is turned by {said_angle(*turn)}, "
        text += f"and its middle lies {_beside(job, seen.offset)}."
        yield Line(part="looks", text=text, where="seam" if seen.against == "seam" else "bridge", at=middle)


def _beside(job: Job, off: Amount) -> str:
    """How far something lies beside a line, to the left (+), and to which side."""
    if not shows(off.value, job.unit):
        return f"on it, to ±{said_pm(off.pm95, job.unit)}"
    side = job.bass_or_treble("left" if off.value > 0 else "right")
    return f"{_far(job, off)} toward the {side}"


def _length(job: Job, amount: Amount) -> str:
    return said_pm(amount.pm95, job.unit, amount.value)


def area(amount: Amount, unit: Unit) -> str:
    """An area (mm²) with its ±, in square units of the job: 312 ±40 mm²; the ± is rounded up."""
    square, places = MM_PER[unit] ** 2, 0 if unit == "mm" else 2
    up = math.ceil(amount.pm95 / square * 10**places - 1e-9) / 10**places
    return f"{amount.value / square:.{places}f} ±{up:.{places}f} {unit}²"


def _first(outlines: tuple[tuple[XY, ...], ...]) -> XY | None:
    return rings.middle(outlines[0]) if outlines else None
