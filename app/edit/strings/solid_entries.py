"""What the Strings card asks of the nut that is to be made and of the board's face, and how it is put back."""

import re
from typing import Any

from app.edit import edits
from app.edit.edits import Get, Put, replace
from app.edit.usual_sizes import usual
from geometry import units
from geometry.job import Arch, Job, NotAJob, Nut
from geometry.units import Length, Unit

_ARCH = re.compile(r"(?P<rise>.+?)\s+over\s+(?P<chord>.+?)(?:\s+within\s+(?P<within>.+))?")
RISE: dict[Unit, str] = {"mm": "0.9 over 40", "cm": "0.09 over 4", "in": "1/32 over 1 1/2"}
"""A rise over a chord as it may be typed, in the job's unit."""
WITHIN: dict[Unit, str] = {"mm": "0.05", "cm": "0.005", "in": "1/128"}
"""How surely it may have been read."""


def asked(job: Job) -> bool:
    """Whether a nut is to be made."""
    return job.nut is not None


def ask(job: Job, on: bool) -> Job:
    return replace(job, nut=nut_of(job) if on else None)


def nut_of(job: Job) -> Nut:
    """The nut that is to be made, or one as it is begun."""
    return job.nut or usual(Nut(), job.unit)


def nut(name: str) -> tuple[Get, Put]:
    """What reads and puts a field of the nut block."""

    def get(job: Job) -> Any:
        return getattr(nut_of(job), name)

    def put(job: Job, value: Any) -> Job:
        return edits.in_block(job, "nut", lambda: nut_of(job), **{name: value})

    return get, put


def bed(side: int) -> tuple[Get, Put]:
    """The board's face over the nut's bottom, 0 left and 1 right; alike on both sides it is one length."""

    def get(job: Job) -> Length | None:
        return nut_of(job).beds[side]

    def put(job: Job, value: Length | None) -> Job:
        left, right = _with(get_both(job), side, value)
        return edits.in_block(job, "nut", lambda: nut_of(job), bed=left if left == right else (left, right))

    def get_both(job: Job) -> tuple[Length | None, Length | None]:
        return nut_of(job).beds

    return get, put


def over_fret1(side: int) -> tuple[Get, Put]:
    """The height wanted over fret 1, 0 left and 1 right."""

    def get(job: Job) -> Length | None:
        return nut_of(job).over_fret1[side]

    def put(job: Job, value: Length | None) -> Job:
        both = _with(nut_of(job).over_fret1, side, value)
        return edits.in_block(job, "nut", lambda: nut_of(job), over_fret1=both)

    return get, put


def margin(side: int) -> tuple[Get, Put]:
    """The margin at the nut, 0 left and 1 right. The first that is typed goes for both; none on one side is none."""

    def get(job: Job) -> Length | None:
        found = nut_of(job).margins
        return None if found is None else found[side]

    def put(job: Job, value: Length | None) -> Job:
        found = nut_of(job).margins
        made = None if value is None else _with(found or (value, value), side, value)
        return edits.in_block(job, "nut", lambda: nut_of(job), margins=made)

    return get, put


def _with(
    both: tuple[Length | None, Length | None], side: int, value: Length | None
) -> tuple[Length | None, Length | None]:
    left, right = both
    return (value, right) if side == 0 else (left, value)


def radius(place: int) -> tuple[Get, Put]:
    """The radius of the board's face, 0 at the nut or all along, 1 at its end. Taken away at the nut, both go."""

    def get(job: Job) -> Length | None:
        radii = job.board.radii
        return radii[place] if place < len(radii) else None

    def put(job: Job, value: Length | None) -> Job:
        radii = job.board.radii
        if place and not radii and value is not None:
            raise NotAJob("Type the board’s radius at the nut first; the one at its end is that of a compound board")
        both = [value, *radii[1:]] if place == 0 else [*radii[:1], value]
        near, far = both[0], both[1] if len(both) > 1 else None
        made = None if near is None else near if far is None else (near, far)
        return replace(job, board=replace(job.board, radius=made))

    return get, put


def arch(place: int) -> tuple[Get, Put]:
    """The board's arch as read, 0 near the nut and 1 at its end, as it is typed: “0.9 over 40”."""

    def get(job: Job) -> str:
        found = job.board.arch
        return _arch_said(found[place], job) if place < len(found) else ""

    def put(job: Job, text: str) -> Job:
        found = job.board.arch
        if not text.strip():
            return replace(job, board=replace(job.board, arch=found[:place]))
        if place > len(found):
            raise NotAJob("Type what was read near the nut first; a second place is that of a compound board")
        made = (*found[:place], _arch_typed(text, job), *found[place + 1 :])
        return replace(job, board=replace(job.board, arch=made))

    return get, put


def _arch_said(arch: Arch, job: Job) -> str:
    says = f"{units.typed(arch.rise, job.unit)} over {units.typed(arch.chord, job.unit)}"
    return says if arch == replace(arch, within=0.1) else f"{says} within {units.typed(arch.within, job.unit)}"


def _arch_typed(text: str, job: Job) -> Arch:
    """An arch out of words. Raises `NotAJob`."""
    found = _ARCH.fullmatch(text.strip())
    if found is None:
        raise NotAJob(f"“{text.strip()}” is no rise over a chord; write it like {RISE[job.unit]}")
    try:
        parts = {name: units.keep(part, job.unit) for name, part in found.groupdict().items() if part is not None}
    except units.NotALength as error:
        raise NotAJob(str(error)) from None
    return Arch(**parts)
