"""Placements side by side: what is kept of the present one, where a kept one lies on the neck as it is found now, and
how far the present one stands from it.

A kept placement is laid on the neck by four places of the board, two at the nut and two farther along its edges, as a
rigid body; where no reading of the board was changed since, and whatever line was called the centre line, it lies
exactly where it lay.
"""

from collections.abc import Sequence

import msgspec
import numpy as np

from geometry import words
from geometry.frame import Points, heading, xys
from geometry.job import Job, Kept, Places
from geometry.job.bridges.how_held import how_held
from geometry.job.placements import ON, XY
from geometry.job.sides import Side
from geometry.layout import Hole, Layout, Neck
from geometry.spacing import CENTS
from geometry.units import MM_PER, Unit

SEEN: dict[Unit, float] = {"mm": 0.05, "cm": 0.05, "in": MM_PER["in"] / 128}
"""Two places nearer than this are the same to the hand, mm: half of what a job of that unit shows."""
HEARD = 0.05
"""Cents under this are none: half of what is shown."""
ROUND = 4
"""So many decimals of a millimetre are kept: finer than any file that is written."""
CORNERS: dict[tuple[str, Side], int] = {
    ("front", "left"): 0,
    ("front", "right"): 1,
    ("back", "right"): 2,
    ("back", "left"): 3,
}
"""Where the layout holds the bridge's corners, by edge and side."""


class Difference(msgspec.Struct, frozen=True, kw_only=True):
    """How one place or length differs: `now` less `then`, mm. `along` the neck and, for places, `across` it, positive
    to the left; `cents` at fret 12, positive where it is sharper now. `then` and `now` are given for what is a length
    by itself, with their ± where they have one; None: there was, or is, no such thing. `code` never changes.
    """

    code: str
    name: str
    along: float | None = None
    across: float | None = None
    cents: float | None = None
    then: float | None = None
    now: float | None = None
    then_pm95: float | None = None
    now_pm95: float | None = None


class Comparison(msgspec.Struct, frozen=True, kw_only=True):
    """A kept placement beside the present one. `neck_differs`: how far the board's four places lie from where they lay,
    mm; more than nought where readings of it were changed.
    """

    name: str
    when: str
    neck_differs: float
    differences: tuple[Difference, ...]


def places_of(job: Job, layout: Layout) -> Places | None:
    """What is kept of the present placement; None as long as there is no saddle."""
    if layout.neck is None or layout.saddle is None:
        return None
    left, right = (at + over for at, over in zip(layout.saddle.from_nut, layout.saddle.left_over, strict=True))
    bridge, corners, holes = layout.bridge, _outline(layout), _holes(layout)
    return Places(
        board=_four(_rounded(_landmarks(layout.neck))),
        slot=_four(_rounded(layout.saddle.slot)),
        slots=tuple(_four(_rounded(slot)) for slot in layout.saddle.slots) if len(layout.saddle.slots) > 1 else (),
        saddle=(round(left, ROUND), round(right, ROUND)),
        pm95=(round(layout.saddle.by_sheet.pm95[0], ROUND), round(layout.saddle.by_sheet.pm95[1], ROUND)),
        corners=_four(_rounded(corners)) if corners else None,
        pins=_rounded([hole.at for hole in holes]),
        footprint=bridge is not None and bool(layout.old.outline),
        scar={side: round(wide, ROUND) for side, wide in layout.old.scar_widths.items()},
        checks={
            _by_side(check.code, job): (round(check.distance, ROUND), round(check.pm95, ROUND))
            for check in layout.checks
        },
    )


def _outline(layout: Layout) -> Sequence[XY]:
    """The corners of what stands on the top: the bridge's, or those round all bases from the left one to the right."""
    if layout.bridge is not None:
        return layout.bridge.corners
    if layout.separate is None:
        return ()
    bases = sorted(layout.separate.bases, key=lambda base: -sum(y for _, y in base.corners))
    left, right = bases[0].corners, bases[-1].corners
    return left[0], right[1], right[2], left[3]


def _holes(layout: Layout) -> Sequence[Hole]:
    """Pin holes, or the holes that strings go through the body by."""
    if layout.bridge is not None:
        return layout.bridge.pins
    return layout.separate.through if layout.separate is not None else ()


def seen_now(places: Places, neck: Neck) -> Places:
    """The places on the neck as it is found now."""
    then, now = _complex(places.board), _complex(_landmarks(neck))
    middle = then.mean()
    turn = heading(complex(((then - middle).conj() * (now - now.mean())).sum()))

    def moved(those: Sequence[XY]) -> tuple[XY, ...]:
        return xys((_complex(those) - middle) * turn + now.mean())

    return msgspec.structs.replace(
        places,
        board=_four(moved(places.board)),
        slot=_four(moved(places.slot)),
        slots=tuple(_four(moved(slot)) for slot in places.slots),
        corners=_four(moved(places.corners)) if places.corners is not None else None,
        pins=moved(places.pins),
    )


def lies_as_now(job: Job, layout: Layout, kept: Kept) -> bool:
    """Whether a kept placement's corners, slot and holes lie where those of the present one do, to the hand."""
    now = places_of(job, layout)
    if now is None or layout.neck is None or (kept.separate is None) != (job.separate is None):
        return False
    both = [
        _complex([*(places.corners or ()), *places.slot, *(at for slot in places.slots for at in slot), *places.pins])
        for places in (seen_now(kept.places, layout.neck), now)
    ]
    return len(both[0]) == len(both[1]) and bool(np.all(np.abs(both[0] - both[1]) < SEEN[job.unit]))


