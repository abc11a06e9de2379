"""A layout built by hand: a right-handed six-string whose seam is canted, with an old footprint, holes and metal; and
the same board, top and old work under strings for the left hand.

All figures are made up and consistent with each other; nothing here is worked out by the geometry package.
"""

import datetime
import math

import msgspec
import pytest

from export.paper.lay_sheets import Stamp
from geometry.findings import Finding
from geometry.job import (
    Board,
    Bridge,
    FaceMarkers,
    Hardware,
    Headstock,
    Job,
    Markers,
    Nut,
    Old,
    OldMetal,
    OldPin,
    Pins,
    Point,
    Reading,
    Saddle,
    SideMarkers,
    Strings,
    Tuners,
)
from geometry.job.sides import Side
from geometry.job.stringing import String
from geometry.layout import (
    XY,
    Bore,
    BridgePlan,
    BySheet,
    Check,
    Fit,
    FretLine,
    FretPlan,
    HardwarePlan,
    HeadSide,
    HeadstockPlan,
    Hole,
    Layout,
    Marker,
    Metal,
    Neck,
    Nominal,
    NutBlank,
    NutSlot,
    OldPlan,
    PlacedPoint,
    Plug,
    Post,
    Ray,
    SaddleBlank,
    SaddlePlan,
    SaddleString,
    StringPlan,
    Survey,
    TieHole,
    TiePlan,
    Vertex,
    Why,
)

SCALE = 643.0
HEAD = {"head.1": (-8.0, 24.0), "head.2": (-8.0, -24.0), "head.3": (-170.0, -36.0), "head.4": (-170.0, 36.0)}
MARKED = (3, 5, 7, 9, 12)
NUT_HALF, END_HALF = 21.6, 28.2
END_LEFT, END_RIGHT = (451.4, END_HALF), (450.6, -END_HALF - 0.05)
GAUGES = (0.30, 0.41, 0.61, 0.81, 1.07, 1.35)
OLD = {"old.1": (629.5, 76.5), "old.2": (634.0, -74.0), "old.3": (660.0, -73.4), "old.4": (655.5, 77.1)}
SEAM = {"seam.1": (588.0, 5.1), "seam.2": (798.0, 10.6)}


def edge(x: float, side: float) -> XY:
    """A place on the left (+1) or right (-1) edge line."""
    return x, side * (NUT_HALF + (END_HALF - NUT_HALF) * x / 451.0)


def direction(a: XY, b: XY) -> XY:
    """The unit vector from a to b."""
    d = math.dist(a, b)
    return (b[0] - a[0]) / d, (b[1] - a[1]) / d


def fret_x(fret: int) -> float:
    """Equal tempered: scale (1 - 2^(-n/12))."""
    return SCALE * (1 - 2 ** (-fret / 12))


def strings() -> tuple[StringPlan, ...]:
    """Six strings from treble (left) to bass, spread 36 at the nut and 55 at the saddle."""
    made = []
    for i, gauge in enumerate(GAUGES):
        share = i / 5
        nut, far = (0.0, 18.0 - 36.0 * share), 27.5 - 55.0 * share
        comp = 1.8 + 2.8 * share
        at = (SCALE + comp, far)
        made.append(
            StringPlan(
                name=str(i + 1),
                course=i + 1,
                diameter=gauge,
                nut_xy=nut,
                break_point=at,
                end=at,
                length=math.dist(nut, at),
                nominal=SCALE,
                compensation=comp,
                nut_compensation=0.0,
                compensation_from="common practice",
                compensation_pm95=0.5,
                tension_n=75.0,
                cents={12: 0.4 - 0.1 * i},
            )
        )
    return tuple(made)


def saddle() -> SaddlePlan:
    """A slot 76 long and 3 wide, square ends, along the line through the outer break points."""
    left, right = (644.8, 27.5), (647.6, -27.5)
    along = direction(left, right)
    ahead = (along[1], -along[0])  # square to the slot, toward the nut
    middle = ((left[0] + right[0]) / 2, 0.0)
    ends = [(middle[0] + s * 38 * along[0], middle[1] + s * 38 * along[1]) for s in (-1, 1)]
    front = [(x + 1.5 * ahead[0], y + 1.5 * ahead[1]) for x, y in ends]
    back = [(x - 1.5 * ahead[0], y - 1.5 * ahead[1]) for x, y in ends]
    return SaddlePlan(
        line=(ends[0], ends[1]),
        at_strings=(left, right),
        from_nut=(left[0], right[0]),
        opposite=((right[0], left[1]), (left[0], right[1])),
        front=(front[0], front[1]),
        slot=(front[0], front[1], back[1], back[0]),
        slant=2.8,
        slant_pm95=0.3,
        longer="bass",
        pm95=(0.6, 0.7),
        cents95=(1.6, 1.9),
        checked=True,
        by_sheet=BySheet(pm95=(0.6, 0.7), checked=True),
    )


