"""The job as a whole: all its blocks, and the checks that reach across them."""

from typing import Literal

import msgspec

from geometry.job.bridges import Held
from geometry.job.bridges.floating import Floating
from geometry.job.bridges.saddle_made import check_made
from geometry.job.bridges.separate import Separate
from geometry.job.bridges.tail import Tail
from geometry.job.checks import RENAME, NotAJob, WrongReading, known_points, no_repeats
from geometry.job.measured.proof import Proof
from geometry.job.measured.readings import Point, Reading
from geometry.job.neck.board import Board
from geometry.job.neck.fretting import Frets
from geometry.job.neck.hardware import Hardware
from geometry.job.neck.nut import Nut
from geometry.job.old_work import Old
from geometry.job.place_choice import Choosing
from geometry.job.placements import Kept, check_kept
from geometry.job.seating import Bridge, Saddle
from geometry.job.sheets import Sheets
from geometry.job.sides import SIDES, Side
from geometry.job.stringing import Strings
from geometry.units import Unit, limits, mm, with_unit

VERSION = 1
Hand = Literal["right", "left"]

WIDTHS = {
    frozenset(("nut.left", "nut.right")): ("the nut, edge to edge,", 15.0, 130.0),
    frozenset(("end.left", "end.right")): ("the board’s end, edge to edge,", 20.0, 160.0),
    **{frozenset((f"nut.{a}", f"end.{b}")): ("nut to board end", 100.0, 1000.0) for a in SIDES for b in SIDES},
    **{frozenset((f"nut.{a}", f"fret12.{b}")): ("nut to fret 12", 80.0, 700.0) for a in SIDES for b in SIDES},
}
"""Widths and lengths no fretted instrument goes beyond (common practice, no source): a slip of the decimal point shows
here.
"""

EDGE = frozenset(f"{at}.{side}" for at in ("nut", "end", "fret12") for side in SIDES)
MOST_OFF = 1200.0
"""mm. No point of any instrument lies farther off its board's edge (common practice, no source)."""

MOST_READINGS = 4000
"""No hand takes more readings of one instrument (common practice, no source): a file with more is something else."""


