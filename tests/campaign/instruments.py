"""Invented instruments whose every place is known: what a bench would have to read to be right.

The geometry here is the campaign's own and shares no code with the program's. Points are complex numbers x + iy in mm
in the body's frame. A **line** is its unit normal n and its reach c: the points p with Re(conj(n) p) = c; the normals
of the board's edges point to the left. All sizes are invented (common practice, no source).
"""

import math
from cmath import rect
from typing import Literal

import msgspec
import numpy as np

Hand = Literal["right", "left"]
Line = tuple[complex, float]
Pair = tuple[float, float]
SHARE = 0.38
"""Bridge front to the slot's front edge as a share of its width, where no slot is cut (common practice, no source)."""


class Wish(msgspec.Struct, frozen=True, kw_only=True):
    """What sort of instrument is wanted. `shift`: how the nut's shift is drawn, its spread in mm; `slanted`: whether
    the two outer strings' frets stand on scales of their own; `cranked`: whether the board turns at fret 12.
    """

    shift: tuple[Literal["normal", "uniform"], float] = ("normal", 0.2)
    slanted: bool = False
    cranked: bool = False


class Strung(msgspec.Struct, frozen=True, kw_only=True):
    """The strings as the person types them: spreads and shift in mm, `compensation` from treble to bass."""

    count: int
    nut_spread: float
    saddle_spread: float
    shift: float
    compensation: tuple[float, ...]


class Seat(msgspec.Struct, frozen=True, kw_only=True):
    """The new bridge and its saddle as the person types them, mm; `square` to the neck or turned with its slot."""

    square: bool
    length: float
    width: float
    thickness: float
    peak_at: float


class Instrument(msgspec.Struct, frozen=True, kw_only=True):
    """One true instrument. Pairs are [left, right]. `points` in the body's frame; `holes` the old pins' diameters;
    `heights` by place and side. The nut stands `shift` too near the frets. `crank` is the tongue's turn (radians).
    """

    hand: Hand
    scale: Pair
    shift: float
    crank: float
    strung: Strung
    seat: Seat
    points: dict[str, complex]
    holes: dict[str, float]
    heights: dict[tuple[str, str], float]

    def fret(self, number: int, side: int) -> float:
        """From the nut's front to a fret along the outer string path on that side (0 left, 1 right)."""
        return self.scale[side] * (1 - 2 ** (-number / 12)) - self.shift

    @property
    def nominal(self) -> Pair:
        """From the nut's front to the nominal places along the outer string paths: twice fret 12 of the spacing."""
        return self.scale[0] - self.shift, self.scale[1] - self.shift


class Neck(msgspec.Struct, frozen=True, kw_only=True):
    """The neck's frame in the body's: its origin on the nut's front, and the direction of its centre line."""

    origin: complex
    way: complex

    def see(self, point: complex) -> complex:
        """A point of the body's frame as it lies in the neck's."""
        return (point - self.origin) / self.way

    def put(self, point: complex) -> complex:
        """A point of the neck's frame as it lies in the body's."""
        return self.origin + point * self.way


def dot(a: complex, b: complex) -> float:
    """The scalar product of two vectors."""
    return a.real * b.real + a.imag * b.imag


def through(a: complex, b: complex) -> Line:
    """The line from a through b; its normal points to the left."""
    normal = 1j * (b - a) / abs(b - a)
    return normal, dot(normal, a)


def meet(one: Line, two: Line) -> complex:
    """Where two lines cross, by Cramer's rule."""
    (n, c), (m, d) = one, two
    under = n.real * m.imag - n.imag * m.real
    return complex(c * m.imag - d * n.imag, n.real * d - m.real * c) / under


def best_line(points: list[complex]) -> Line:
    """The line of least squared square distances through points, from the first toward the last: the axis of their
    scatter lies at half the angle atan2(2 Sxy, Sxx − Syy).
    """
    middle = sum(points) / len(points)
    off = [point - middle for point in points]
    sxx, syy = sum(p.real**2 for p in off), sum(p.imag**2 for p in off)
    turn = math.atan2(2 * sum(p.real * p.imag for p in off), sxx - syy) / 2
    way = rect(1, turn)
    if dot(way, points[-1] - points[0]) < 0:
        way = -way
    return 1j * way, dot(1j * way, middle)


