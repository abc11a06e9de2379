"""Invented instruments whose every place is known: what a bench would have to read to be right.

The geometry here is the campaign's own and shares no code with the program's. Points are complex numbers x + iy in mm
in the body's frame. A **line** is its unit normal n and its reach c: the points p with Re(conj(n) p) = c; the normals
of the board's edges point to the left. All sizes are invented (common practice, no source).
"""

import math
from cmath import rect
from typing import Literal

import msgspec

Hand = Literal["right", "left"]
Line = tuple[complex, float]
Pair = tuple[float, float]
SHARE = 0.38
"""Bridge front to the slot's front edge as a share of its width, where no slot is cut (common practice, no source)."""


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
    `heights` by place and side. The nut stands `shift` too near the frets, and at the left `askew` nearer than at the
    right. `crank` is the tongue's turn (radians).
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
    askew: float = 0.0

    def fret(self, number: int, side: int) -> float:
        """From the nut's front to a fret along the outer string path on that side (0 left, 1 right)."""
        return self.scale[side] * (1 - 2 ** (-number / 12)) - self.nearer[side]

    @property
    def nominal(self) -> Pair:
        """From the nut's front to the nominal places along the outer string paths: twice fret 12 of the spacing."""
        return self.scale[0] - self.nearer[0], self.scale[1] - self.nearer[1]

    @property
    def nearer(self) -> Pair:
        """How much too near the frets the nut stands."""
        return self.shift + self.askew / 2, self.shift - self.askew / 2


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
    broken = break_points(instrument, neck, through(ends[1], ends[0]))
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


def break_points(instrument: Instrument, neck: Neck, nominal: Line) -> list[complex]:
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
