"""Markers along the neck, against arithmetic done here: half the sum of two frets' places, as dividers find it."""

import math
from collections.abc import Callable

import pytest

from geometry.hardware.markers import along_edge
from geometry.job import FaceMarkers, Hardware, Headstock, Markers, NotAJob, OtherHole, Reading, SideMarkers
from geometry.layout import Layout
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, job, scales, six, surveyed
from tests.in_one import in_one

SCALE = 640.0


def laid_out(markers: Markers, points: dict[str, XY] = BOARD, hand: str = "right", **blocks: object) -> Layout:
    made = job(points, hand, strings=six(2.0, 2.0), hardware=Hardware(markers=markers), **blocks)
    return lay_out(made, surveyed(points, scales(SCALE, SCALE)))


def fret(k: int) -> float:
    """The equal tempered place of a fret along an outer string, from the nut (ISO 16: twelve equal steps to 2:1)."""
    return SCALE * (1 - 2 ** (-k / 12))


def codes(layout: Layout) -> dict[str, str]:
    return {finding.code: finding.grade for finding in layout.findings if finding.code.startswith("markers")}


@pytest.mark.parametrize("k", [1, 3, 5, 12])
def test_a_side_marker_stands_where_dividers_put_it(k: int) -> None:
    # derived: string and edge run at different angles, so the edge is met along the frets' own lines: on this board
    # their x is that of the strings' mean, and the edge leans 6 mm in 440
    (dot,) = laid_out(Markers(side=SideMarkers(frets=(k,), twice=()))).hardware.side
    middle = (fret(k - 1) + fret(k)) / 2
    lean = math.hypot(1, 6 / 440)
    shrink = 1 / math.hypot(1, 9 / SCALE)  # the outer strings part from 38 to 56 mm over the scale
    assert dot.at[0] == pytest.approx(middle * shrink, abs=2e-3)
    assert dot.along == pytest.approx(dot.at[0] * lean, abs=1e-6)
    assert dot.at[1] == pytest.approx(-(22 + dot.at[0] * 6 / 440), abs=1e-6)


@pytest.mark.parametrize(("hand", "side", "sign"), [("right", "bass", -1), ("right", "treble", 1), ("left", "bass", 1)])
def test_the_side_follows_the_hand(hand: str, side: str, sign: int) -> None:
    dots = laid_out(Markers(side=SideMarkers(side=side)), hand=hand).hardware.side  # type: ignore[arg-type]
    assert all(dot.at[1] * sign > 0 for dot in dots)


def test_two_at_a_fret_stand_evenly_about_its_middle() -> None:
    one = laid_out(Markers(side=SideMarkers(frets=(12,), twice=(), apart=6.0))).hardware.side
    two = laid_out(Markers(side=SideMarkers(frets=(12,), twice=(12,), apart=6.0))).hardware.side
    assert [dot.along - one[0].along for dot in two] == pytest.approx([-3.0, 3.0])


def test_on_a_bent_edge_the_way_is_measured_along_it() -> None:
    # derived: 3-4-5 triangles: out to (30, 40) is 50 long, on to (90, 120) another 100
    edge = ((0.0, 0.0), (30.0, 40.0), (90.0, 120.0), (150.0, 120.0))
    at, along = along_edge(edge, 60 + 0j, 1j)
    assert at == pytest.approx(60 + 80j)
    assert along == pytest.approx(100.0)
    at, along = along_edge(edge, 120 + 0j, 1j)
    assert at == pytest.approx(120 + 120j)
    assert along == pytest.approx(150.0 + 30.0)
    beyond, far = along_edge(edge, 170 + 0j, 1j)
    assert beyond == pytest.approx(170 + 120j)
    assert far == pytest.approx(150.0 + 80.0)


def test_the_real_edge_goes_through_all_points_read_on_it() -> None:
    points = BOARD | {"edge.right.1": (200.0, -25.5)}
    layout = laid_out(Markers(side=SideMarkers(frets=(5,), twice=())), points)
    assert [x for x, _ in layout.hardware.edge] == pytest.approx([0, 200, 440], abs=0.5)
    assert [y for _, y in layout.hardware.edge] == pytest.approx([-22, -25.5, -28], abs=0.5)
    (dot,) = layout.hardware.side
    on = -22 - dot.at[0] * 3.5 / 200
    assert dot.at[1] == pytest.approx(on, abs=0.5)


def test_face_markers_lie_on_the_middle_and_two_across() -> None:
    dots = laid_out(Markers(face=FaceMarkers(frets=(5, 12), twice=(12,), apart=20.0))).hardware.face
    five, one, other = dots
    assert five.at[1] == pytest.approx(0.0, abs=1e-6)
    assert one.at[1] - other.at[1] == pytest.approx(20.0)
    assert one.at[0] == pytest.approx(other.at[0])