def neck_of(points: dict[str, complex], stations: tuple[str, ...]) -> Neck:
    """The neck's frame of a board: the bisector of the best lines through its edges' points at these stations."""
    (n, c), (m, d) = (best_line([points[f"{at}.{side}"] for at in stations]) for side in ("left", "right"))
    normal, reach = (n + m) / abs(n + m), (c + d) / abs(n + m)
    origin = meet((normal, reach), through(points["nut.right"], points["nut.left"]))
    return Neck(origin=origin, way=normal / 1j)


def outer_paths(instrument: Instrument, neck: Neck) -> list[tuple[complex, complex]]:
    """The outer strings' paths [left, right] in the neck's frame: where each leaves the nut's front, and its direction.

    A path meets the saddle's spread one scale (the mean of both) from the nut.
    """
    strung, reach = instrument.strung, sum(instrument.scale) / 2
    nut = through(neck.see(instrument.points["nut.right"]), neck.see(instrument.points["nut.left"]))
    paths = []
    for way in (0.5, -0.5):
        start = meet(nut, (1j, way * strung.nut_spread + strung.shift))
        toward = complex(reach, way * strung.saddle_spread + strung.shift) - start
        paths.append((start, toward / abs(toward)))
    return paths


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
        crank=crank,
        strung=_strung(random, scale, width),
        seat=_seat(random, scale),
        points=_board(random, scale, width),
        holes={},
        heights={},
    )
    bare = msgspec.structs.replace(bare, points=with_twelfth(bare))
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


def with_twelfth(bare: Instrument) -> dict[str, complex]:
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


class Truth(msgspec.Struct, frozen=True, kw_only=True):
    """What a layout ought to say, in the neck's frame. Pairs are [left, right], mm.

    `saddle` is the distance from the nut's front to the saddle line along the centre line at the outer strings, `slant`
    how much farther the bass side stands, `front` the x of the bridge's front edge at its wings.
    """

    nominal: Pair
    saddle: Pair
    slant: float
    front: Pair
    points: dict[str, complex]


def truth_of(instrument: Instrument, stations: tuple[str, ...]) -> Truth:
    """The truth of an instrument whose edges are read at these stations."""
    neck = neck_of(instrument.points, stations)
    paths = outer_paths(instrument, neck)
    ends = [start + way * far for (start, way), far in zip(paths, instrument.nominal, strict=True)]
    broken = _break_points(instrument, neck, through(ends[1], ends[0]))
    y = [point.imag for point in broken]
    mean_x, mean_y = sum(point.real for point in broken) / len(broken), sum(y) / len(y)
    lean = sum((p.real - mean_x) * (p.imag - mean_y) for p in broken) / sum((p.imag - mean_y) ** 2 for p in broken)
    left, right = (mean_x + lean * (at - mean_y) for at in (max(y), min(y)))
    return Truth(
        nominal=instrument.nominal,
        saddle=(left - paths[0][0].real, right - paths[1][0].real),
        slant=(left - right) * (1 if instrument.hand == "left" else -1),
        front=_front(instrument.seat, complex((left + right) / 2, (max(y) + min(y)) / 2), math.atan(lean)),
        points={name: neck.see(point) for name, point in instrument.points.items()},
    )


def _break_points(instrument: Instrument, neck: Neck, nominal: Line) -> list[complex]:
    """Where the strings leave the saddle, treble to bass: each its compensation past where its own path crosses the
    line of nominal places, along the centre line. The path ends at the break point, so a few rounds settle it.
    """
    strung, way = instrument.strung, 1 if instrument.hand == "right" else -1
    nut = through(neck.see(instrument.points["nut.right"]), neck.see(instrument.points["nut.left"]))
    found = []
    for i, past in enumerate(strung.compensation):
        across = way * (0.5 - i / (strung.count - 1))
        start = meet(nut, (1j, across * strung.nut_spread + strung.shift))
        y = across * strung.saddle_spread + strung.shift
        stop = meet(nominal, (1j, y)) + past
        for _ in range(6):
            stop = complex(meet(nominal, through(start, stop)).real + past, y)
        found.append(stop)
    return found


def _front(seat: Seat, middle: complex, lean: float) -> Pair:
    """The x of the bridge's front at its wings; `middle` is that of the saddle line between the outer strings, `lean`
    the line's angle from square (radians, its left end farther from the nut where positive).
    """
    square = rect(1, -lean)
    slot = middle - square * seat.peak_at * seat.thickness
    back = 1 if seat.square else square
    front = slot - back * SHARE * seat.width
    wing = 1j * back * seat.length / 2
    return (front + wing).real, (front - wing).real
