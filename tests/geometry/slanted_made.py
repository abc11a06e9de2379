"""Invented instruments whose frets may be slanted, by a plane geometry of its own: true places, and readings of them.

Outer strings run from 18.5 mm off the middle at the nut, 8.5 mm outward in 650. Fret k stands at scale ×
(1 − 2^(−k/12)) along each, the fret that is square at one x on both; nut and board's end are the lines of fret 0 and
fret 20.5.
"""

import math

import numpy as np
from msgspec.structs import replace

from geometry.job import Action, Bridge, Frets, Job, Point, Reading, Saddle, Scales, Spread, Strings
from geometry.job.job import Hand
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.job.sides import SIDES
from geometry.strings.usual_sets import SETS

LEAN = math.atan2(8.5, 650.0)
OUTER = {"left": 18.5, "right": -18.5}
READ = (1, 3, 5, 7, 9, 12)
CORNERS = {"nut": (0.0, 21.5), "end": (20.5, 28.0)}
"""The fret whose line they lie on, and how far to the left of the middle, mm."""


def share(fret: float) -> float:
    return 1 - 2 ** (-fret / 12)


def place(scales: dict[str, float], square: float, side: str, fret: float) -> complex:
    """Where a fret meets an outer string; the origin is where the nut meets the middle."""
    apart = math.cos(LEAN) * (scales["left"] - scales["right"]) * share(square)
    start = -apart / 2 if side == "left" else apart / 2
    along = scales[side] * share(fret)
    way = 1 if side == "left" else -1
    return complex(start + math.cos(LEAN) * along, OUTER[side] + way * math.sin(LEAN) * along)


def on_line(a: complex, b: complex, y: float) -> complex:
    return b + (a - b) * ((y - b.imag) / (a.imag - b.imag))


def corners(scales: dict[str, float], square: float, shift: tuple[float, float] = (0.0, 0.0)) -> dict[str, complex]:
    found: dict[str, complex] = {}
    for name, (fret, out) in CORNERS.items():
        left, right = (place(scales, square, side, fret) for side in SIDES)
        if name == "nut":
            left, right = left + math.cos(LEAN) * shift[0], right + math.cos(LEAN) * shift[1]
        found |= {f"{name}.left": on_line(left, right, out), f"{name}.right": on_line(left, right, -out)}
    return found


class Bench:
    """A hand with one steel rule, as true as the program takes it to be: a reading is out by 0.20 mm, of which rounding
    to half a mm makes 0.5/√12; a laying's zero by 0.15 mm; the rule itself by its share of the length. Without `random`
    it reads to 0.001 mm.
    """

    def __init__(self, random: np.random.Generator | None) -> None:
        self.random, self.zeros = random, dict[str, float]()
        per_metre = INSTRUMENTS["rule 0.5"].per_metre
        self.rule = 1.0 if random is None else 1 + float(random.normal(0, per_metre)) / 1000

    def read(self, value: float, laid: str) -> float:
        if self.random is None:
            return round(value, 3)
        zero = self.zeros.setdefault(laid, float(self.random.normal(0, 0.15)))
        own = float(self.random.normal(0, math.sqrt(0.20**2 - 0.5**2 / 12)))
        return round((value * self.rule + zero + own) * 2) / 2


def made(
    left: float = 635.0,
    right: float = 660.0,
    square: int = 7,
    *,
    read: tuple[str, ...] = SIDES,
    hand: Hand = "right",
    random: np.random.Generator | None = None,
    shift: tuple[float, float] = (0.0, 0.0),
) -> Job:
    """The instrument as readings, true to 0.001 mm; or as a hand reads it to half a mm with a rule. `shift`: how much
    nearer to the frets the nut stands than they want it at [left, right], mm. What is declared is what it was made to.
    """
    scales = {"left": left, "right": right}
    at = corners(scales, square, shift)

    hand_of = Bench(random)

    pairs = [("nut.left", "nut.right"), ("end.left", "end.right")]
    pairs += [(f"nut.{a}", f"end.{b}") for a in SIDES for b in SIDES]
    readings = [
        Reading(
            id=f"r{n}",
            kind="distance",
            of=pair,
            value=hand_of.read(abs(at[pair[0]] - at[pair[1]]), f"r{n}"),
            with_="rule 0.5",
        )
        for n, pair in enumerate(pairs)
    ]
    readings += [
        Reading(
            id=f"{side}{fret}",
            kind="fret",
            fret=fret,
            on=side,
            value=hand_of.read(scales[side] * share(fret) - shift[SIDES.index(side)], side),
            with_="rule 0.5",
            laid=f"frets {side}",
        )
        for side in SIDES
        if side in read
        for fret in READ
    ]
    return Job(
        points={name: Point(near=(z.real, z.imag)) for name, z in at.items()},
        readings=tuple(readings),
        hand=hand,
        frets=Frets(count=20, slanted=True, scales=Scales(left=left, right=right), square_fret=square),
        strings=Strings(
            list=SETS["steel 12-54"].strings,
            nut=Spread(spread=37.0),
            saddle=Spread(spread=54.0),
            action=Action(fret1=(0.5, 0.5), fret12=(2.0, 2.0)),
        ),
        saddle=Saddle(slot_length=80.0),
        bridge=Bridge(length=152.0, width=34.0, seat="with slot"),
    )


def plain(count: int = 20, hand: Hand = "right") -> Job:
    """The same with square frets on one scale of 650 mm."""
    job = made(650.0, 650.0, 0, hand=hand)
    return replace(job, frets=Frets(count=count))
