"""Which saddle can carry all strings that ask anything of it, which drones do not: the ways to make it side by side,
each with what it leaves over.

It tells of a finished layout and is asked for when it is shown; nothing is placed from it.
"""

from collections.abc import Sequence

import numpy as np

from geometry import words
from geometry.frame import Array
from geometry.job import Job, Saddle, Strings
from geometry.job.bridges.saddle_made import COUNT, SAID
from geometry.job.seating import Made
from geometry.layout import Layout, Record
from geometry.saddle.in_pieces import splitting
from geometry.saddle.in_pieces.pieces import Asks, between_courses, find_runs
from geometry.saddle.thickness import OUTSIDE, made_thickness
from geometry.spacing import CENTS
from geometry.units import mm, said, show

TOLD = 0.05
"""Cents from which on the string that has them is named."""
WAYS: tuple[Made, ...] = ("one", "steps", "two", "three", "each")


class SaddleChoice(Record, frozen=True):
    """A way to make the saddle, `called` so in words, of so many `pieces` and so thick (mm). `splits`: the strings
    after which it is parted. `cents` at the twelfth fret are left over at the `string` with most of them, which stands
    `off` (mm, + where its place lies behind what the saddle gives it), and `each` holds them for every string;
    `within`: what is left of each string is less than its own ±. `needed` is the thinnest saddle made so that carries
    all, mm; None where thickness alone does not do it. `chosen`: it is made so.
    """

    made: Made
    called: str
    pieces: int
    splits: tuple[str, ...]
    thickness: float
    cents: float
    string: str
    off: float
    within: bool
    needed: float | None
    chosen: bool
    each: dict[str, float]


def saddle_choices(job: Job, layout: Layout) -> tuple[SaddleChoice, ...]:
    """The ways that the strings allow, one piece first, with the thickness that the job has. Nothing while there are
    no two strings with a place, for a bridge that is not glued, and for a slot that comes with the bridge.
    """
    strings, saddle = job.strings, job.saddle or Saddle()
    comes = job.carries_slot
    if strings is None or len(layout.strings) < 2 or job.held != "glue" or comes:
        return ()
    return tuple(_choice(layout, strings, saddle, made) for made in WAYS if _possible(made, strings, saddle))


def worth_a_table(found: Sequence[SaddleChoice]) -> bool:
    """Whether there is anything to choose: one piece leaves a string over, or the saddle is made otherwise."""
    return any((one.made == "one" and abs(one.off) >= OUTSIDE) or (one.made != "one" and one.chosen) for one in found)


HEADS = ("made of", "parted after", "thick", "cents left", "string", "all within their ±", "thick enough for all")
"""What stands over the columns of `rows`."""


def rows(job: Job, found: Sequence[SaddleChoice]) -> list[tuple[str, ...]]:
    """A row a way, in the job's unit; the chosen one says so."""
    return [
        (
            f"{one.called}{' (chosen)' if one.chosen else ''}",
            ", ".join(one.splits) or "–",
            _thick(job, one.thickness),
            f"{one.cents:.1f}",
            one.string if one.cents >= TOLD else "–",
            "yes" if one.within else "no",
            "–" if one.needed is None else _thick(job, one.needed),
        )
        for one in found
    ]


CARD_HEADS = ("", "cents left", "within ±", "thinnest")
"""What stands over the columns of `card_rows`."""


def card_rows(job: Job, found: Sequence[SaddleChoice]) -> list[tuple[str, ...]]:
    """The same for a narrow place: how it is made and parted, the worst cents and whose, whether all are within their
    own ±, and how thick it must be to carry all.
    """
    told: list[tuple[str, ...]] = []
    for one in found:
        after = f", after {words.joined(one.splits)}" if one.splits else ""
        whose = f" at {one.string}" if one.cents >= TOLD else ""
        chosen = " (chosen)" if one.chosen else ""
        needed = "–" if one.needed is None else said(one.needed, job.unit)
        told.append((f"{one.called}{after}{chosen}", f"{one.cents:.1f}{whose}", "yes" if one.within else "no", needed))
    return told


def _thick(job: Job, length: float) -> str:
    return show(length, job.unit, 2 if job.unit == "in" else 1)


def _possible(made: Made, strings: Strings, saddle: Saddle) -> bool:
    count = len(strings.list)
    if made == "steps":
        return saddle.made == "steps" or len(between_courses(strings)) < count - 1
    return count >= COUNT.get(made, 1)


def _choice(layout: Layout, strings: Strings, saddle: Saddle, made: Made) -> SaddleChoice:
    y, wanted = (
        np.array([one.break_point[1] for one in layout.strings]),
        np.array([one.break_point[0] for one in layout.strings]),
    )
    nominal = np.array([one.nominal for one in layout.strings])
    asking = np.array([one.compensation_from != "drone" for one in layout.strings])
    asking = asking if asking.any() else ~asking
    weights = splitting.weights_for(asking)
    own = Saddle(
        thickness=saddle.thickness,
        peak_at=saddle.peak_at,
        slot_length=saddle.slot_length,
        straight=saddle.straight,
        made=made,
        splits=saddle.splits if made == saddle.made else None,
        wall=saddle.wall,
        least_piece=saddle.least_piece,
    )
    lay = splitting.lay_under(
        y, wanted, mm(saddle.thickness), saddle.peak_at, straight=saddle.straight, weights=weights
    )
    runs = find_runs(own, strings, y, wanted, Asks(nominal, weights), lay)
    off = np.concatenate([lay(slice(*run)).stays for run in runs])
    if made == "steps":
        off = _by_steps(strings, saddle, wanted - lay(slice(0, len(y))).line)
    cents = CENTS * off / nominal
    worst = int(np.where(asking, np.abs(cents), -1.0).argmax())
    asked = [np.arange(*run)[asking[slice(*run)]] for run in runs]
    least = max(
        (splitting.thickness_needed(y[some], wanted[some], straight=saddle.straight) for some in asked if len(some)),
        default=0.0,
    )
    names = [one.name for one in layout.strings]
    room = np.array([max(one.compensation_pm95, OUTSIDE) for one in layout.strings])
    return SaddleChoice(
        made=made,
        called=SAID[made],
        pieces=len(runs),
        splits=tuple(names[stop - 1] for _, stop in runs[:-1]) if made in COUNT else (),
        thickness=mm(saddle.thickness),
        cents=abs(float(cents[worst])),
        string=names[worst],
        off=float(off[worst]),
        within=bool((np.abs(off) <= room)[asking].all()),
        needed=None if made == "steps" else made_thickness(least),
        chosen=made == saddle.made,
        each=dict(zip(names, cents.tolist(), strict=True)),
    )


def _by_steps(strings: Strings, saddle: Saddle, off: Array) -> Array:
    """What is left of each string's place (n,) from the slot's line when its course has one step."""
    ahead, behind = -saddle.peak_at * mm(saddle.thickness), (1 - saddle.peak_at) * mm(saddle.thickness)
    runs = splitting.runs(between_courses(strings), len(off))
    filed = np.concatenate([np.full(stop - start, off[start:stop].mean()) for start, stop in runs])
    return np.asarray(off - np.clip(filed, ahead, behind))