def test_each_carries_its_own_width() -> None:
    # derived: with the scale known to 0.1 mm on each side, the middle before fret k follows both by its share. Where
    # the edge lies r times as far out as the outer string, it goes (1 + r) / 2 with its own side and (1 - r) / 2 with
    # the other: sqrt((1 + r²) / 2) as far as one; on the neck's middle, sqrt(1 / 2)
    frets = (3, 12)
    markers = Markers(side=SideMarkers(frets=frets, twice=()), face=FaceMarkers(frets=frets, twice=()))
    placed = laid_out(markers).hardware
    share = [((1 - 2 ** (-(k - 1) / 12)) + (1 - 2 ** (-k / 12))) / 2 for k in frets]
    out = [(22 + x * 6 / 440) / (19 + x * 9 / SCALE) for x in (SCALE * part for part in share)]
    edge = [1.96 * 0.1 * part * math.sqrt((1 + r * r) / 2) for part, r in zip(share, out, strict=True)]
    assert [dot.pm95 for dot in placed.side] == pytest.approx(edge, rel=0.005)
    middle = [1.96 * 0.1 * part * math.sqrt(0.5) for part in share]
    assert [dot.pm95 for dot in placed.face] == pytest.approx(middle, rel=0.005)


def test_on_a_bent_edge_its_width_is_along_that() -> None:
    # derived: as above, with the edge as far out as it really lies there, and by its own lean in 200 mm
    points = BOARD | {"edge.right.1": (200.0, -25.5)}
    (dot,) = laid_out(Markers(side=SideMarkers(frets=(5,), twice=())), points).hardware.side
    part = ((1 - 2 ** (-4 / 12)) + (1 - 2 ** (-5 / 12))) / 2
    r = (22 + SCALE * part * 3.5 / 200) / (19 + SCALE * part * 9 / SCALE)
    assert dot.pm95 == pytest.approx(
        1.96 * 0.1 * part * math.sqrt((1 + r * r) / 2) * math.hypot(1, 3.5 / 200), rel=0.01
    )


def test_a_marker_beyond_the_last_fret_is_left_out_and_said() -> None:
    layout = laid_out(Markers(side=SideMarkers(frets=(12, 22), twice=())))
    assert [dot.fret for dot in layout.hardware.side] == [12]
    said = next(finding for finding in layout.findings if finding.code == "markers.side.beyond")
    assert said.text.startswith("The board has 20 frets, so the side marker at fret 22 is left out")


def test_a_marker_past_the_boards_end_stops_the_work() -> None:
    # derived: fret 20 stands 438.4 mm from the nut and the middle before it 432; a board of 420 mm has no wood there
    short = BOARD | {"end.left": (420.0, 27.7), "end.right": (420.0, -27.7)}
    assert codes(laid_out(Markers(side=SideMarkers(frets=(20,), twice=())), short)) == {
        "markers.side.past_the_end": "stop"
    }
    assert codes(laid_out(Markers(side=SideMarkers(frets=(19,), twice=())), BOARD)) == {}


@pytest.mark.parametrize(("diameter", "crowds"), [(9.0, False), (9.6, True)])
def test_a_marker_as_wide_as_its_frets_is_said(diameter: float, crowds: bool) -> None:
    # derived: fret 20 stands 640 (2^(-19/12) - 2^(-20/12)) = 12.0 mm from fret 19; less 1 mm of wood on either side
    gap = fret(20) - fret(19)
    diameter = diameter - 9.3 + gap - 2.0
    layout = laid_out(Markers(face=FaceMarkers(frets=(20,), twice=(), diameter=diameter)))
    assert ("markers.face.crowded" in codes(layout)) == crowds


def test_a_drill_that_would_break_out_below_is_said() -> None:
    # derived: 5.0 - 3.5 - 1.0 leaves 0.5, the least there may be; a tenth less is said
    for height, says in ((5.0, False), (4.9, True)):
        read = (Reading(id="h", kind="height", at="board end", on="left", value=height),)
        layout = laid_out(Markers(side=SideMarkers(frets=(5,), twice=(), below=3.5, diameter=2.0)), readings=read)
        assert ("markers.side.breaks_out" in codes(layout)) == says, height


def test_a_mirrored_job_mirrors() -> None:
    points = BOARD | {"edge.right.1": (200.0, -25.3)}
    other = {
        name.replace("left", "*").replace("right", "left").replace("*", "right"): (x, -y)
        for name, (x, y) in points.items()
    }
    markers = Markers(side=SideMarkers(), face=FaceMarkers())
    one, two = laid_out(markers, points).hardware, laid_out(markers, other, hand="left").hardware
    for a, b in zip(one.side, two.side, strict=True):
        assert a.fret == b.fret
        assert a.along == pytest.approx(b.along, abs=1e-6)
        assert a.at == pytest.approx((b.at[0], -b.at[1]), abs=1e-6)
    face, mirrored = sorted(dot.at for dot in one.face), sorted((x, -y) for x, y in (dot.at for dot in two.face))
    for at, there in zip(face, mirrored, strict=True):
        assert at == pytest.approx(there, abs=1e-6)