def compare(job: Job, layout: Layout, kept: Kept) -> Comparison | None:
    """How far the present placement stands from a kept one; None as long as there is no saddle now. Slots and corners
    are held against those of the same kind: a base is no bridge.
    """
    now = places_of(job, layout)
    if now is None or layout.neck is None or layout.frets is None:
        return None
    alike, slots = (kept.separate is None) == (job.separate is None), kept.separate is None and job.separate is None
    then = seen_now(kept.places, layout.neck)
    moved = np.abs(_complex(then.board) - _complex(now.board))
    nominal = layout.frets.nominal
    return Comparison(
        name=kept.name,
        when=kept.when,
        neck_differs=float(moved.max()),
        differences=(
            *(_slot_ends(job, then, now) if slots else ()),
            *_saddle(job, then, now, (nominal.left, nominal.right)),
            *(_corners(job, then, now) if alike else ()),
            *_scars(job, then, now),
            *_checks(job, layout, then, now),
        ),
    )


def _slot_ends(job: Job, then: Places, now: Places) -> list[Difference]:
    front = f"{words.first_large(how_held(job).seat)} front"
    return [
        _moved(f"slot.{side}", f"{front}, {words.side(side, job.hand)} end", then.slot[at], now.slot[at])
        for side, at in job.bass_first
    ]


def _saddle(job: Job, then: Places, now: Places, nominal: XY) -> list[Difference]:
    """A saddle that stands farther back makes the notes at fret 12 flatter (the slope of 1200 log2 of a length)."""
    return [
        Difference(
            code=f"saddle.{side}",
            name=f"Nut to {how_held(job).line}, {words.side(side, job.hand)}",
            along=now.saddle[at] - then.saddle[at],
            cents=-CENTS / nominal[at] * (now.saddle[at] - then.saddle[at]),
            then=then.saddle[at],
            now=now.saddle[at],
            then_pm95=then.pm95[at],
            now_pm95=now.pm95[at],
        )
        for side, at in job.bass_first
    ]


def _corners(job: Job, then: Places, now: Places) -> list[Difference]:
    if then.corners is None or now.corners is None:
        return []
    thing = "Bridge" if job.separate is None else "Base" if job.separate.bases == "one" else "Bases"
    return [
        _moved(
            f"corner.{edge}.{side}",
            f"{thing}, {edge} {words.side(side, job.hand)} corner",
            then.corners[CORNERS[edge, side]],
            now.corners[CORNERS[edge, side]],
        )
        for edge in ("front", "back")
        for side, _ in job.bass_first
    ]


def _scars(job: Job, then: Places, now: Places) -> list[Difference]:
    """A side on which nothing shows has a scar of 0; where no old footprint was known there is none to tell."""
    found = []
    for where in dict.fromkeys((*then.scar, *now.scar)):
        past = f"Scar past the {words.wing(where, job.hand)}"
        name = {"front": "Scar in front", "back": "Scar behind"}.get(where, past)
        found.append(_length(f"scar.{where}", name, *(_scar(places, where) for places in (then, now))))
    return found


def _scar(places: Places, where: str) -> float | None:
    return places.scar.get(where, 0.0) if places.footprint or places.scar else None


def _checks(job: Job, layout: Layout, then: Places, now: Places) -> list[Difference]:
    """Check distances that can be told of both; one that the other lacks says nothing of how far they differ."""
    named = {_by_side(check.code, job): words.check(check) for check in layout.checks}
    found = []
    for code, name in named.items():
        if code in then.checks:
            (was, was_pm95), (length, pm95) = then.checks[code], now.checks[code]
            one = _length(f"check.{code}", words.first_large(name), was, length)
            found.append(msgspec.structs.replace(one, then_pm95=was_pm95, now_pm95=pm95))
    return found


def _moved(code: str, name: str, then: XY, now: XY) -> Difference:
    return Difference(code=code, name=name, along=now[0] - then[0], across=now[1] - then[1])


def _length(code: str, name: str, then: float | None, now: float | None) -> Difference:
    along = now - then if now is not None and then is not None else None
    return Difference(code=code, name=name, along=along, then=then, now=now)


def _by_side(code: str, job: Job) -> str:
    """A check's code with the physical side at its end, so that it outlives a job's turn to the other hand."""
    start, _, hand = code.rpartition(".")
    other = "right" if job.bass == "left" else "left"
    return f"{start}.{job.bass if hand == 'bass' else other}"


def _landmarks(neck: Neck) -> list[XY]:
    on = [
        (x + ON * ray.direction[0], y + ON * ray.direction[1])
        for (x, y), ray in zip(neck.nut, (neck.left_edge, neck.right_edge), strict=True)
    ]
    return [*neck.nut, *on]


def _complex(places: Sequence[XY]) -> Points:
    return np.array([complex(*at) for at in places], dtype=np.complex128)


def _rounded(places: Sequence[XY]) -> tuple[XY, ...]:
    return tuple((round(x, ROUND), round(y, ROUND)) for x, y in places)


def _four(places: Sequence[XY]) -> tuple[XY, XY, XY, XY]:
    one, two, three, four = places
    return one, two, three, four