def saddle_blank() -> SaddleBlank:
    """The same saddle by itself, 9 mm high at the outer strings and a millimetre more in its middle."""
    along = [10.5 + 11.0 * i for i in range(6)]
    middle, half = 38.0, 27.5

    def high(x: float) -> float:
        return 10.0 - ((x - middle) / half) ** 2

    return SaddleBlank(
        length=76.0,
        thickness=3.0,
        strings=tuple(
            SaddleString(
                string=str(i + 1),
                along=76.0 - x,
                over_top=(high(x) + 4.0, 0.3),
                over_bridge=(high(x) - 6.0, 0.4),
                whole=(high(x), 0.5),
                degrees=(25.0, 3.0),
                press=32.5,
            )
            for i, x in enumerate(along)
        ),
        profile=tuple((x, high(x)) for x in sorted({*along, *(2.0 * n for n in range(39))})),
        floor="slot",
        radius=(380.0, 20.0),
        crown=(1.0, 0.1),
        wood=((3.5, 0.4), (3.5, 0.4)),
    )


def nut_blank() -> NutBlank:
    """The nut under the same strings, 5 mm over its bed, its frets 1 mm high."""
    return NutBlank(
        length=(2 * NUT_HALF, 0.2),
        turn=0.0,
        thickness=5.0,
        back_angle=math.radians(8.0),
        slots=tuple(
            NutSlot(
                string=str(i + 1),
                along=(NUT_HALF + 18.0 - 7.2 * i, 0.1),
                width=gauge + 0.1,
                over_board=(1.3, 0.15),
                over_bed=(6.3, 0.25),
                deep=(1.7, 0.25),
                edge=3.0,
            )
            for i, gauge in enumerate(GAUGES)
        ),
        face=tuple((NUT_HALF * n / 8, 5.0) for n in range(17)),
        height=8.0,
    )


def belly_outline(front: float, half: float, width: float, depth: float) -> tuple[Vertex, ...]:
    """A rectangle whose back bows out by `depth` over its middle 70 mm, in three arcs tangent to each other."""
    back, reach, flank = front + width, 62.0, 22.0
    sweep = 2 * math.atan(depth / reach)
    return (
        (front, half, 0.0),
        (front, -half, 0.0),
        (back, -half, 0.0),
        (back, -reach, -math.tan(sweep / 4)),
        (back + depth * flank / reach, -reach + flank, math.tan(sweep / 2)),
        (back + depth * flank / reach, reach - flank, -math.tan(sweep / 4)),
        (back, reach, 0.0),
        (back, half, 0.0),
    )


def bridge() -> BridgePlan:
    """A belly bridge, 152 by 26, square to the neck centre line, six pins in a row with the slot."""
    front = 637.4
    pins = tuple(Hole(name=str(i + 1), at=(653.0 + 2.8 * i / 5, 26.5 - 53 * i / 5), diameter=5.0) for i in range(6))
    return BridgePlan(
        outline=belly_outline(front, 76.0, 26.0, 9.0),
        corners=((front, 76.0), (front, -76.0), (front + 26, -76.0), (front + 26, 76.0)),
        pins=pins,
        turn=0.0,
        front_pm95=(0.6, 0.7),
        wood={"front": 5.2, "between": 4.1, "behind": 6.0},
    )


def old_pin(i: int) -> XY:
    """Where the old pin holes are."""
    return 649.6 + 2.8 * i / 5, 27.5 - 53 * i / 5


