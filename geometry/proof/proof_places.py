"""Where the places of a proof are, in all rows: those of the instrument as the survey has them, those of the new
bridge as the sheet carries them there.

What the sheet shows moves with the board that it is laid to, and with nothing else: how well the place itself is known
does not come into whether a bridge stands where its sheet has it.
"""

import msgspec
import numpy as np

from geometry.frame import Array, Points, dot
from geometry.frets.fret_lines import twelfth
from geometry.job import Job
from geometry.job.measured.proof import is_new
from geometry.job.sides import SIDES
from geometry.neck.find_neck import NeckFrame
from geometry.neck.laid_sheet import Sheet, lay_sheet
from geometry.neck.string_paths import edge_crossings
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnStrings, PlacedInstrument
from geometry.saddle.heights.top_fall import Fall, find_fall
from geometry.saddle.in_pieces.pieces import left_and_right
from geometry.units import mm


class Places(msgspec.Struct, frozen=True, eq=False):
    """All places that a proof can name. `new` holds the bridge's in the first row, `board` the instrument's in all
    rows; `swapped` where each of the bridge's is on a sheet turned over. `pivot` is what a turn of the bridge is about.
    """

    states: PerturbedStates
    sheet: Sheet
    fall: Fall
    pivot: complex
    new: dict[str, complex]
    board: dict[str, Points]
    swapped: dict[str, complex]

    def has(self, *names: str) -> bool:
        """Whether all these are placed."""
        return all(name in self.new or name in self.board for name in names)

    def turned_over(self, place: complex) -> complex:
        """Where a place of the bridge is that was set by a sheet turned over: beside the same ends of its slot, or of
        the base's front.
        """
        left, right = (f"{self._held_by()}.{side}" for side in SIDES)
        along = (place - self.new[left]) / (self.new[right] - self.new[left])
        return self.swapped[left] + along * (self.swapped[right] - self.swapped[left])

    def turn_over(self) -> float:
        """By how much a sheet turned over turns the bridge, radians."""
        left, right = (f"{self._held_by()}.{side}" for side in SIDES)
        return float(np.angle((self.swapped[left] - self.swapped[right]) / (self.new[left] - self.new[right])))

    def long(self) -> float:
        """From end to end of what is placed, along its front, mm."""
        front = "base.front" if "base.front.left" in self.new else "bridge.front"
        return abs(self.new[f"{front}.left"] - self.new[f"{front}.right"])

    def _held_by(self) -> str:
        return "bridge.slot" if "bridge.slot.left" in self.new else "base.front"

    def row(self, name: str) -> Points:
        """Where a place is in all rows."""
        return self.sheet.carried(self.new[name]) if name in self.new else self.board[name]


def find_places(job: Job, placed: PlacedInstrument) -> Places | None:
    """All places of a job; None where the bridge has none."""
    neck, on = placed.neck, placed.saddle
    if neck is None or on is None or neck.spaced is None:
        return None
    new = _new(job, placed.states, neck.frame, on)
    if not new:
        return None
    states, frame = placed.states, neck.frame
    board = {name: frame.see(states, name)[:, 0] for name in states.surveyed.point_at if not is_new(name)}
    crossings = edge_crossings(frame, *twelfth(job, neck.paths, neck.spaced))
    board = {f"fret12.{side}": crossings[:, i] for i, side in enumerate(SIDES)} | board
    sheet = lay_sheet(frame)
    return Places(
        states=states,
        sheet=sheet,
        fall=find_fall(states, on.wanted.ready, job.bass, frame, on.line),
        pivot=complex(on.slot.middle[0]),
        new=new,
        board=board,
        swapped={name: sheet.turned_over(new[_opposite(job, name)]) for name in new if _opposite(job, name) in new},
    )


def _new(job: Job, states: PerturbedStates, frame: NeckFrame, on: OnStrings) -> dict[str, complex]:
    """The places of the bridge, or of a base that is screwed down; none where neither has a place."""
    if job.separate is not None:
        from geometry.separate.places_on_base import places_on_base  # few jobs have one: the others need not wait

        return places_on_base(job, states, frame, on)
    return _on_bridge(job, on) if on.seated is not None and job.bridge is not None else {}


