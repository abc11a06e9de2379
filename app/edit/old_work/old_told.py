"""What is known of each kind of old work, and what has no place yet, in words."""

from typing import assert_never

from app.edit.old_work.old_kinds import OLD_KINDS, OldKind, groups, points_of
from geometry import words
from geometry.job import Job
from geometry.layout import Layout


def known(job: Job, kind: OldKind, layout: Layout | None) -> str:
    """What is known of a kind, in one line; nothing where nothing is."""
    points = points_of(job, kind)
    if not points:
        return ""
    match kind:
        case "pins":
            holes = layout.old.pins if layout else ()
            assumed = sum(hole.assumed for hole in holes)
            return _counted(len(points), "hole") + (f" read, {assumed} assumed between them" if assumed else " read")
        case "slot":
            return "both ends"
        case "area" | "brace":
            what = {"area": "area", "brace": "brace"}[kind]
            return _counted(len(groups(job, kind)), what)
        case "footprint" | "holes" | "metal" | "bare" | "plate":
            return _counted(len(points), OLD_KINDS[kind].one)
        case _:
            assert_never(kind)


def missing(job: Job, layout: Layout | None, kind: OldKind) -> str:
    """The points of a kind that have no place yet, in one sentence; nothing where all have one."""
    lost = [name for name in points_of(job, kind) if layout is None or name not in layout.points]
    if not lost:
        return ""
    return f"Not placed yet: {words.several([words.called(name, job.hand) for name in lost])}."


def _counted(count: int, what: str) -> str:
    head, _, tail = what.partition(" ")
    return f"{count} {head}{'s' if count != 1 else ''}{f' {tail}' if tail else ''}"