def checks() -> tuple[Check, ...]:
    """The distances along both edges from the board's end to the bridge's front, and from fret 12 to the slot."""
    made = []
    for side, name, corner in ((1.0, "treble", END_LEFT), (-1.0, "bass", END_RIGHT)):
        for code, start, stop, words in (
            ("end.bridge", corner, edge(637.4, side), ("board end", "bridge front")),
            (
                "fret12.slot",
                edge(fret_x(12), side),
                edge(644.0 if side > 0 else 646.4, side),
                ("fret 12", "slot front"),
            ),
        ):
            made.append(
                Check(
                    code=f"{code}.{name}",
                    from_=f"{words[0]}, {name} edge",
                    to=f"{words[1]}, {name} edge",
                    from_xy=start,
                    to_xy=stop,
                    distance=math.dist(start, stop),
                    pm95=0.4,
                )
            )
    return tuple(made)


def placed(at: XY, checked: bool = True, s: float = 0.25) -> PlacedPoint:
    """A point known to 0.25 mm."""
    return PlacedPoint(x=at[0], y=at[1], sx=s, sy=s, sxy=0.0, checked=checked)


def points() -> dict[str, PlacedPoint]:
    """The points that were measured."""
    return {
        "nut.left": placed((0.0, NUT_HALF)),
        "nut.right": placed((0.0, -NUT_HALF)),
        "end.left": placed(END_LEFT),
        "end.right": placed(END_RIGHT),
        **{name: placed(at, name == "seam.1", 0.4) for name, at in SEAM.items()},
        **{name: placed(at, True, 0.4) for name, at in OLD.items()},
        **{f"pin.{i + 1}": placed(old_pin(i)) for i in range(6)},
        "metal.1": placed((650.0, -58.0)),
    }


def layout() -> Layout:
    """The whole of it."""
    left, right = (
        Ray(at=(0.0, NUT_HALF), direction=direction((0.0, NUT_HALF), edge(451.0, 1))),
        Ray(at=(0.0, -NUT_HALF), direction=direction((0.0, -NUT_HALF), edge(451.0, -1))),
    )
    pins = tuple(Hole(name=f"pin.{i + 1}", at=old_pin(i), diameter=5.2) for i in range(6))
    scar = ((629.5, 76.5), (634.0, -74.0), (637.4, -74.0), (637.4, 76.5))
    return Layout(
        frame="neck",
        points=points(),
        readings=(
            Fit(id="r1", value=43.2, adjusted=43.25, residual=0.05, sigma=0.2, redundancy=0.4, w=0.4, believable=0.4),
            Fit(
                id="r2", value=643.2, adjusted=640.1, residual=-3.1, sigma=0.3, redundancy=0.5, w=-14.6, believable=0.6
            ),
        ),
        hardware=markers(),
        survey=Survey(
            verdict="misread", why=Why(what="Reading r2 is 3.1 mm more than the others allow"), suspects=("r2",), dof=4
        ),
        neck=Neck(
            left_edge=left,
            right_edge=right,
            nut=((0.0, NUT_HALF), (0.0, -NUT_HALF)),
            end=(END_LEFT, END_RIGHT),
            seam=Ray(at=SEAM["seam.1"], direction=direction(SEAM["seam.1"], SEAM["seam.2"])),
        ),
        frets=FretPlan(
            spacing="equal",
            scale=SCALE,
            scale_pm95=0.6,
            nut_shift=0.0,
            nominal=Nominal(left=SCALE, right=SCALE, left_pm95=0.6, right_pm95=0.6),
            lines=tuple(FretLine(fret=n, left=edge(fret_x(n), 1), right=edge(fret_x(n), -1)) for n in range(21)),
        ),
        strings=strings(),
        saddle=saddle(),
        bridge=bridge(),
        saddle_blank=saddle_blank(),
        nut_blank=nut_blank(),
        old=OldPlan(
            outline=tuple(OLD.values()),
            pins=pins,
            metal=(Metal(name="metal.1", at=(650.0, -58.0), keep_out=6.0),),
            scar=(scar,),
            scar_widths={"front": 7.9},
        ),
        checks=checks(),
        findings=(
            Finding(grade="look", code="reading.misread", text="Reading r2 is 3.1 mm out.", where="reading:r2"),
            Finding(grade="good", code="saddle.placed", text="The saddle is placed to ±0.7 mm.", where="saddle"),
        ),
    )


