"""What the move does to the old work, as the job sheet tells it: one paragraph a part, and the plugs by their size."""

from collections.abc import Iterator, Sequence

from export.drills import Drill, plug
from export.plugs_and_drills import OF_PLUG
from geometry import words
from geometry.job import Job
from geometry.layout import Hole, HoleFate, Layout
from geometry.old_work.holes.assumed_holes import after
from geometry.old_work.holes.old_holes import SLOT
from geometry.old_work.holes.old_holes_told import hole_called, new_called
from geometry.old_work.holes.plugs import widest_told_alike
from geometry.old_work.holes.plugs_told import plugged
from geometry.old_work.inside.unchecked_told import slip_unseen
from geometry.old_work.move_told import NAMED, TITLES, Part, told
from geometry.units import said_pm, show

ON_SHEET: tuple[Part, ...] = ("move", "scar", "finish", "holes", "under", "looks")
"""The parts in the order of the work, a paragraph each; plugs stand in the table of holes."""


def paragraphs(job: Job, layout: Layout) -> tuple[str, ...]:
    """What there is to say, each part with its title, holes of one fate together."""
    lines = told(job, layout)
    found = []
    for part in ON_SHEET:
        of_part = [line.text for line in lines if line.part == part]
        of_part = list(_fates(job, layout)) if part == "holes" else of_part
        found += [f"{TITLES[part]}: {' '.join(of_part)}"] if of_part else []
    return tuple(found)


def _fates(job: Job, layout: Layout) -> Iterator[str]:
    """What becomes of the old holes: which are cut, stand too near, and show."""
    fates = layout.consequences.holes if layout.consequences is not None else ()
    cut = [hole for hole in fates if hole.cut_by]
    if cut:
        worst = min((hole.walls[0] for hole in cut), key=lambda gap: gap.mm)
        by = said_pm(worst.pm95, job.unit, -worst.mm)
        yield f"Cut by new holes or the slot: {_names(job, cut)}, by {by} at most."
    rest = [hole for hole in fates if not hole.cut_by and not hole.used_by and hole.walls]
    if rest:
        hole = min(rest, key=lambda one: one.walls[0].mm - one.walls[0].pm95)
        least, called = hole.walls[0], f"the {SLOT}" if hole.kind == "slot" else hole_called(job, hole.hole)
        wood = said_pm(least.pm95, job.unit, least.mm)
        yield f"Least wood, between {called} and {new_called(least.new)}: {wood}."
    between = sum(bool(after(job, hole.hole)[1]) for hole in fates)
    if between:
        many = "1 hole" if between == 1 else f"{between} holes"
        yield f"{many} between those that were read {'is' if between == 1 else 'are'} taken as evenly spaced."
    for under, says in (("opened", "Partly beside the new bridge"), ("bare", "Not covered")):
        shown = [hole for hole in fates if hole.under == under and not hole.used_by]
        if shown:
            yield f"{says}: {_names(job, shown)}."
    yield from _unchecked(job, layout, fates)


def _unchecked(job: Job, layout: Layout, fates: Sequence[HoleFate]) -> Iterator[str]:
    """The readings of old holes in which a slip would not show: by their names, or as the list of readings numbers
    them, where they are many.
    """
    unseen = layout.consequences.unseen if layout.consequences is not None else {}
    ids = tuple(dict.fromkeys(name for hole in fates for name in unseen.get(f"point:{hole.hole}", ())))
    if len(ids) > NAMED:
        yield f"Nothing checks readings {words.joined(ids)}, listed below."
    elif ids:
        yield f"{words.first_large(slip_unseen(words.readings_called(job, ids)))}."


def _names(job: Job, holes: Sequence[HoleFate]) -> str:
    slot = [f"the {SLOT}"] if any(hole.kind == "slot" for hole in holes) else []
    return words.joined([*plugged(job, tuple(hole.hole for hole in holes if hole.kind != "slot")), *slot])


def to_plug(layout: Layout) -> tuple[Hole, ...]:
    """The old holes that are plugged: all but those that a new pin hole takes away, and those outside the body."""
    fates = {hole.hole: hole for hole in (layout.consequences.holes if layout.consequences is not None else ())}
    gone = {name for name, fate in fates.items() if fate.used_by or fate.off_top}
    if layout.separate is not None:
        gone.update(layout.separate.used_again)
    return tuple(hole for hole in (*layout.old.pins, *layout.old.holes) if hole.name not in gone)


def plug_rows(job: Job, layout: Layout) -> list[list[str]]:
    """Old holes by the size of their plugs, for the table of holes: how many, how wide, and the plugs' sizes."""
    by_size: dict[tuple[Drill, Drill], list[Hole]] = {}
    every = to_plug(layout)
    alike = widest_told_alike((hole.diameter for hole in every), job.unit)
    for hole in every:
        by_size.setdefault(plug(round(alike[hole.diameter], 2)), []).append(hole)
    rows = []
    for (metric, inch), holes in sorted(by_size.items(), key=lambda one: one[0][0].diameter):
        wide = [hole.diameter for hole in holes]
        widths = dict.fromkeys(show(width, job.unit) for width in (min(wide), max(wide)))
        which = words.several(plugged(job, tuple(hole.name for hole in holes)), 3)
        size = f"{' to '.join(widths)} {job.unit}"
        rows.append(["Old holes, to plug", str(len(holes)), size, metric.name, inch.name, f"{OF_PLUG}{which}"])
    return rows


def plugs_said(job: Job, layout: Layout) -> str:
    """What is plugged when the footprint is cleaned, in half a sentence; nothing where nothing is."""
    holes = to_plug(layout)
    return words.several(plugged(job, tuple(hole.name for hole in holes)))
