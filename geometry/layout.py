"""The **Layout**: all that is worked out of a job, in the neck frame (mm; +x to the tail, +y to the left).

A block is None where its readings or its inputs are still missing; the findings then say what is missing.
`pm95` is the half-width of the 95 % interval in mm, `cents95` the same in cents at the twelfth fret.
"""

from typing import Literal

import msgspec

from geometry.findings import Finding
from geometry.job.sides import Side

BOARD_CORNERS = ("nut.left", "nut.right", "end.left", "end.right")
"""The names of the points at the board's four corners."""
TWO_SIDED_95 = 1.959963984540054
"""Standard deviations in a `pm95`: the normal distribution's 97.5 % point (Abramowitz & Stegun 1964, table 26.1 gives
1.960).
"""
XY = tuple[float, float]
Vertex = tuple[float, float, float]
"""x, y and the bulge of the piece that follows: tan(sweep / 4), positive counter-clockwise."""
Verdict = Literal["loose", "either side", "swapped", "one of these", "misread", "unchecked", "coarse", "clean"]
LINES = ("edge:left", "edge:right", "neck", "seam", "saddle")
"""The straight lines of an instrument, as a mark's `of` names them."""
Where = Literal["nut", "fret 12", "board end"]
"""Where along the board a margin is told with its ±."""
PLACES: dict[Where, str] = {"nut": "nut", "fret 12": "fret12", "board end": "end"}
"""What a check's code, as a point's name, calls these places."""


class Record(msgspec.Struct, frozen=True, kw_only=True):
    """What all records of the layout share: frozen, by keyword."""


class PlacedPoint(Record, frozen=True):
    """A point with its standard deviations and covariance (mm, mm²); `checked`: a gross error in it would show."""

    x: float
    y: float
    sx: float
    sy: float
    sxy: float
    checked: bool


class Fit(Record, frozen=True):
    """How one reading fits: `residual` = adjusted − read. `w` and `smallest_error` (the least gross error that
    would show) are None where nothing checks it. `believable` is the ± (mm) that its bar is drawn against.
    `component` is x or y for a placed point (`at`) and `nominal`, `span` for kinds that give two numbers.
    """

    id: str
    value: float
    adjusted: float
    residual: float
    sigma: float
    redundancy: float
    w: float | None
    believable: float
    smallest_error: float | None = None
    component: str = ""


class Loose(Record, frozen=True):
    """A point that the readings do not hold: the direction it can move in (unit vector; None where it is free to move
    any way, or its readings contradict each other), and a reading that would hold it.
    """

    point: str
    direction: XY | None
    held_by: str


class Survey(Record, frozen=True):
    """What the readings as a whole say. `why` is the verdict in one or two sentences; `groups` are readings of
    which one is wrong though none can be named; `zero_errors` maps a laying to its solved zero error (mm).
    `coarse`: how many times more coarsely than said the readings were read, where that is beyond chance; every ± is as
    many times as wide. `diameters` maps a hole's point to its measured diameter, `elsewhere` a point that may lie on
    either side to its other place (the first is in the layout's `rough`).
    """

    verdict: Verdict
    why: str
    suspects: tuple[str, ...] = ()
    groups: tuple[tuple[str, ...], ...] = ()
    dof: int = 0
    vtpv: float = 0.0
    loose: tuple[Loose, ...] = ()
    zero_errors: dict[str, float] = {}
    coarse: float = 1.0
    diameters: dict[str, float] = {}
    elsewhere: dict[str, XY] = {}


def accused(survey: Survey) -> frozenset[str]:
    """The readings that do not go with the others, named or in a group."""
    return frozenset(survey.suspects).union(*survey.groups)


class Ray(Record, frozen=True):
    """A straight line: a point on it and its direction (unit vector), running toward the tail."""

    at: XY
    direction: XY

    def at_x(self, x: float) -> XY:
        """Where it stands at a place along the neck."""
        return x, self.at[1] + (x - self.at[0]) * self.direction[1] / self.direction[0]


