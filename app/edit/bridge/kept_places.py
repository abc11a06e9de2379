"""Edits of the placements that a job keeps: keep the present one, bring one back, rename it, drop it."""

from itertools import count

from app.edit.edits import replace
from geometry.job import Floating, Job, Kept, NotAJob, Separate
from geometry.layout import Layout
from geometry.placed.kept_placements import places_of


def can_keep(layout: Layout | None) -> bool:
    """Whether there is a placement to keep."""
    return layout is not None and layout.saddle is not None and bool(layout.strings)


def keep(job: Job, layout: Layout | None, when: str) -> Job:
    """The job with its present placement kept, on the day `when` (`2026-03-14`), under the next free name. `layout` is
    that of the job. Raises `NotAJob` where there is none to keep, or too many are kept.
    """
    places = None if layout is None else places_of(job, layout)
    if places is None:
        raise NotAJob("There is no placement to keep yet: the saddle has no place")
    made = Kept(
        name=_free_name(job),
        when=when,
        centre=job.board.centre,
        frets=job.frets,
        strings=job.strings,
        saddle=job.saddle,
        bridge=job.bridge,
        floating=job.floating,
        separate=job.separate,
        tail=job.tail,
        places=places,
    )
    return replace(job, kept=(*job.kept, made))


def bring_back(job: Job, name: str) -> Job:
    """The job with the settings of a kept placement: neck centre line, frets, strings, saddle, bridge. Its readings,
    and what is known of old work, stay as they are; margins at the nut give way to a spread that it had there, and foot
    marks or an opening round points that are gone are left out.
    """
    kept = find(job, name)
    spread = kept.strings is not None and kept.strings.nut is not None
    return replace(
        job,
        nut=replace(job.nut, margins=None) if job.nut is not None and spread else job.nut,
        board=replace(job.board, centre=kept.centre),
        frets=kept.frets,
        strings=kept.strings,
        saddle=kept.saddle,
        bridge=kept.bridge,
        floating=_known_marks(job, kept.floating),
        separate=_known_opening(job, kept.separate),
        tail=kept.tail,
    )


def is_kept(job: Job) -> bool:
    """Whether the present placement is one of those that are kept."""
    return any(bring_back(job, one.name) == job for one in job.kept)


def _known_marks(job: Job, floating: Floating | None) -> Floating | None:
    """A floating bridge with those of its foot marks whose points are still there."""
    if floating is None:
        return None
    marks = tuple(mark for mark in floating.marks if all(name in job.points for name in mark))
    return replace(floating, marks=marks)


def _known_opening(job: Job, separate: Separate | None) -> Separate | None:
    """Separate saddles with the opening near them, if its points are still there."""
    if separate is None or all(name in job.points for name in separate.opening):
        return separate
    return replace(separate, opening=())


def rename(job: Job, name: str, text: str) -> Job:
    """A kept placement under another name. Raises `NotAJob`."""
    text = " ".join(text.split())
    return replace(job, kept=tuple(replace(one, name=text) if one.name == name else one for one in job.kept))


def drop(job: Job, name: str) -> Job:
    """The job without one of its kept placements."""
    return replace(job, kept=tuple(one for one in job.kept if one.name != name))


def find(job: Job, name: str) -> Kept:
    """A kept placement by its name; raises KeyError."""
    for one in job.kept:
        if one.name == name:
            return one
    raise KeyError(name)


def _free_name(job: Job) -> str:
    """By how many are kept, whatever those before are called now."""
    taken = {one.name for one in job.kept}
    return next(name for number in count(len(job.kept) + 1) if (name := f"Placement {number}") not in taken)
