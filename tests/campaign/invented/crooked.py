"""How the campaign's instruments are invented: the board first, nowhere square, then the body under it.

All sizes are invented (common practice, no source).
"""

import math
from cmath import rect
from typing import Literal

import msgspec
import numpy as np

from tests.campaign.invented.instruments import (
    Hand,
    Instrument,
    Neck,
    Seat,
    Strung,
    meet,
    neck_of,
    outer_paths,
    through,
)


class Wish(msgspec.Struct, frozen=True, kw_only=True):
    """What sort of instrument is wanted. `shift`: how the nut's shift is drawn, its spread in mm; `askew`: how much
    nearer to the frets it stands at one end than at the other, one standard deviation in mm; `slanted`: whether the two
    outer strings' frets stand on scales of their own; `cranked`: whether the board turns at fret 12.
    """

    shift: tuple[Literal["normal", "uniform"], float] = ("normal", 0.2)
    askew: float = 0.0
    slanted: bool = False
    cranked: bool = False


BY_HAND = Wish(shift=("normal", 0.5), askew=0.5)
"""Nuts that stand as far out, as a whole and one end against the other, as the program takes of them where no reading
tells (docs/numbers.md)."""


def drawn(random: np.random.Generator, wish: Wish) -> Instrument:
    """One instrument, invented: the board first, then the body under it."""
    hand: Hand = "right" if random.random() < 0.5 else "left"
    scale = float(random.uniform(330, 660))
    apart = float(random.uniform(2, 8) * random.choice([-1, 1])) if wish.slanted else 0.0
    how, much = wish.shift
    shift = float(random.normal(0, much) if how == "normal" else random.uniform(-much, much))
    crank = math.radians(random.uniform(0.3, 2.0) * random.choice([-1, 1])) if wish.cranked else 0.0
    width = float(random.uniform(30, 36) + (scale - 330) / 330 * random.uniform(5, 14))
    bare = Instrument(
        hand=hand,
        scale=(scale + apart / 2, scale - apart / 2),
        shift=shift,
        askew=float(random.normal(0, wish.askew)) if wish.askew else 0.0,
        crank=crank,
        strung=_strung(random, scale, width),
        seat=_seat(random, scale),
        points=_board(random, scale, width),
        holes={},
        heights={},
    )
    bare = msgspec.structs.replace(bare, points=_with_twelfth(bare))
    return _with_body(random, bare)


def _strung(random: np.random.Generator, scale: float, width: float) -> Strung:
    count = int(random.integers(4, 7))
    treble, bass = float(random.uniform(0.5, 2.0)), float(random.uniform(2.5, 5.5)) * scale / 650
    steps = np.linspace(treble, bass, count)
    spread = width - 2 * float(random.uniform(3, 4))
    wider = float(random.uniform(10, 18)) * (0.5 + scale / 1300)
    return Strung(
        count=count,
        nut_spread=round(spread, 1),
        saddle_spread=round(spread + wider, 1),
        shift=round(float(random.normal(0, 0.4)), 1),
        compensation=tuple(steps.tolist()),
    )


def _seat(random: np.random.Generator, scale: float) -> Seat:
    return Seat(
        square=bool(random.random() < 0.5),
        length=round(70 + 80 * (scale - 200) / 460 + float(random.uniform(-3, 3)), 1),
        width=round(float(random.uniform(22, 30)), 1),
        thickness=round(float(random.uniform(2.3, 3.2)), 1),
        peak_at=float(random.choice([0.3, 0.5, 0.5, 0.7])),
    )


def _board(random: np.random.Generator, scale: float, width: float) -> dict[str, complex]:
    """The board's corners, nowhere square, and the whole of it turned and put aside on the body."""
    length, end = scale * float(random.uniform(0.62, 0.70)), width + float(random.uniform(8, 13))
    nut, cut = float(random.normal(0, 0.25)), float(random.normal(0, 0.8))
    aside = random.normal(0, 0.4, 4)
    corners = {
        "nut.left": complex(nut, width / 2 + aside[0]),
        "nut.right": complex(-nut, -width / 2 + aside[1]),
        "end.left": complex(length + cut, end / 2 + aside[2]),
        "end.right": complex(length - cut, -end / 2 + aside[3]),
    }
    turn, put = rect(1, math.radians(random.normal(0, 0.6))), complex(0, random.normal(0, 1.5))
    return {name: turn * point + put for name, point in corners.items()}