class Neck(Record, frozen=True):
    """The edge lines, the nut's front and the board's end, in the neck frame (the neck centre line is y = 0).

    Corners at [left, right]. `seam` is None where no two points of it were read.
    """

    left_edge: Ray
    right_edge: Ray
    nut: tuple[XY, XY]
    end: tuple[XY, XY] | None
    seam: Ray | None = None


class FretLine(Record, frozen=True):
    """One fret, drawn from edge to edge; `fret` 0 is the nut or zero fret."""

    fret: int
    left: XY
    right: XY


class Nominal(Record, frozen=True):
    """The nominal places along the left and right outer string paths, from the nut's front."""

    left: float
    right: float
    left_pm95: float
    right_pm95: float


class FretPlan(Record, frozen=True):
    """The fret spacing that fits. `scale` is the mean of both sides; `nut_shift` how far the nut stands too near (+).

    `slant` is how much farther the nominal place lies at left (+) than at right. Both carry their ±.
    `open_cents` is what the open string pays against its fretted notes at [left, right] for a nut that was moved.
    `other` is the nominal place by the rule not chosen (octave or best), where it differs.
    """

    spacing: str
    scale: float
    scale_pm95: float
    nut_shift: float
    nominal: Nominal
    lines: tuple[FretLine, ...]
    nut_shift_pm95: float = 0.0
    slant: float = 0.0
    slant_pm95: float = 0.0
    open_cents: tuple[float, float] = (0.0, 0.0)
    other: Nominal | None = None


class Margin(Record, frozen=True):
    """From the outer string on a side to the board's edge at a place, with its ±; less than 0 is beyond the edge.
    `string_xy` and `edge_xy` are its two ends. `checked`: a gross error in a reading that holds it would show.
    """

    place: Where
    side: Side
    mm: float
    pm95: float
    string_xy: XY
    edge_xy: XY
    checked: bool = True


class Margins(Record, frozen=True):
    """From the outer strings to the board's edges at the nut and at each fret in turn, mm, along the edge lines; and
    `at` the nut, fret 12 and the board's end with their ±, to the points that were read there.
    """

    left: tuple[float, ...]
    right: tuple[float, ...]
    at: tuple[Margin, ...] = ()


class StringPlan(Record, frozen=True):
    """One string from nut to break point. `cents` maps a fret to what stays out of tune there, in cents.

    `nut_xy` is where it leaves the nut: on the nut's front, or `nut_compensation` behind it (before it, if negative);
    `end` where it ends in the bridge. `compensation_from`: "typed", "worked out", "by ear" or "common practice".
    `tension_n` and `cents` are empty where the string's make is not known. `compensation_pm95` is in mm. `peak` is
    where the saddle peaks under the string, from 0 (front) to 1 (back of its thickness). `estimated` names what of it
    was not known.
    """

    name: str
    course: int
    diameter: float | None
    nut_xy: XY
    break_point: XY
    end: XY
    length: float
    nominal: float
    compensation: float
    nut_compensation: float
    compensation_from: str
    compensation_pm95: float = 0.0
    tension_n: float | None = None
    cents: dict[int, float] = {}
    cents_before: dict[int, float] = {}
    peak: float = 0.5
    estimated: tuple[str, ...] = ()


Source = Literal["board", "frets", "strings"]
"""Where a part of the saddle's ± comes from."""


class Contribution(Record, frozen=True):
    """What one link of the chain that leads to the saddle contributes to its variance, at [left, right]: its `share` of
    the whole, and the ± of the saddle as it would be by this link and those before it, all else being exact. There
    is no chain while accused readings widen the saddle's ±.
    """

    source: Source
    share: XY
    pm95: XY


