"""Placements that are kept: what was wanted of neck, frets, strings, saddle and bridge at the time, and where they lay.

A **placement** is where all that is placed comes to lie. What is kept of one can be laid beside another, and its
settings can be brought back; readings are no part of it.
"""

import re
from collections.abc import Iterator

import msgspec

from geometry.job.bridges.floating import Floating
from geometry.job.bridges.separate import Separate
from geometry.job.bridges.tail import Tail
from geometry.job.checks import NotAJob, number_between
from geometry.job.neck.board import Centre
from geometry.job.neck.fretting import Frets
from geometry.job.seating import Bridge, Saddle
from geometry.job.stringing import Strings

MOST_KEPT = 12
"""As many placements as can be told apart on one plan (common practice, no source)."""
LONGEST_NAME = 40
"""So many characters of a name still fit beside its ghost and into the job sheet's column."""
FARTHEST = 5000.0
"""No place of an instrument lies farther from its nut, mm (common practice, no source)."""
NARROWEST = 10.0
"""The two edges are so far apart at least, mm: nearer ones tell no direction."""
ON = 400.0
"""How far from the nut's corners the edges are held a second time, mm: about where a board ends."""
MOST_PARTS = 64
"""More pins, check distances or sides of a scar than any bridge has (common practice, no source)."""
XY = tuple[float, float]


class Places(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Where it lay, in the neck frame of that time, mm. `board`: the nut's corners at left and right, and the places
    `ON` farther along both edges: by these four it is laid on the neck as it is found later. `slot`: corners from the
    front left, the front's right end next. `saddle`: from the nut to the saddle line along the neck at the left and
    right outer strings, as the slot holds it, with its ± `pm95`. `corners` are the bridge's, as the slot's; `pins` its
    holes. Of separate saddles `corners` run round all bases, and `pins` are the through holes. `footprint`: whether an
    old one was known under it; `scar`: the side of the bridge it shows on, and how wide. `checks`: a check distance's
    code, with `left` or `right` at its end, its length and its ±. `slots`: of a saddle of several pieces, what was cut;
    `slot` is then round the whole.
    """

    board: tuple[XY, XY, XY, XY]
    slot: tuple[XY, XY, XY, XY]
    saddle: XY
    pm95: XY
    corners: tuple[XY, XY, XY, XY] | None = None
    pins: tuple[XY, ...] = ()
    footprint: bool = False
    scar: dict[str, float] = {}
    checks: dict[str, XY] = {}
    slots: tuple[tuple[XY, XY, XY, XY], ...] = ()

    def __post_init__(self) -> None:
        for number in self._numbers():
            number_between("A place in a kept placement", number, -FARTHEST, FARTHEST)
        for number in (*self.pm95, *(pm95 for _, pm95 in self.checks.values())):
            number_between("A ± in a kept placement", number, 0, FARTHEST)
        left, right, left_on, right_on = (complex(*at) for at in self.board)
        if min(abs(left - right), abs(left_on - right_on), abs(left - left_on)) < NARROWEST:
            raise NotAJob("A kept placement’s “board” has two places in one; it needs the nut’s corners and two more")
        if max(len(self.pins), len(self.scar), len(self.checks), len(self.slots)) > MOST_PARTS:
            raise NotAJob(f"A kept placement has more than {MOST_PARTS} pins, scars or checks; drop it")

    def _numbers(self) -> Iterator[float]:
        for places in (self.board, self.slot, self.corners or (), self.pins, *self.slots):
            for at in places:
                yield from at
        yield from (*self.saddle, *self.scar.values(), *(length for length, _ in self.checks.values()))


class Kept(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One placement with its name, the day it was kept (`2026-03-14`), its settings and its places."""

    name: str
    when: str = ""
    centre: Centre | None = None
    frets: Frets = Frets()
    strings: Strings | None = None
    saddle: Saddle | None = None
    bridge: Bridge | None = None
    floating: Floating | None = None
    separate: Separate | None = None
    tail: Tail | None = None
    places: Places

    def __post_init__(self) -> None:
        if sum(one is not None for one in (self.bridge, self.floating, self.separate)) > 1:
            raise NotAJob(f"The kept placement “{self.name[:20]}” has more than one bridge; a job has one, so drop it")
        if not self.name.strip():
            raise NotAJob("A kept placement has no name; give it one")
        if not self.name.isprintable():
            raise NotAJob("The name of a kept placement holds a character that cannot be printed; write it again")
        if len(self.name) > LONGEST_NAME:
            raise NotAJob(
                f"The kept placement’s name “{self.name[:20]}…” has more than {LONGEST_NAME} characters; shorten it"
            )
        if self.when and not re.fullmatch(r"\d{4}-\d{2}-\d{2}", self.when):
            raise NotAJob(f"The day of a kept placement, “{self.when[:20]}”, should be written as in 2026-03-14")


def check_kept(kept: tuple[Kept, ...]) -> None:
    """Refuse too many of them, and a name that stands twice."""
    if len(kept) > MOST_KEPT:
        raise NotAJob(f"The job keeps {len(kept)} placements, and no more than {MOST_KEPT} can be; drop one first")
    seen: set[str] = set()
    for one in kept:
        if one.name in seen:
            raise NotAJob(f"Two kept placements are called “{one.name}”; give one of them another name")
        seen.add(one.name)