def _with_twelfth(bare: Instrument) -> dict[str, complex]:
    """The board with fret 12 on it, and its tongue turned there by the instrument's crank.

    Fret 12 stands across the outer strings, which aim along the neck, whose edge lines the turned tongue shifts in
    turn: a few rounds settle it.
    """
    points = dict(bare.points)
    if not bare.crank:
        return points | _twelfth(bare, neck_of(points, ("nut", "end")))
    edges = {side: points[f"end.{side}"] - points[f"nut.{side}"] for side in ("left", "right")}
    neck = neck_of(points, ("nut", "end"))
    for _ in range(12):
        found = _twelfth(bare, neck)
        for side, way in edges.items():
            left = abs(way) - abs(found[f"fret12.{side}"] - bare.points[f"nut.{side}"])
            found[f"end.{side}"] = found[f"fret12.{side}"] + left * way / abs(way) * rect(1, bare.crank)
        points |= found
        neck = neck_of(points, ("nut", "fret12", "end"))
    return points


def _twelfth(bare: Instrument, neck: Neck) -> dict[str, complex]:
    """Where fret 12 ends on the edges as they run up to it."""
    places = [start + way * bare.fret(12, side) for side, (start, way) in enumerate(outer_paths(bare, neck))]
    fret = through(neck.put(places[0]), neck.put(places[1]))
    return {
        f"fret12.{side}": meet(fret, through(bare.points[f"nut.{side}"], bare.points[f"end.{side}"]))
        for side in ("left", "right")
    }


def _with_body(random: np.random.Generator, bare: Instrument) -> Instrument:
    """The seam, the old footprint with its outer pin holes, and the heights."""
    scale = sum(bare.scale) / 2
    half, deep = bare.seat.length / 2 + float(random.normal(0, 1)), bare.seat.width + float(random.normal(0, 1))
    turn = rect(1, math.radians(random.normal(0, 0.7)))
    at = complex(scale * 1.0 + random.normal(-8, 3), random.normal(0, 1.5))
    corners = (complex(0, half), complex(0, -half), complex(deep, -half), complex(deep, half))
    old = {f"old.{i}": at + turn * corner + complex(*random.normal(0, 0.2, 2)) for i, corner in enumerate(corners, 1)}
    seam = {
        "seam.1": complex(scale * 0.75, random.normal(0, 1.5)),
        "seam.2": complex(scale * 1.15, random.normal(0, 1.5)),
    }
    treble = 0.5 if bare.hand == "right" else -0.5
    pins = {
        name: at + turn * complex(0.62 * deep, way * bare.strung.saddle_spread)
        for name, way in (("pin.1", treble), (f"pin.{bare.strung.count}", -treble))
    }
    return msgspec.structs.replace(
        bare,
        points=bare.points | seam | old | pins,
        holes={name: float(random.uniform(4.8, 6.2)) for name in pins},
        heights=_heights(random, bare, scale),
    )


def _heights(random: np.random.Generator, bare: Instrument, scale: float) -> dict[tuple[str, str], float]:
    """The strings over frets 1 and 12, the board and the strings over a top that leans a little, mm."""
    found, lean = {}, math.tan(math.radians(random.normal(0, 0.7)))
    bass = "right" if bare.hand == "right" else "left"
    for side in ("left", "right"):
        low, high = float(random.uniform(0.4, 0.8)), float(random.uniform(1.8, 2.3)) + 0.5 * (side == bass)
        end = float(random.uniform(8, 11))
        found["fret 1", side], found["fret 12", side], found["board end", side] = low, high, end
        found["bridge", side] = end + 1.0 + 2 * high - low + lean * 0.34 * scale
    return found