def job() -> Job:
    """The job the layout belongs to."""
    return Job(
        title="Job 27, bridge reset",
        board=Board(),
        points={name: Point() for name in (*points(), *HEAD)},
        readings=(
            Reading(id="r1", kind="distance", of=("nut.left", "nut.right"), value=43.2, with_="caliper 0.1"),
            Reading(id="r2", kind="distance", of=("nut.right", "old.2"), value="643.2 mm", with_="rule 0.5"),
            Reading(id="r3", kind="off", of=("seam.1",), from_=("nut.right", "end.right"), side="left", value=31.5),
        ),
        strings=Strings(list=tuple(String(name=str(i + 1), diameter=d) for i, d in enumerate(GAUGES))),
        nut=Nut(height=8.0, bed=5.0, fret_height=1.0),
        saddle=Saddle(slot_length=76.0),
        bridge=Bridge(pins=Pins()),
        old=Old(
            outline=tuple(OLD),
            pins={f"pin.{i + 1}": OldPin(diameter=5.2) for i in range(6)},
            metal={"metal.1": OldMetal(keep_out=6.0)},
        ),
        hardware=Hardware(
            headstock=Headstock(outline=tuple(HEAD)),
            tuners=Tuners(bushing=9.5),
            markers=Markers(side=SideMarkers(frets=MARKED), face=FaceMarkers(frets=MARKED)),
        ),
    )


def markers() -> HardwarePlan:
    """Dots before the marked frets: half the sum of two frets' places, two at the twelfth."""
    middles = [(fret, (fret_x(fret - 1) + fret_x(fret)) / 2) for fret in MARKED]
    along = [(fret, x + off) for fret, x in middles for off in ((-3.0, 3.0) if fret == 12 else (0.0,))]
    across = [(fret, (x, y)) for fret, x in middles for y in ((11.0, -11.0) if fret == 12 else (0.0,))]
    return HardwarePlan(
        side=tuple(Marker(fret=fret, at=edge(x, -1), along=x, pm95=0.4, diameter=1.5875) for fret, x in along),
        face=tuple(Marker(fret=fret, at=at, along=at[0], pm95=0.4, diameter=6.0) for fret, at in across),
        edge=((0.0, -NUT_HALF), END_RIGHT),
        headstock=headstock(),
    )


def headstock() -> HeadstockPlan:
    """Three posts a side, 35 mm apart, beside two old holes on the left, of which the second is drilled through."""
    posts = [(string, -50.0 - 35.0 * (at % 3), 23.0 if at < 3 else -23.0) for at, string in enumerate("123654")]
    return HeadstockPlan(
        outline=tuple(HEAD.values()),
        slots=(),
        middle=Ray(at=(0.0, 0.0), direction=(1.0, 0.0)),
        old_posts=tuple(Hole(name=f"post.{n}", at=(-5.0 - 40.0 * n, 23.0), diameter=8.0) for n in (1, 2)),
        old_screws=(),
        posts=tuple(
            Post(
                string=string,
                side="left" if y > 0 else "right",
                at=(x, y),
                pm95=(0.3, 0.2),
                diameter=6.35,
                bushing=9.5,
                again="post.2" if string == "2" else "",
            )
            for string, x, y in posts
        ),
        plugs=(Plug(hole="post.1", at=(-45.0, 23.0), diameter=8.0, plug=8.5, before=("1",)),),
        askew=0.0,
    )


def slotted(solid: Job, whole: Layout) -> tuple[Job, Layout]:
    """The same with a slotted headstock, 20 mm thick: its posts go into its sides, which taper 12 mm in 162."""
    plan, replace = headstock(), msgspec.structs.replace
    head = Headstock(outline=tuple(HEAD), thickness=20.0)
    made = replace(solid, hardware=replace(solid.hardware, headstock=head, tuners=Tuners(bushing=9.5, roller=10.0)))
    sides = (_side("left", ("head.1", "head.4"), 1.0), _side("right", ("head.2", "head.3"), -1.0))
    hardware = replace(whole.hardware, headstock=replace(plan, sides=sides))
    return made, replace(whole, hardware=hardware)