def test_inches_or_millimetres_make_no_difference() -> None:
    mm, inch = (
        laid_out(Markers(side=SideMarkers(diameter=d, apart=a))) for d, a in ((3.175, 6.35), ("1/8 in", "1/4 in"))
    )
    assert mm.hardware == inch.hardware


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: SideMarkers(frets=(0,), twice=()), "frets count from 1 to 36"),
        (
            lambda: SideMarkers(frets=(3, 3), twice=()),
            "^Among the side markers, fret “3” stands twice; name another",
        ),
        (lambda: Headstock(outline=("a", "b", "a")), "^In the headstock’s outline, the point “a” stands twice; name"),
        (lambda: Headstock(slots=(("a", "b", "a"),)), "^In a headstock’s slot, the point “a” stands twice; name"),
        (lambda: SideMarkers(frets=(3,), twice=(12,)), "want two at fret 12, which has none"),
        (lambda: SideMarkers(below=0.7, diameter=2.0), "would break out of it"),
        (lambda: OtherHole(where=" ", diameter=6.0), "does not say where it is"),
        (lambda: OtherHole(where="heel", diameter=6.0, plug=5.0), "thinner than its hole"),
        (
            lambda: job(hardware=Hardware(holes=(OtherHole(where="x", point="no.1", diameter=3.0),))),
            "not among the job",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(make: Callable[[], object], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        make()


def crowd(diameter: float, apart: float, kind: str) -> str:
    """What is said of two markers before fret 20, or of one where they are not `apart`."""
    twice, far = ((20,) if apart else ()), apart or 6.0
    if kind == "side":
        wanted = Markers(side=SideMarkers(frets=(20,), twice=twice, diameter=diameter, apart=far, below=6.0))
    else:
        wanted = Markers(face=FaceMarkers(frets=(20,), twice=twice, diameter=diameter, apart=far))
    return "".join(f.text for f in laid_out(wanted).findings if f.code == f"markers.{kind}.crowded")


@in_one(
    ("diameter", "apart", "kind", "crowds"),
    [
        # derived: before fret 20 there are 12.01 mm; along the edge two need their distance and a width between frets
        (3.98, 6.0, "side", ""),
        (4.05, 6.0, "side", "the frets beside them"),
        (3.0, 4.0, "side", ""),
        (3.05, 4.0, "side", "each other"),
        (9.98, 0.0, "side", ""),
        (9.98, 0.0, "face", ""),
        (10.05, 0.0, "face", "the frets beside them"),
        # derived: across the board two need only be apart
        (5.0, 6.0, "face", ""),
        (5.05, 6.0, "face", "each other"),
        (9.98, 22.0, "face", ""),
    ],
)
def test_wood_between_markers_and_frets_on_both_sides_of_a_millimetre(
    diameter: float, apart: float, kind: str, crowds: str
) -> None:
    said = crowd(diameter, apart, kind)
    assert (f" {crowds}: " in said) if crowds else said == ""
    if crowds:
        assert ("or change how far apart they stand" in said) == bool(apart)
        who = "markers at fret 20 crowd " if apart else "marker at fret 20 crowds "
        assert said.startswith(f"The {kind} {who}")


@pytest.mark.parametrize(
    ("below", "height", "says"),
    [
        (1.5, None, ""),
        (1.49, None, "the board’s face"),
        (3.0, 4.5, ""),
        (3.0, 4.49, "the board’s underside"),
        (1.4, 3.0, "the board’s face"),
        (1.6, 3.0, "the board’s underside"),
    ],
)
def test_wood_over_and_under_a_side_marker(below: float, height: float | None, says: str) -> None:
    """derived: a dot of 2 mm, with half a millimetre of wood at least (common practice, no source)"""
    read = () if height is None else (Reading(id="h", kind="height", at="board end", on="left", value=height),)
    layout = laid_out(Markers(side=SideMarkers(frets=(5,), twice=(), below=below, diameter=2.0)), readings=read)
    told = [f.text for f in layout.findings if f.code == "markers.side.breaks_out"]
    assert (says in told[0]) if says else told == []


def test_a_marker_may_reach_just_to_the_boards_end() -> None:
    # derived: the middle before fret 20 and half a dot, along an edge that leans 6 mm in 440
    (dot,) = laid_out(Markers(side=SideMarkers(frets=(20,), twice=(), diameter=2.0))).hardware.side
    for more, stops in ((1.01, False), (0.99, True)):
        end = dot.at[0] + more / math.hypot(1, 6 / 440)
        half = 22 + 6 * end / 440
        short = BOARD | {"end.left": (end, half), "end.right": (end, -half)}
        found = codes(laid_out(Markers(side=SideMarkers(frets=(20,), twice=(), diameter=2.0)), short))
        assert ("markers.side.past_the_end" in found) == stops