class SaddlePlan(Record, frozen=True):
    """The saddle line where it belongs, and the slot as it will be cut or as it is.

    `line` is the saddle line over the slot's length, left end first; `at_strings` its two points at the outer strings.
    `front` is the slot's front edge, `slot` its four corners counter-clockwise from the front left. `slant` is how much
    farther the longer side stands at the outer strings, along the neck centre line. `left_over` says for a slot that
    cannot follow the line how far it stands behind (+) or in front at [left, right], and in cents. `opposite` is the
    line at the outer strings if bass and treble were exchanged on these frets, left end first: to lay over and compare.
    `waits_for`: the accused readings that it hangs on; it is not settled until they are read again; its ± is then wider
    than what the `chain` tells.
    """

    line: tuple[XY, XY]
    at_strings: tuple[XY, XY]
    opposite: tuple[XY, XY]
    front: tuple[XY, XY]
    slot: tuple[XY, XY, XY, XY]
    slant: float
    slant_pm95: float
    longer: Literal["bass", "treble", "neither"]
    pm95: tuple[float, float]
    cents95: tuple[float, float]
    checked: bool
    waits_for: tuple[str, ...] = ()
    chain: tuple[Contribution, ...] = ()
    left_over: tuple[float, float] = (0.0, 0.0)
    left_over_cents: tuple[float, float] = (0.0, 0.0)


class Hole(Record, frozen=True):
    """A round hole: its name, centre and diameter. `assumed`: nobody read it, it stands evenly between two others."""

    name: str
    at: XY
    diameter: float
    assumed: bool = False


class BridgePlan(Record, frozen=True):
    """The bridge as seated. `outline` is closed and runs counter-clockwise; `corners` are front left, front right,
    back right, back left of the wings. `turn` is its angle to square (radians, counter-clockwise).
    `wood` holds the least wood in mm: "front", "between", "behind", and "holes" from one pin hole to the next;
    `wood_at` the strings at whose holes that is, for the places where not most of them are alike. `corners_pm95` and
    `pins_pm95` are the ± of each corner and of each pin hole's centre: along the neck, and across it from the middle
    between the edge lines carried on; `across_checked`: a gross error would show across it.
    """

    outline: tuple[Vertex, ...]
    corners: tuple[XY, XY, XY, XY]
    pins: tuple[Hole, ...]
    turn: float
    front_pm95: tuple[float, float]
    wood: dict[str, float] = {}
    wood_at: dict[str, tuple[str, ...]] = {}
    corners_pm95: tuple[XY, ...] = ()
    pins_pm95: tuple[XY, ...] = ()
    across_checked: bool = True


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
    scar_widths: dict[str, float] = {}


class Amount(Record, frozen=True):
    """A worked-out amount with its ±: mm, mm² or radians, as it says where it stands."""

    value: float
    pm95: float


class ScarSide(Record, frozen=True):
    """How wide the old footprint shows on one side of the bridge (front, back, left wing, right wing), at most, mm, and
    where.
    """

    side: str
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


class Consequences(Record, frozen=True):
    """What the new bridge does to the old work. Areas in mm²: `scar_area` of the old footprint stays uncovered,
    `finish_clear` is to be cleared under the new bridge, `finish_save` of the bare wood stays beside it. `cover`: how
    far inside the bridge's edge that corner of the old footprint lies (mm) which is the least sure to be covered.
    `moves`: how far the middle of what the bridge covers lies from the footprint's, toward the tail and to the left.
    `footprint_pm95`: the ± of its corners against the bridge, front to back and along the bridge, the greatest (mm).
    """

    cover: Amount | None = None
    moves: tuple[Amount, Amount] | None = None
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


class Marker(Record, frozen=True):
    """A marker dot between two frets: before which `fret`, where, and how far `along` the board's edge from the nut's
    corner it lies for a side marker, or along the neck for one in the face; with the ± of that.
    """

    fret: int
    at: XY
    along: float
    pm95: float
    diameter: float


class OtherHolePlan(Record, frozen=True):
    """A hole anywhere: its place in words, and on the plan where it was measured."""

    where: str
    at: XY | None
    diameter: float
    depth: float | None


