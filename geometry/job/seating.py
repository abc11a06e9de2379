"""The saddle and the bridge: their sizes, and how the bridge is seated."""

from typing import Literal

import msgspec

from geometry.job.bridges.tie_block import TieBlock
from geometry.job.checks import NotAJob, length_between, number_between
from geometry.job.crossing_itself import crosses_itself
from geometry.units import Length, in_its_unit, mm, with_unit

BELLY_REACH = 0.31
"""Half a belly's reach as a share of the bridge's length (common practice, no source)."""
Seat = Literal["square", "with slot", "old footprint"]
Made = Literal["one", "two", "three", "each", "steps"]
"""One piece; two or three of them, or one a string, each in a slot of its own; one piece that is filed in steps."""
OutlineName = Literal["straight", "belly", "reversed belly", "stepped wings", "tapered wings", "pyramid", "traced"]
MOST_TRACED, NEAR = 2000, 0.1
"""A traced outline has so many points at the most, and is as long and as wide as the bridge to so many mm: no file is
finer (common practice, no source)."""
THICKEST = 15.0
"""The thickest saddle that is taken, mm (common practice, no source)."""


class Saddle(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`peak_at`: how far into its thickness, from the front, the saddle peaks (0 front, 1 back).

    `straight`: an unslanted saddle, square to the neck centre line. `slot_length` None: the spread and 10 mm on
    either side. `slot_depth` is from the bridge's top, where it is known.

    `made`: of how many pieces, or in steps, one a course. `splits` names the strings, in list order, after which a
    saddle of two or three is parted; None for the best places. Between two pieces' slots a `wall` of wood stays, no
    piece is to be shorter than `least_piece`, and no step narrower than `least_step`.
    """

    thickness: Length = 3.0
    peak_at: float = 0.5
    slot_length: Length | None = None
    slot_depth: Length | None = None
    straight: bool = False
    made: Made = "one"
    splits: tuple[str, ...] | None = None
    wall: Length = 2.0
    least_piece: Length = 6.0
    least_step: Length = 3.0

    def __post_init__(self) -> None:
        length_between("The saddle’s thickness", self.thickness, 0.5, THICKEST)
        length_between("The wood between two slots", self.wall, 0, 20)
        length_between("The least length of a saddle’s piece", self.least_piece, 1, 100)
        length_between("The least width of a saddle’s step", self.least_step, 0.5, 50)
        number_between("The saddle’s peak", self.peak_at, 0, 1)
        length_between("The slot’s length", self.slot_length, 10, 300)
        length_between("The slot’s depth", self.slot_depth, 0.5, 30)


class SlotFront(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Bridge front edge to slot front edge, read at the slot's two ends, for a bridge whose slot is cut."""

    left: Length
    right: Length

    def __post_init__(self) -> None:
        length_between("Bridge front to slot front", self.left, 0, 60)
        length_between("Bridge front to slot front", self.right, 0, 60)


class Pins(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Pin holes: centres `behind_slot` the slot's back edge, in a row with the slot or square to the bridge.

    Where strings lie in pairs, the second of each pair has its hole `second_row` behind the first's. `small_end` is a
    pin's thin end, where it is known: holes are drilled below it and reamed.
    """

    behind_slot: Length = 5.5
    row: Literal["slot", "bridge"] = "slot"
    diameter: Length = 5.0
    second_row: Length = 8.0
    small_end: Length | None = None

    def __post_init__(self) -> None:
        length_between("The pin holes behind the slot", self.behind_slot, 0.5, 60)
        length_between("The pin holes’ diameter", self.diameter, 1, 12)
        length_between("The second row of pin holes", self.second_row, 0, 40)
        length_between("The pins’ small end", self.small_end, 1, 12)
        if self.small_end is not None and mm(self.small_end) > mm(self.diameter):
            raise NotAJob(
                f"The pins’ small end of {with_unit(self.small_end)} is thicker than their holes of "
                f"{with_unit(self.diameter)}; look at both"
            )


class Moved(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The bridge moved on purpose from its seat: `along` the neck (+ to the tail), `across` it (+ to the left, and the
    strings at the saddle with it), and by a `turn` in degrees (+ counter-clockwise) about its slot's middle. A slot
    that is still to be cut `stays` where the strings want it, or `goes along`; a cut one goes along.
    """

    along: Length = 0.0
    across: Length = 0.0
    turn: float = 0.0
    slot: Literal["stays", "goes along"] = "stays"

    def __post_init__(self) -> None:
        length_between("The bridge moved along the neck", self.along, -60, 60)
        length_between("The bridge moved across the neck", self.across, -30, 30)
        number_between("The bridge’s turn", self.turn, -10, 10)


class Bridge(
    msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True, cache_hash=True
):
    """`width` is front to back at the wings. By `belly_depth` a `belly` stands out behind it, a `reversed belly` before
    it, and the middle behind wings that are stepped or tapered over `wing_length`. `pyramid` ends are carved: from
    above they are straight. A `traced` outline runs through its points [x, y]: x behind the front edge, y to the left
    of the middle. `front_to_slot` is from the front edge to the slot's in its middle, where no slot is cut yet.

    `thickness` is at the slot: one length for both sides, or at [left, right] where the top is not level, None for a
    side that is not known.
    The strings end in `pins`, or in a `tie` block behind the slot; with neither they run on to a tailpiece. `seat`:
    square to the neck centre line, with the slot, or on the old footprint; from there it may be `moved` on purpose.
    """

    outline: OutlineName = "belly"
    length: Length = 152.0
    width: Length = 26.0
    thickness: Length | tuple[Length | None, Length | None] | None = None
    belly_depth: Length | None = None
    seat: Seat = "square"
    moved: Moved | None = None
    slot_front: SlotFront | None = None
    pins: Pins | None = None
    tie: TieBlock | None = None
    wing_length: Length | None = None
    front_to_slot: Length | None = None
    traced: tuple[tuple[float, float], ...] = ()

    def __post_init__(self) -> None:
        length_between("The bridge’s length", self.length, 30, 400)
        length_between("The bridge’s width", self.width, 5, 120)
        for thickness in self.thicknesses:
            length_between("The bridge’s thickness", thickness, 2, 40)
        length_between("The belly’s depth", self.belly_depth, 0, 60)
        length_between("The wing’s length", self.wing_length, 1, 200)
        length_between("Bridge front to slot front", self.front_to_slot, 0, 100)
        if self.wing_length is not None and 2 * mm(self.wing_length) >= mm(self.length):
            raise NotAJob(
                f"Two wings of {with_unit(self.wing_length)} leave no middle of a bridge {with_unit(self.length)} "
                "long; look at both"
            )
        if self.outline == "traced" and self.traced:
            self._check_traced()
        if self.pins is not None and self.tie is not None:
            raise NotAJob(
                "The bridge has both pins and a tie block, and strings end in one of them; take out the other"
            )
        deepest = BELLY_REACH * mm(self.length)
        round_ = self.outline in ("belly", "reversed belly")
        if round_ and self.belly_depth is not None and mm(self.belly_depth) > deepest:
            raise NotAJob(
                f"The belly’s depth is {with_unit(self.belly_depth)}, but on a bridge {with_unit(self.length)} long a "
                f"belly stands out by {in_its_unit(deepest, self.belly_depth, self.length)} at most; look at both"
            )

    def _check_traced(self) -> None:
        if not 3 <= len(self.traced) <= MOST_TRACED:
            raise NotAJob(
                f"A traced outline needs 3 to {MOST_TRACED} points, but has {len(self.traced)}; trace it again"
            )
        if crosses_itself(self.traced):
            raise NotAJob("The traced outline crosses itself; give its points in their order round the bridge")
        (front, right), (back, left) = ((min(xs), max(xs)) for xs in zip(*self.traced, strict=True))
        long, wide = mm(self.length), mm(self.width)
        if max(abs(front), abs(right - wide), abs(left - long / 2), abs(back + long / 2)) > NEAR:
            is_long, is_deep = (in_its_unit(size, self.length, self.width) for size in (left - back, right - front))
            raise NotAJob(
                f"The traced outline is {is_long} from wing to wing and {is_deep} deep, but the bridge "
                f"{with_unit(self.length)} by {with_unit(self.width)}: give both alike, and measure the outline from "
                "the front edge and from the middle"
            )

    @property
    def carries_slot(self) -> bool:
        """Whether the slot comes with the bridge, wherever the strings want it: it is cut, or goes along."""
        return self.slot_front is not None or (self.moved is not None and self.moved.slot == "goes along")

    @property
    def thicknesses(self) -> tuple[Length | None, Length | None]:
        """At the slot's ends [left, right]."""
        return self.thickness if isinstance(self.thickness, tuple) else (self.thickness, self.thickness)