def _side(side: Side, corners: tuple[str, str], sign: float) -> HeadSide:
    def bore(hole: str, wide: float, x: float) -> Bore:
        out = sign * (24.0 + 12.0 * (-8.0 - x) / 162.0)
        along = (-8.0 - x) * math.hypot(162.0, 12.0) / 162.0
        return Bore(hole=hole, diameter=wide, axis=((x, out), (x, sign * 20.0)), along=(along, 0.4))

    return HeadSide(
        side=side,
        corners=corners,
        edge=(HEAD[corners[0]], HEAD[corners[1]]),
        bores=tuple(bore("", 9.5, -50.0 - 35.0 * at) for at in range(3)),
        old=tuple(bore(f"post.{n}", 8.0, -5.0 - 40.0 * n) for n in (1, 2)) if side == "left" else (),
    )


OF_OTHER_BRIDGES = ("bridge-place", "crown", "tailpiece", "saddle-bases", "saddle-bases-back")
"""Templates of bridges that are not glued: what is read back of theirs stands beside their own tests."""


def suited(name: str, solid: Job, whole: Layout) -> tuple[Job, Layout]:
    """The job and the layout for a template: the slotted ones where it is of a slotted headstock, with a tie block
    where it is of that.
    """
    if name == "headstock-sides":
        return slotted(solid, whole)
    return solid, tied(whole) if name == "tie-block" else whole


def tied(whole: Layout) -> Layout:
    """The layout with a tie block of one hole on its bridge."""
    hole = TieHole(string="1", front=(1.0, 0.0), back=(10.0, 0.0), up=4.0, across=0.0, diameter=1.8)
    corners = (1.0, 35.0), (1.0, -35.0), (10.0, -35.0), (10.0, 35.0)
    block = TiePlan(corners=corners, front_x=1.0, back_x=10.0, left=35.0, right=-35.0, height=8.0, holes=(hole,))
    assert whole.bridge is not None
    return msgspec.structs.replace(whole, bridge=msgspec.structs.replace(whole.bridge, tie=block))


def stamp() -> Stamp:
    """The stamp all the pages here carry."""
    return Stamp(date=datetime.date(2026, 11, 25), fingerprint="4F2A-91")


def left_handed(right: Layout) -> Layout:
    """The layout for the left hand: strings, saddle and pins mirrored, and what was measured where it was. The checks
    change their names only: the distances from fret 12 run to the slot's other end, and are given as if by another job.
    """
    assert right.saddle is not None
    assert right.bridge is not None
    replace = msgspec.structs.replace
    return replace(
        right,
        strings=tuple(
            replace(string, nut_xy=_over(string.nut_xy), break_point=_over(string.break_point), end=_over(string.end))
            for string in right.strings
        ),
        saddle=replace(
            right.saddle,
            line=_pair(right.saddle.line),
            at_strings=_pair(right.saddle.at_strings),
            from_nut=(right.saddle.from_nut[1], right.saddle.from_nut[0]),
            opposite=_pair(right.saddle.opposite),
            front=_pair(right.saddle.front),
            slot=(*_pair(right.saddle.slot[:2]), *_pair(right.saddle.slot[2:])),
            pm95=right.saddle.pm95[::-1],
            by_sheet=msgspec.structs.replace(right.saddle.by_sheet, pm95=right.saddle.by_sheet.pm95[::-1]),
            cents95=right.saddle.cents95[::-1],
        ),
        bridge=replace(right.bridge, pins=tuple(replace(pin, at=_over(pin.at)) for pin in right.bridge.pins)),
        checks=tuple(
            replace(
                check,
                code=_exchanged(check.code),
                from_=_exchanged(check.from_),
                to=_exchanged(check.to),
            )
            for check in right.checks
        ),
    )


def _over(at: XY) -> XY:
    return at[0], -at[1]


def _pair(ends: tuple[XY, ...]) -> tuple[XY, XY]:
    """Two mirrored places, the left one first as before."""
    first, second = ends
    return _over(second), _over(first)


def _exchanged(words: str) -> str:
    return words.replace("treble", "-").replace("bass", "treble").replace("-", "bass")


@pytest.fixture(name="left_job")
def _left_job() -> Job:
    return msgspec.structs.replace(job(), title="Job 28, bridge reset", hand="left")


@pytest.fixture(name="left_layout")
def _left_layout() -> Layout:
    return left_handed(layout())


@pytest.fixture(name="job")
def _job() -> Job:
    return job()


@pytest.fixture(name="layout")
def _layout() -> Layout:
    return layout()


@pytest.fixture(name="stamp")
def _stamp() -> Stamp:
    return stamp()