def _on_bridge(job: Job, on: OnStrings) -> dict[str, complex]:
    """The bridge's corners, the ends of its slot's front edge, and its pin holes."""
    seated, bridge = on.seated, job.bridge
    assert seated is not None
    assert bridge is not None
    half, width = mm(bridge.length) / 2, mm(bridge.width)
    found = {}
    outer = left_and_right(on.pieces)
    for end, (side, way) in enumerate((("left", 1), ("right", -1))):
        found[f"bridge.front.{side}"] = complex(seated.place(0.0, way * half)[0])
        found[f"bridge.back.{side}"] = complex(seated.place(width, way * half)[0])
        found[f"bridge.slot.{side}"] = outer[end].slot.corners()[end]
    if on.pins is not None and job.strings is not None:
        for string, pin in zip(job.strings.list, on.pins[0].tolist(), strict=True):
            found[f"bridge.pin.{string.name}"] = pin
    return found


def _opposite(job: Job, name: str) -> str:
    """The place whose mark lies at a name's side when the sheet is turned over."""
    for one, other in (SIDES, SIDES[::-1]):
        if name.endswith(f".{one}"):
            return f"{name.removesuffix(one)}{other}"
    names = [string.name for string in job.strings.list] if job.strings is not None else []
    own = name.removeprefix("bridge.pin.")
    return f"bridge.pin.{names[-1 - names.index(own)]}" if own in names else name


class Spans(msgspec.Struct, frozen=True, eq=False):
    """Distances between pairs of places. `length` (n,) is what a rule reads of each where the sheet has the bridge,
    `slopes` (u, n) how it follows the states' unknowns, `extra` (n,) further variance, mm². `moves` (n, 3) is what a
    shift along and across (a mm each) and a turn (radians) of the bridge does and `bends` (n, 3, 3) their second
    derivatives, `stretch` (n, 2) what a sheet does that is larger by the whole along the neck and across it, and
    `swapped` (n,) what is read on a sheet turned over.
    """

    pairs: tuple[tuple[str, str], ...]
    length: Array
    slopes: Array
    extra: Array
    moves: Array
    bends: Array
    stretch: Array
    swapped: Array

    @property
    def scale(self) -> Array:
        """What a sheet larger by the whole both ways does (n,)."""
        return np.asarray(self.stretch.sum(axis=1))


def spans(places: Places, pairs: tuple[tuple[str, str], ...]) -> Spans:
    """The distances between these pairs of placed places, of which at least one end is on the bridge."""
    starts = np.array([places.row(a) for a, _ in pairs]).T
    stops = np.array([places.row(b) for _, b in pairs]).T
    lengths = np.abs(stops - starts)
    length = lengths[0]
    stretch, extra = _over_the_top(places, pairs, length)
    ends = np.array([starts[0], stops[0]])
    on_bridge = np.array([[pair[i] in places.new for pair in pairs] for i in (0, 1)])
    ahead = (ends[1] - ends[0]) / np.maximum(length, 1e-9)
    way = complex(places.sheet.way[0])
    moves = (np.full_like(ends, way), np.full_like(ends, 1j * way), 1j * (ends - places.pivot))

    def goes(move: Points) -> Points:
        """How far the end goes from the start when the bridge's places (2, n) go this way."""
        gone = np.where(on_bridge, move, 0)
        return np.asarray(gone[1] - gone[0])

    sideways = np.array([dot(1j * ahead, goes(move)) for move in moves]).T
    bends = sideways[:, :, None] * sideways[:, None, :] / np.maximum(length, 1e-9)[:, None, None]
    bends[:, 2, 2] += dot(ahead, goes(places.pivot - ends))

    own = (ends - complex(places.sheet.at[0])) * way.conjugate()
    other = np.array([[places.swapped.get(pair[i], places.row(pair[i])[0]) for pair in pairs] for i in (0, 1)])
    return Spans(
        pairs=pairs,
        length=stretch * length,
        slopes=stretch * places.states.gradient(lengths),
        extra=extra,
        moves=np.array([dot(ahead, goes(move)) for move in moves]).T,
        bends=bends,
        stretch=np.array(
            [dot(ahead, goes(way * part / 2)) for part in (own + own.conjugate(), own - own.conjugate())]
        ).T,
        swapped=stretch * np.abs(other[1] - other[0]),
    )


def _over_the_top(places: Places, pairs: tuple[tuple[str, str], ...], length: Array) -> tuple[Array, Array]:
    """How much longer a rule reads that lies on the top from the board's end, (n,), and the variance of that, mm²."""
    stretch, extra = np.ones(len(pairs)), np.zeros(len(pairs))
    for i, pair in enumerate(pairs):
        start = next((name for name in pair if name.startswith("end.")), "")
        if start:
            reads, sd = places.fall.along_top(float(length[i]), SIDES.index("left" if start == "end.left" else "right"))
            stretch[i], extra[i] = reads / max(float(length[i]), 1e-9), sd**2
    return stretch, extra
