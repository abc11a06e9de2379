"""Old work as it lies, and what the new bridge does to it."""

from typing import Literal

import msgspec

from geometry.job.sides import Side
from geometry.layout.record import XY, Record
from geometry.layout.strings_to_bridge import Hole


class Metal(Record, frozen=True):
    """Metal in the wood and the circle to keep out of."""

    name: str
    at: XY
    keep_out: float


class BraceLine(Record, frozen=True):
    """A brace under the top: its middle line and its width."""

    name: str
    line: tuple[XY, ...]
    width: float


class OldArea(Record, frozen=True):
    """A part of the top that is discoloured or damaged, closed."""

    name: str
    outline: tuple[XY, ...]
    what: str


ScarAt = Literal["front", "back", "left wing", "right wing"]
"""The sides of a bridge, as those that a scar shows on."""


class OldPlan(Record, frozen=True):
    """What is left of the old work, outside and under the top. `bare` is the wood without finish, `slot` where the old
    saddle's went into the top; outlines are closed, and empty where a point of them is not placed. `scar` are the parts
    of the old footprint that stay uncovered, each closed; `scar_widths` maps the side of the bridge it shows on (front,
    back, left wing, right wing) to its most width.
    """

    outline: tuple[XY, ...] = ()
    pins: tuple[Hole, ...] = ()
    metal: tuple[Metal, ...] = ()
    holes: tuple[Hole, ...] = ()
    slot: tuple[XY, ...] = ()
    bare: tuple[XY, ...] = ()
    areas: tuple[OldArea, ...] = ()
    plate: tuple[XY, ...] = ()
    braces: tuple[BraceLine, ...] = ()
    scar: tuple[tuple[XY, ...], ...] = ()
    scar_widths: dict[ScarAt, float] = msgspec.field(default_factory=dict)


class Amount(Record, frozen=True):
    """A worked-out amount with its ±: mm, mm² or radians, as it says where it stands."""

    value: float
    pm95: float


class ScarSide(Record, frozen=True):
    """How wide the old footprint shows on one side of the bridge, at most, mm, and where."""

    side: ScarAt
    widest: Amount
    at: XY


class Bared(Record, frozen=True):
    """How much of a discoloured or damaged area the new bridge leaves uncovered, mm²."""

    name: str
    area: Amount


class Gap(Record, frozen=True):
    """The wood between something new (`pin:3`, `slot`) and something old (`point:pin.1`, `old slot`, `brace:1`,
    `plate`, `metal:metal.1`), mm; less than 0 is how far the one runs into the other. To metal it is up to the spot
    itself; against the plate it is how far the new lies inside its edge. The two places are those nearest to each
    other.
    """

    new: str
    old: str
    mm: float
    pm95: float
    new_xy: XY
    old_xy: XY


class HoleFate(Record, frozen=True):
    """What becomes of an old hole (`kind` pin, hole, or slot) on the top. `inside`: how far the whole of it lies within
    the new bridge's edge, mm; `under` follows from it: covered, opened (partly under) or bare. `walls` are those to
    each new pin hole and to the slot, the thinnest first; `cut_by` names what runs into it, `used_by` the new pin hole
    that takes all of it away. `plug` is the diameter of the plug it needs, mm; None: none, or too wide for one.
    `off_top`: it surely lies outside the body.
    """

    hole: str
    kind: Literal["pin", "hole", "slot"]
    under: Literal["covered", "opened", "bare"]
    inside: Amount
    walls: tuple[Gap, ...] = ()
    cut_by: tuple[str, ...] = ()
    used_by: str = ""
    plug: float | None = None
    assumed: bool = False
    off_top: bool = False


class Plugs(Record, frozen=True):
    """Plugs of one size, mm, how their grain runs (`face`: along the top's; `end`: a dowel), and their holes."""

    diameter: float
    grain: Literal["face", "end"]
    holes: tuple[str, ...]


class WingTip(Record, frozen=True):
    """From a wing's tip to the body's edge along the bridge, mm, by straight lines between the body's points."""

    side: Side
    to_edge: Amount
    tip_xy: XY
    edge_xy: XY


class SeenAgainst(Record, frozen=True):
    """How the bridge stands to an eye that compares it with the seam, or with the body's own middle line: `turn` out of
    square to it (radians, counter-clockwise), `offset` of the bridge's middle to the left of it (mm).
    """

    against: Literal["seam", "body"]
    turn: Amount
    offset: Amount


class FrontMoves(Record, frozen=True):
    """How far the bridge's front edge lies behind the old footprint's, at this one's `left` and `right` corners, and
    how far the middle between these ends lies to the left of where it was (`across`), mm.
    """

    left: Amount
    right: Amount
    across: Amount


class Consequences(Record, frozen=True):
    """What the new bridge does to the old work. Areas in mm²: `scar_area` of the old footprint stays uncovered,
    `finish_clear` is to be cleared under the new bridge, `finish_save` of the bare wood stays beside it. `cover`: how
    far inside the bridge's edge that corner of the old footprint lies (mm) which is the least sure to be covered.
    `moves`: how far its front edge moves from the footprint's.
    `footprint_pm95`: the ± of its corners against the bridge, front to back and along the bridge, the greatest (mm).
    `unseen`: the readings, by id, that hold an old hole, metal, a brace or the plate (as a gap calls it), and whose
    gross error would not show.
    """

    cover: Amount | None = None
    moves: FrontMoves | None = None
    footprint_pm95: XY = (0.0, 0.0)
    scar_area: Amount | None = None
    scar_sides: tuple[ScarSide, ...] = ()
    finish_clear: Amount | None = None
    finish_save: Amount | None = None
    areas: tuple[Bared, ...] = ()
    holes: tuple[HoleFate, ...] = ()
    plugs: tuple[Plugs, ...] = ()
    gaps: tuple[Gap, ...] = ()
    wings: tuple[WingTip, ...] = ()
    seen: tuple[SeenAgainst, ...] = ()
    unseen: dict[str, tuple[str, ...]] = msgspec.field(default_factory=dict)


class Covering(Record, frozen=True):
    """The smallest outline of the bridge's family that covers the old footprint with its ± (`margin`: front to back,
    and along the bridge, mm), beside the bridge as it is. `length` and `width` are its sizes, `front` is how far its
    front edge lies nearer to the nut (the slot stays where it is), all mm; `grown` are the sides that grew. `area` is
    its own, of which it leaves `uncovered`; `usual_area` and `usual_uncovered` those of the bridge as it is (mm²).
    `volume` (mm³) and `weight` (g) are what it costs more, as a slab of the bridge's thickness; None while that is not
    known.
    """

    length: float
    width: float
    front: float
    margin: XY
    grown: tuple[str, ...]
    area: float
    usual_area: float
    uncovered: float
    usual_uncovered: float
    volume: float | None = None
    weight: float | None = None