class Post(Record, frozen=True):
    """A new tuner post: which string's, where with its ± (along and across the headstock), its holes. `again`: the old
    hole that it is drilled through. `nearest_old` names the nearest other old hole, `wall` the wood to it, `edge` and
    `slot` the wood to the headstock's edge and to a slot's wall, all with their ± (mm; None where there is none).
    `turns` is the angle (degrees) that the string makes sideways at the nut, + to the left, and `clear` how far it
    passes the nearest other post's hole, mm, where strings are known.
    """

    string: str
    side: Side
    at: XY
    pm95: XY
    diameter: float
    bushing: float | None
    again: str = ""
    nearest_old: str = ""
    wall: XY | None = None
    edge: XY | None = None
    slot: XY | None = None
    turns: float | None = None
    clear: float | None = None


class Plug(Record, frozen=True):
    """A plug that a hole needs: which hole, how wide it is and the plug, what must wait for it (names of strings)."""

    hole: str
    at: XY
    diameter: float
    plug: float
    before: tuple[str, ...] = ()


class Fitting(Record, frozen=True):
    """The new posts fitted one way, by what is kept (`keep`): how many old holes are drilled through `again`, how many
    `plugs` are needed, the least `wall` to an old hole with its ±, and the most that a string `turns` at the nut.
    """

    keep: str
    again: int
    plugs: int
    wall: XY | None = None
    turns: float | None = None


class HeadstockPlan(Record, frozen=True):
    """The headstock as found, and what goes on it. `askew`: by how much (degrees) the line from a post to the one
    across stands out of square to the middle line, at worst. `plates` are closed, `screws` new holes for them.
    `fittings`: the same posts fitted in each way there is.
    """

    outline: tuple[XY, ...]
    slots: tuple[tuple[XY, ...], ...]
    middle: Ray
    old_posts: tuple[Hole, ...]
    old_screws: tuple[Hole, ...]
    posts: tuple[Post, ...] = ()
    plates: tuple[tuple[XY, ...], ...] = ()
    screws: tuple[XY, ...] = ()
    plugs: tuple[Plug, ...] = ()
    askew: float | None = None
    fittings: tuple[Fitting, ...] = ()


class HardwarePlan(Record, frozen=True):
    """The rest of the instrument. `edge` is the board's real edge on the side of the side markers, from the nut's
    corner on.
    """

    side: tuple[Marker, ...] = ()
    face: tuple[Marker, ...] = ()
    edge: tuple[XY, ...] = ()
    headstock: HeadstockPlan | None = None
    holes: tuple[OtherHolePlan, ...] = ()


class Check(Record, frozen=True):
    """A distance to check with a rule before the glue: between two places that are really there.

    `from_` and `to` are words for the person ("board end, bass", "bridge front, bass edge"); `code` never changes.
    """

    code: str
    from_: str = msgspec.field(name="from")
    to: str
    from_xy: XY
    to_xy: XY
    distance: float
    pm95: float


class Layout(Record, frozen=True):
    """All that is worked out. `frame` is "neck", or "straightedge" as long as no neck can be found.

    `rough` holds start places of points that are loose or still to be measured, for drawing only.
    """

    frame: Literal["neck", "straightedge"]
    points: dict[str, PlacedPoint]
    readings: tuple[Fit, ...]
    survey: Survey
    rough: dict[str, XY] = {}
    neck: Neck | None = None
    frets: FretPlan | None = None
    margins: Margins | None = None
    strings: tuple[StringPlan, ...] = ()
    saddle: SaddlePlan | None = None
    bridge: BridgePlan | None = None
    old: OldPlan = OldPlan()
    consequences: Consequences | None = None
    covering: Covering | None = None
    hardware: HardwarePlan = HardwarePlan()
    checks: tuple[Check, ...] = ()
    findings: tuple[Finding, ...] = ()


def leans_opposite(layout: Layout) -> bool:
    """Whether it is the slot, as it is cut, that leans the other way than the strings want."""
    return any(finding.code == "slot.leans" for finding in layout.findings)


def leans_wrong(layout: Layout) -> bool:
    """Whether a slot or a saddle leans the wrong way for the hand."""
    stops = {finding.code for finding in layout.findings if finding.grade == "stop"}
    return not stops.isdisjoint(("slot.leans", "saddle.leans"))