class Job(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One instrument's job. A block that is None is not begun; the layout then stops before it. `bridge_off`: whether
    the old bridge is off already; None: as the readings tell.
    """

    offsquare: int = VERSION
    title: str = ""
    note: str = ""
    unit: Unit = "mm"
    hand: Hand = "right"
    board: Board = Board()
    points: dict[str, Point] = {}
    readings: tuple[Reading, ...] = ()
    frets: Frets = Frets()
    strings: Strings | None = None
    nut: Nut | None = None
    saddle: Saddle | None = None
    bridge: Bridge | None = None
    floating: Floating | None = None
    separate: Separate | None = None
    tail: Tail | None = None
    bridge_off: bool | None = None
    old: Old | None = None
    choice: Choosing = Choosing()
    proof: tuple[Proof, ...] = ()
    hardware: Hardware = Hardware()
    sheets: Sheets = Sheets()
    kept: tuple[Kept, ...] = ()

    def __post_init__(self) -> None:
        if len(self.readings) > MOST_READINGS:
            raise NotAJob(
                f"The job has {len(self.readings)} readings, and no more than {MOST_READINGS} can be worked out; leave "
                "out those that stand more than once"
            )
        no_repeats("The reading", (reading.id for reading in self.readings), RENAME)
        self._check_one_bridge()
        self._check_starts()
        self._check_one_spread()
        if self.saddle is not None and (self.saddle.made != "one" or self.saddle.splits is not None):
            check_made(self.saddle, self.strings.list if self.strings else None, self.bridge, self.held)
        for name, point in self.points.items():
            for hint in point.side:
                where = f"The side hint of point “{name}”"
                known_points(where, hint.of, self.points)
                if len({name, *hint.of}) < 3:
                    through = " and ".join(f"“{of}”" for of in hint.of)
                    raise NotAJob(f"{where} needs a line through two other points, not through {through}")
        for reading in self.readings:
            try:
                known_points("", (*reading.of, *reading.from_), self.points)
            except NotAJob as wrong:
                raise WrongReading(reading.id, str(wrong)) from None
            self._check_width(reading)
        if self.old is not None:
            for what, names in self.old.named:
                known_points(what, names, self.points)
        if self.floating is not None:
            known_points("The floating bridge", self.floating.points, self.points)
            self.floating.check_crown(self.saddle.slot_length if self.saddle is not None else None)
        known_points("The headstock or a hole", self.hardware.points, self.points)
        known_points("The opening near the base", self.separate.opening if self.separate else (), self.points)
        check_kept(self.kept)
        for proof in self.proof:
            proof.check_points(self.points)

    @property
    def is_bridge_off(self) -> bool:
        """Whether the old bridge is off: as was told, else as the readings say. With the bridge off a straightedge
        stands in for strings at the saddle's place.
        """
        if self.bridge_off is not None:
            return self.bridge_off
        return any(reading.kind == "height" and reading.at == "saddle" for reading in self.readings)

    @property
    def carries_slot(self) -> bool:
        """Whether there is a bridge that the slot comes with, wherever the strings want it."""
        return self.bridge is not None and self.bridge.carries_slot

    def _check_one_bridge(self) -> None:
        given = [name for name in ("bridge", "floating", "separate") if getattr(self, name) is not None]
        if len(given) > 1:
            raise NotAJob(
                f"A job has one bridge, and this one has the blocks {' and '.join(given)}; take out all but one"
            )
        if self.tail is not None and self.separate is not None and self.separate.through is not None:
            raise NotAJob(
                "The strings of this job go through the body (separate.through) and run on to a tailpiece (tail); take "
                "out one of them"
            )

    def _check_starts(self) -> None:
        for string in self.strings.list if self.strings is not None else ():
            if string.first > self.frets.count:
                raise NotAJob(
                    f"String {string.name} starts at fret {string.first}, and the board has {self.frets.count} frets; "
                    "look at both numbers"
                )

    def _check_one_spread(self) -> None:
        margins = self.nut is not None and self.nut.margins is not None
        if margins and self.strings is not None and self.strings.nut is not None:
            raise NotAJob(
                "The strings at the nut have a spread (strings.nut) and margins (nut.margins); keep one of them"
            )

    def _check_width(self, reading: Reading) -> None:
        what, least, most = WIDTHS.get(frozenset(reading.of), ("", 0.0, 0.0))
        if what and reading.kind == "distance" and reading.parts and not reading.struck:
            value = mm(reading.parts[0])
            if not least <= value <= most:
                low, high = limits(least, most, reading.parts[0])
                raise WrongReading(
                    reading.id,
                    f": {what} is {with_unit(reading.parts[0])}; no instrument’s is under {low} or over {high}. Look "
                    "at the unit and the decimal point",
                )
        beside = reading.kind == "off" and reading.parts and not reading.struck and EDGE.issuperset(reading.from_)
        if beside and mm(reading.parts[0]) > MOST_OFF:
            _, most_off = limits(0.0, MOST_OFF, reading.parts[0])
            raise WrongReading(
                reading.id,
                f": the point lies {with_unit(reading.parts[0])} off the board’s edge; none on an instrument lies over "
                f"{most_off} off it. Look at the unit and the decimal point",
            )

    @property
    def held(self) -> Held:
        """How its bridge is held; a job without a bridge is one whose bridge will be glued."""
        return "strings" if self.floating is not None else "screws" if self.separate is not None else "glue"

    @property
    def bass(self) -> Side:
        """The physical side the bass strings lie on."""
        return "right" if self.hand == "right" else "left"

    @property
    def bass_first(self) -> tuple[tuple[Side, int], ...]:
        """Both physical sides, each with its place in whatever there is of both, in the order a person reads them."""
        left, right = (SIDES[0], 0), (SIDES[1], 1)
        return (left, right) if self.bass == "left" else (right, left)

    def bass_or_treble(self, side: str) -> Literal["bass", "treble"]:
        """What a physical side, left or right, is called for this hand."""
        return "bass" if side == self.bass else "treble"
