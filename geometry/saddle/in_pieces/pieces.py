"""A saddle of one piece or of several: the line under each piece's strings, its slot, and where it peaks under each.

A **piece** has strings that lie side by side, a line of its own and a slot of its own; the **whole** saddle line of
several is the straight line through where the two outer strings' pieces lie under them. A stepped saddle is one
piece in which the strings of a course share a **step**, filed straight along the slot.
"""

import itertools
from collections.abc import Callable
from typing import NamedTuple

import msgspec
import numpy as np

from geometry.frame import Array, Points
from geometry.job import Saddle, Strings
from geometry.job.bridges.saddle_made import COUNT
from geometry.neck.string_paths import in_pairs
from geometry.saddle.best_line import Line
from geometry.saddle.in_pieces import splitting
from geometry.saddle.in_pieces.splitting import Runs
from geometry.saddle.saddle_line import BEYOND, SaddleLine, Slot, Strung, fit_line, slot_on, wanted_slot
from geometry.units import mm

LEAST_SLOT = 0.5
"""A slot that has no room at all is drawn so short, mm, and is a stop."""


class Piece(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """A piece's strings in the list (from, up to but without), its line and its slot."""

    run: tuple[int, int]
    line: SaddleLine
    slot: Slot


class Asks(NamedTuple):
    """What the strings ask of the saddle (strings,): their own `lengths` from where each begins, mm, and the `weights`
    of those that ask, or None where all do.
    """

    lengths: Array
    weights: Array | None = None


class Peaks(NamedTuple):
    """Where the saddle peaks under each string (strings,): in its thickness, from 0 front to 1 back, and its x."""

    at: Array
    x: Array


def is_parted(saddle: Saddle) -> bool:
    """Whether it is made of several pieces."""
    return saddle.made not in ("one", "steps")


def lay_pieces(strung: Strung, saddle: Saddle, strings: Strings, asks: Asks) -> tuple[Piece, ...]:
    """The pieces of a saddle that is made of several, in the list's order, in all rows. Where it is parted, and which
    strings press against a piece's room, the first row decides.
    """
    wanted = strung.break_point[0]
    y, x = wanted.imag, wanted.real
    lay = splitting.lay_under(
        y, x, mm(saddle.thickness), saddle.peak_at, straight=saddle.straight, weights=asks.weights
    )
    parts = find_runs(saddle, strings, y, x, asks, lay)
    edges = slot_edges(saddle, y, parts)
    pieces = []
    for run, (one, other) in zip(parts, edges, strict=True):
        part = slice(*run)
        line = fit_line(_some(strung, part), lay(part), saddle.straight, splitting.weights_of(asks.weights, part))
        pieces.append(Piece(run=run, line=line, slot=slot_on(line, (one + other) / 2, abs(one - other), saddle)))
    return tuple(pieces)


def find_runs(
    saddle: Saddle, strings: Strings, y: Array, wanted: Array, asks: Asks, lay: Callable[[slice], Line]
) -> Runs:
    """The strings of each piece: as the job says, or where the saddle is best parted; y and wanted x (n,)."""
    count = len(strings.list)
    if not is_parted(saddle):
        return ((0, count),)
    if saddle.made == "each":
        return splitting.runs(range(1, count), count)
    if saddle.splits is not None:
        names = [string.name for string in strings.list]
        return splitting.runs([names.index(name) + 1 for name in saddle.splits], count)
    least = mm(saddle.least_piece)

    def long_enough(parts: Runs) -> bool:
        return all(abs(one - other) >= least for one, other in slot_edges(saddle, y, parts))

    ways = splitting.ways(count, COUNT[saddle.made], between_courses(strings), long_enough)
    return splitting.runs(splitting.best_splits(y, wanted, asks.lengths, ways, lay, asks.weights), count)


def between_courses(strings: Strings) -> list[int]:
    """The places in the list, but the first, where a course begins."""
    return [at for at, pair in enumerate(in_pairs(strings), 1) if not pair]


def slot_edges(saddle: Saddle, y: Array, parts: Runs) -> tuple[tuple[float, float], ...]:
    """Where each piece's slot begins and ends across the neck, in the list's order: half way between two strings, less
    half the wood between two slots; at the ends as one slot would.
    """
    way = 1.0 if y[-1] >= y[0] else -1.0
    middle, half = float(y[0] + y[-1]) / 2, abs(float(y[-1] - y[0])) / 2 + BEYOND
    half = half if saddle.slot_length is None else mm(saddle.slot_length) / 2
    wall = way * mm(saddle.wall) / 2
    found = []
    for start, stop in parts:
        one = middle - way * half if start == 0 else float(y[start - 1] + y[start]) / 2 + wall
        other = middle + way * half if stop == len(y) else float(y[stop - 1] + y[stop]) / 2 - wall
        if way * (other - one) < LEAST_SLOT:
            centre = float(y[start] + y[stop - 1]) / 2
            one, other = centre - way * LEAST_SLOT / 2, centre + way * LEAST_SLOT / 2
        found.append((one, other))
    return tuple(found)


def whole_line(strung: Strung, pieces: tuple[Piece, ...]) -> SaddleLine:
    """The straight line through where the outer strings' pieces lie under them, in all rows."""
    y = strung.break_point.imag[0]
    ends = [int(y.argmax()), int(y.argmin())]
    outer = y[ends]
    left, right = (_piece_of(pieces, end).line.x(y[[end]])[:, 0] for end in ends)
    lean = (left - right) / (outer[0] - outer[1])
    return SaddleLine(
        at=left - lean * outer[0],
        lean=lean,
        outer=outer,
        nominal=strung.nominal[0, ends].real,
        nut=strung.start[:, ends].real,
    )


def _piece_of(pieces: tuple[Piece, ...], string: int) -> Piece:
    return next(piece for piece in pieces if piece.run[0] <= string < piece.run[1])


def one_piece(strung: Strung, line: SaddleLine, slot: Slot) -> tuple[Piece, ...]:
    """A saddle of one piece."""
    return (Piece(run=(0, strung.break_point.shape[1]), line=line, slot=slot),)


def carried_along(pieces: tuple[Piece, ...], wanted: Slot, slot: Slot) -> tuple[Piece, ...]:
    """The pieces where the whole `slot` came to lie that was `wanted` somewhere else: moved and turned with it."""
    if wanted is slot:
        return pieces
    if len(pieces) == 1:
        return (msgspec.structs.replace(pieces[0], slot=slot),)
    spin: Points = slot.leftward / wanted.leftward

    def carried(piece: Piece) -> Slot:
        middle = slot.middle + (piece.slot.middle - wanted.middle) * spin
        return msgspec.structs.replace(piece.slot, middle=middle, leftward=piece.slot.leftward * spin)

    return tuple(msgspec.structs.replace(piece, slot=carried(piece)) for piece in pieces)


def ridge_line(pieces: tuple[Piece, ...], y: Array) -> Array:
    """Where each string's own slot has its saddle line in the first row at places y (n,), in list order."""
    return np.concatenate([piece.slot.x_at(y[slice(*piece.run)]) for piece in pieces])


def left_and_right(pieces: tuple[Piece, ...]) -> tuple[Piece, Piece]:
    """The outermost pieces on the left and on the right."""
    first, last = pieces[0], pieces[-1]
    return (first, last) if first.slot.middle[0].imag >= last.slot.middle[0].imag else (last, first)


def find_peaks(strung: Strung, pieces: tuple[Piece, ...], steps: Runs | None = None) -> Peaks:
    """As near to where each string wants to break as the saddle's thickness lets its peak be filed; on a stepped
    saddle alike for the strings of each step.
    """
    wanted, slot = strung.break_point[0], pieces[0].slot
    on_line = ridge_line(pieces, wanted.imag)
    ahead, behind = -slot.peak * slot.thickness, (1 - slot.peak) * slot.thickness
    off = wanted.real - on_line
    if steps is not None:
        off = np.concatenate([np.full(stop - start, off[start:stop].mean()) for start, stop in steps])
    inside = np.minimum(np.maximum(off, ahead), behind)
    return Peaks(slot.peak + inside / slot.thickness, on_line + inside)


def steps_of(saddle: Saddle, strings: Strings) -> Runs | None:
    """The strings of each step, a course each; None for a saddle without steps."""
    if saddle.made != "steps":
        return None
    return splitting.runs(between_courses(strings), len(strings.list))


def step_edges(strung: Strung, slot: Slot, steps: Runs) -> list[tuple[float, float]]:
    """Where each step begins and ends across the neck, in the list's order: half way between two courses, and at the
    slot's ends.
    """
    y = strung.break_point[0].imag
    corners = slot.corners()
    ends = (corners[0].imag, corners[1].imag)
    first, last = ends if y[0] >= y[-1] else ends[::-1]
    edges = [first, *((float(y[stop - 1] + y[stop])) / 2 for _, stop in steps[:-1]), last]
    return list(itertools.pairwise(edges))


def _some(strung: Strung, part: slice) -> Strung:
    return Strung(start=strung.start[:, part], nominal=strung.nominal[:, part], break_point=strung.break_point[:, part])


def slots_for(
    strung: Strung,
    saddle: Saddle,
    strings: Strings | None,
    asks: Asks,
    lay_line: Callable[[Strung, Saddle, Array | None], SaddleLine],
    longest: float | None = None,
) -> tuple[SaddleLine, Slot, tuple[Piece, ...]]:
    """The saddle line, the slot that it asks for, and the pieces: of several, the whole line's. `longest` (mm) as for
    `wanted_slot`.
    """
    if strings is None or not is_parted(saddle):
        line = lay_line(strung, saddle, asks.weights)
        slot = wanted_slot(line, saddle, longest)
        return line, slot, one_piece(strung, line, slot)
    pieces = lay_pieces(strung, saddle, strings, asks)
    line = whole_line(strung, pieces)
    return line, wanted_slot(line, saddle, longest), pieces
