"""The drawn templates, one by one."""

import math
from itertools import combinations
from typing import Literal

import msgspec
import pytest
from shapely import LineString, Point, Polygon
from shapely import box as shapely_box

from export.drawing.flatten import around, path_points, shape_points
from export.drawing.marks import Circle, Line, Mark, Path, Text
from export.drawing.pens import PENS
from export.drawing.typeface import text_box
from export.errors import ExportError
from export.plan.bridge.bridgework import saddle_lines
from export.records import Figure, Stamp
from export.templates import TEMPLATES, figure_of
from export.templates.glued.bridge import _free, _Wing
from export.templates.glued.dowels import dowels, is_clear
from export.templates.parts import PAST_SLOT
from export.templates.registration import Start, seam_windows, tape_tabs
from geometry.job import Job
from geometry.layout import Hole, Layout, Metal, Ray
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


def drawn(name: str, job: Job, layout: Layout, stamp: Stamp) -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    return draw(job, layout, stamp)


def shapes(figure: Figure, of: str, purpose: str) -> list[object]:
    return [m.shape for m in figure.marks if m.of == of and m.purpose == purpose]


def is_line(mark: Mark) -> bool:
    return not isinstance(mark.shape, Text)


def words(figure: Figure) -> list[str]:
    return [m.shape.text for m in figure.marks if isinstance(m.shape, Text)]


def test_seam_windows_lie_where_the_seam_was_read(job: Job, layout: Layout, stamp: Stamp) -> None:
    circles = [c for c in shapes(drawn("placement", job, layout, stamp), "seam", "cut") if isinstance(c, Circle)]
    assert len(circles) == 2
    assert circles[-1].centre == pytest.approx((588.0, 5.1))
    assert circles[-1].centre[0] - circles[0].centre[0] > 60.0


@pytest.mark.parametrize(
    ("low", "high", "places"),
    [
        (100.0, 300.0, [130.0, 290.0]),  # derived: 0.15 and 0.95 of the way, for no seam was read there
        (500.0, 700.0, [588.0, 690.0]),  # derived: where it was read once, 0.95 of the way is tried first
        (560.0, 700.0, [588.0, 693.0]),  # derived: 581 lies less than 30 from 588
        (500.0, 850.0, [588.0, 798.0]),
        (100.0, 129.9, []),
    ],
)
def test_windows_over_the_seam_lie_where_it_was_read_or_apart(
    layout: Layout, low: float, high: float, places: list[float]
) -> None:
    circles = [mark.shape for mark in seam_windows(layout, low, high) if isinstance(mark.shape, Circle)]
    assert [circle.centre[0] for circle in circles] == pytest.approx(places)


def test_tape_is_laid_beside_the_board_clear_of_its_edges(layout: Layout) -> None:
    """derived: edges through the corners of the start, half as steep as they are long; halfway from there to the front,
    100 mm on, they are 50 mm farther out, and the frames lie 8 to 16 mm beyond them.
    """
    assert layout.neck is not None
    slope = math.hypot(2.0, 1.0)
    left, right = (Ray((0.0, side * 20.0), (2.0 / slope, side / slope)) for side in (1.0, -1.0))
    neck = msgspec.structs.replace(layout.neck, left_edge=left, right_edge=right)
    start = Start("board end", (400.0, 220.0), (400.0, -220.0))
    rings = [mark.shape for mark in tape_tabs(start, neck, 600.0) if isinstance(mark.shape, Path)]
    places = [sorted({(x, y) for x, y, *_ in ring.vertices}) for ring in rings]
    assert places == [
        [(489.0, 278.0), (489.0, 286.0), (511.0, 278.0), (511.0, 286.0)],
        [(489.0, -286.0), (489.0, -278.0), (511.0, -286.0), (511.0, -278.0)],
    ]


def test_windows_lie_on_the_seam(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: the seam through (588, 5.1) and (798, 10.6)."""
    for circle in shapes(drawn("placement", job, layout, stamp), "seam", "cut"):
        assert isinstance(circle, Circle)
        x, y = circle.centre
        assert y == pytest.approx(5.1 + (x - 588.0) * 5.5 / 210.0)


def test_without_a_seam_there_is_no_window(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert layout.neck is not None
    bare = msgspec.structs.replace(layout, neck=msgspec.structs.replace(layout.neck, seam=None))
    assert not shapes(drawn("placement", job, bare, stamp), "seam", "cut")


def test_the_note_says_what_a_bow_costs(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: 8 · 2² / (3 · 178.1) = 0.06 mm from the board's end (451.4) to the old footprint's front (629.5)."""
    note = drawn("placement", job, layout, stamp).notes[-1]
    assert note == "The top is taken as flat: a bow of 2 mm between board and bridge moves the bridge by 0.06 mm."


@pytest.mark.parametrize("end", ["rounded", "raised", "undercut", "flush"])
def test_without_true_corners_it_is_laid_on_fret_12(job: Job, layout: Layout, stamp: Stamp, end: str) -> None:
    other = msgspec.structs.replace(job, board=msgspec.structs.replace(job.board, end=end))
    figure = drawn("placement", other, layout, stamp)
    (line,) = shapes(figure, "fret:12", "lay")
    assert layout.frets is not None
    assert line == Line(layout.frets.lines[12].left, layout.frets.lines[12].right)
    assert any("fret 12" in text for text in words(figure))
    assert "step at the board’s end" in figure.notes[-1]


def test_full_length_starts_at_the_nut(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = drawn("full-length", job, layout, stamp)
    (notch,) = shapes(figure, "notch", "cut")
    assert isinstance(notch, Path)
    assert notch.vertices[0][:2] == (0.0, 21.6)
    assert shapes(figure, "fret:12", "lay")
    assert shapes(figure, "board end", "lay")
    places = {m.shape.text: m.shape.at for m in figure.marks if isinstance(m.shape, Text)}
    assert layout.frets is not None
    x, y = layout.frets.lines[12].left
    # derived: a word stands 1.6 mm behind its line, about a third of the way from the centre line to the left edge
    assert places["fret 12"] == pytest.approx((x + 1.6, 0.35 * y))
    assert places["board end"] == pytest.approx((451.4 + 1.6, 0.35 * 28.2))


def test_dowels_stand_in_the_slot(layout: Layout) -> None:
    assert layout.saddle is not None
    slot = Polygon(layout.saddle.slot)
    holes = dowels(layout)
    assert [hole.name for hole in holes] == ["left", "right"]
    for hole in holes:
        assert slot.contains(Point(hole.at).buffer(hole.diameter / 2 - 0.01))


def test_dowels_give_way_to_old_holes_and_metal(layout: Layout) -> None:
    (left, right) = dowels(layout)
    old = msgspec.structs.replace(
        layout.old,
        pins=(Hole(name="pin.7", at=left.at, diameter=5.0),),
        metal=(Metal(name="metal.2", at=right.at, keep_out=5.0),),
    )
    moved = msgspec.structs.replace(layout, old=old)
    for before, after in zip((left, right), dowels(moved), strict=True):
        assert 4.0 < math.dist(before.at, after.at) < 12.0
        assert is_clear(moved, after.at, after.diameter / 2)


def test_no_dowels_where_nothing_is_clear(job: Job, layout: Layout, stamp: Stamp) -> None:
    metal = (Metal(name="metal.1", at=(646.0, 30.0), keep_out=40.0),)
    blocked = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, metal=metal))
    assert dowels(blocked) == ()
    assert "locate the bridge without dowels" in drawn("bridge", job, blocked, stamp).notes[-1]


def test_the_bridge_carries_its_sizes(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The conftest's bridge is 152 by 26; the slot's front lies 5.23 and 9.10 mm behind its front at the slot's ends:

    derived from the saddle line through (644.8, 27.5) and (647.6, -27.5), 76 long, 3 thick, front at 637.4.
    """
    said = words(drawn("bridge", job, layout, stamp))
    assert "152.0" in said
    assert "26.0" in said
    assert layout.saddle is not None
    for x, _ in layout.saddle.front:
        assert f"{x - 637.4:.1f}" in said


def test_the_clearing_is_drawn_in_by_its_ledge(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = drawn("clearing", job, layout, stamp)
    (inner,) = shapes(figure, "clearing", "cut")
    assert isinstance(inner, Path)
    assert layout.bridge is not None
    outer = Polygon(path_points(Path(layout.bridge.outline, closed=True), 0.001))
    for at in path_points(inner, 0.01):
        assert outer.exterior.distance(Point(at)) == pytest.approx(0.8, abs=0.003)
        assert outer.contains(Point(at))
    wide = drawn("clearing", job, layout, msgspec.structs.replace(stamp, ledge=1.5))
    assert "1.5 mm" in wide.notes[1]


def test_the_plate_holds_all_pins_and_is_mirrored(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = drawn("plate", job, layout, stamp)
    assert figure.mirror
    assert "SEEN FROM INSIDE" in words(figure)
    (ring,) = shapes(figure, "plate", "mark")
    assert isinstance(ring, Path)
    plate = Polygon([v[:2] for v in ring.vertices])
    assert layout.bridge is not None
    for pin in layout.bridge.pins:
        assert plate.contains(Point(pin.at).buffer(pin.diameter))


def test_a_plate_without_pin_holes_is_refused(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert layout.bridge is not None
    pinless = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))
    with pytest.raises(ExportError, match="pin holes"):
        drawn("plate", job, pinless, stamp)


def test_nut_slots_are_as_wide_as_their_strings(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = drawn("nut-slots", job, layout, stamp)
    lines = [line for line in shapes(figure, "string:6", "mark") if isinstance(line, Line)]
    assert lines[0].a[1] - lines[1].a[1] == pytest.approx(1.35)
    assert (lines[0].a[1] + lines[1].a[1]) / 2 == pytest.approx(-18.0)


def test_lines_that_would_merge_into_a_bar_are_one_centre_line(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The first two strings here are 0.30 and 0.41 mm thick, the third 0.61; a line is 0.21 mm wide."""
    figure = drawn("nut-slots", job, layout, stamp)
    for name, purpose, count in (("1", "centre", 1), ("2", "centre", 1), ("3", "mark", 2), ("6", "mark", 2)):
        string = next(s for s in layout.strings if s.name == name)
        lines = [m.shape for m in figure.marks if m.of == f"string:{name}" and m.purpose in ("centre", "mark")]
        assert len(shapes(figure, f"string:{name}", purpose)) == len(lines) == count
        middles = [line.a[1] for line in lines if isinstance(line, Line)]
        assert sum(middles) / count == pytest.approx(string.nut_xy[1])


def inside(figure: Figure, of: str, ring: Polygon) -> list[str]:
    """The words of a part that stand wholly inside it."""
    texts = [m.shape for m in figure.marks if m.of == of and isinstance(m.shape, Text)]
    return [text.text for text in texts if ring.contains(shapely_box(*text_box(text)))]


@pytest.mark.parametrize(
    ("half", "known", "bass"), [(21.6, True, -14.4), (21.6, False, -14.4), (23.0, False, -20.5), (23.0, True, -14.4)]
)
def test_the_sides_letters_stand_in_the_outermost_gap_that_has_room_round_them(
    job: Job, layout: Layout, stamp: Stamp, half: float, known: bool, bass: float
) -> None:
    # derived: from the outer string at 18 to the nut's half are 3.6 or 5.0; 0.8 is kept clear and, where it is known,
    # the thickest string's 1.35; a letter 2.6 high is given 4.0; the next gap, 36 / 5, lies about 18 − 3.6
    if not known:
        bare = tuple(msgspec.structs.replace(string, diameter=None) for string in layout.strings)
        layout = msgspec.structs.replace(layout, strings=bare)
    assert layout.neck is not None
    neck = msgspec.structs.replace(layout.neck, nut=((0.0, half), (0.0, -half)))
    figure = drawn("nut-slots", job, msgspec.structs.replace(layout, neck=neck), stamp)
    letters = {m.shape.text: m.shape for m in figure.marks if m.of == "strip" and isinstance(m.shape, Text)}
    assert (letters["B"].at[1], letters["T"].at[1]) == pytest.approx((bass, -bass))
    assert (letters["B"].height, letters["T"].height) == (2.6, 2.6)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_parts_keep_their_sides_when_cut_out(
    job: Job, layout: Layout, stamp: Stamp, hand: Literal["right", "left"]
) -> None:
    turned = msgspec.structs.replace(job, hand=hand)
    for name, of in (("nut-slots", "strip"), ("clearing", "clearing")):
        figure = drawn(name, turned, layout, stamp)
        (outline,) = shapes(figure, of, "cut")
        assert isinstance(outline, Path)
        ring = Polygon(path_points(outline, 0.01))
        assert sorted(inside(figure, of, ring)) == ["B", "T", "tail"]
        at = {m.shape.text: m.shape.at for m in figure.marks if m.of == of and isinstance(m.shape, Text)}
        assert (at["B"][1] < at["T"][1]) == (hand == "right")  # +y is to the left; bass is right for the right hand
        (shaft,) = [m.shape for m in figure.marks if m.of == of and isinstance(m.shape, Line)]
        assert shaft.b[0] > shaft.a[0]  # the arrow runs to the tail, +x
        assert ring.contains(LineString([shaft.a, shaft.b]))


def test_seam_windows_have_plain_ticks_on_both_rims(job: Job, layout: Layout, stamp: Stamp) -> None:
    """Six mm or more is what a pencil line under the rim can be sighted along: common practice, no source."""
    figure = drawn("placement", job, layout, stamp)
    windows = [c for c in shapes(figure, "seam", "cut") if isinstance(c, Circle)]
    ticks = [line for line in shapes(figure, "seam", "lay") if isinstance(line, Line)]
    assert len(ticks) == 2 * len(windows)
    assert PENS["lay"].dashes == ()
    for window in windows:
        own = [t for t in ticks if math.dist(t.a, window.centre) == pytest.approx(window.radius)]
        assert len(own) == 2
        assert all(math.dist(t.a, t.b) >= 6.0 for t in own)
        assert own[0].a[0] < window.centre[0] < own[1].a[0]
    assert words(figure).count("cut out") == len(windows)


def test_the_bridges_outline_is_a_line_to_mark_or_a_window(job: Job, layout: Layout, stamp: Stamp) -> None:
    for name in ("placement", "full-length"):
        plain = drawn(name, job, layout, stamp)
        assert [m.purpose for m in plain.marks if m.of == "bridge"] == ["mark"]
        wanted = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, window=True))
        window = drawn(name, wanted, layout, stamp)
        assert [m.purpose for m in window.marks if m.of == "bridge"] == ["cut"]
        assert "bridge" not in window.kept
        assert not [m for m in window.marks if m.purpose in ("drill", "route")]


def test_nut_distances_count_from_the_bass_edge(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: half the nut 21.6, outer strings at ±18: 3.6 to the sixth string, 39.6 to the first."""
    said = words(drawn("nut-slots", job, layout, stamp))
    assert "3.6" in said
    assert "39.6" in said


def test_left_handed_nut_distances_count_from_the_bass_edge_on_the_left(
    left_job: Job, left_layout: Layout, stamp: Stamp
) -> None:
    """derived: the nut's left corner moved 1 mm out to 22.6, the outer strings at ±18: the sixth string, on the left,
    is 4.6 from it, the first 40.6; from the right corner it would be 39.6 and 3.6.
    """
    assert left_layout.neck is not None
    neck = msgspec.structs.replace(left_layout.neck, nut=((0.0, 22.6), left_layout.neck.nut[1]))
    figure = drawn("nut-slots", left_job, msgspec.structs.replace(left_layout, neck=neck), stamp)
    at = {m.of: m.shape.b[1] for m in figure.marks if m.purpose == "dimension" and isinstance(m.shape, Line)}
    said = {m.shape.at[1]: m.shape.text for m in figure.marks if m.purpose == "dimension" and isinstance(m.shape, Text)}
    assert said[at["string:6"]] == "4.6"
    assert said[at["string:1"]] == "40.6"
    assert at["string:6"] == 18.0
    sides = {m.shape.text: m.shape.at[1] for m in figure.marks if isinstance(m.shape, Text) and m.shape.bold}
    assert (sides["BASS"], sides["TREBLE"]) == pytest.approx((25.6, -24.6))


def test_a_compensated_nut_has_its_slots_begin_where_the_strings_leave_it(
    job: Job, layout: Layout, stamp: Stamp
) -> None:
    assert not any("compensated nut" in note for note in drawn("nut-slots", job, layout, stamp).notes)
    moved = tuple(
        msgspec.structs.replace(string, nut_xy=(string.nut_xy[0] - 0.8, string.nut_xy[1]), nut_compensation=0.8)
        for string in layout.strings
    )
    figure = drawn("nut-slots", job, msgspec.structs.replace(layout, strings=moved), stamp)
    lines = [line for line in shapes(figure, "string:6", "mark") if isinstance(line, Line)]
    assert lines[0].a[0] == pytest.approx(layout.strings[-1].nut_xy[0] - 0.8)
    assert any("compensated nut" in note for note in figure.notes)


def test_labels_of_pairs_on_the_nut_strip_lie_clear_of_each_other(job: Job, layout: Layout, stamp: Stamp) -> None:
    # twelve strings in pairs that lie closer than the letters are high
    for apart in (0.8, 2.2, 4.0):
        first = layout.strings[0]
        ys = [19.0 - 7.0 * (i // 2) - apart * (i % 2) for i in range(12)]
        twelve = tuple(
            msgspec.structs.replace(first, name=f"{1 + i // 2}{'ab'[i % 2]}", nut_xy=(0.0, y)) for i, y in enumerate(ys)
        )
        figure = drawn("nut-slots", job, msgspec.structs.replace(layout, strings=twelve), stamp)
        texts = [m.shape for m in figure.marks if isinstance(m.shape, Text) and m.shape.angle == 0.0]
        assert len(texts) == 12 + 12 + 2 + 3  # names, distances, BASS and TREBLE beside it; B, T and tail inside
        boxes = [text_box(text) for text in texts]
        for (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) in combinations(boxes, 2):
            assert min(ax1, bx1) <= max(ax0, bx0) or min(ay1, by1) <= max(ay0, by0)
        inks = [LineString(shape_points(m.shape)) for m in figure.marks if m.of.startswith("string:") and is_line(m)]
        beside = [m.shape for m in figure.marks if isinstance(m.shape, Text) and m.of.startswith("string:")]
        assert len(beside) == 24
        for text in beside:
            assert not any(ink.intersects(shapely_box(*text_box(text))) for ink in inks)


def test_one_purpose_one_meaning(job: Job, layout: Layout, stamp: Stamp) -> None:
    """What was there before is never drawn as what is to be."""
    for name in ("placement", "bridge", "plate"):
        marks: tuple[Mark, ...] = drawn(name, job, layout, stamp).marks
        assert not [m for m in marks if m.of.startswith("old") and m.purpose in ("cut", "drill", "route")]


def test_the_note_in_inches_counts_with_inches(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: 8 · 3.175² / (3 · 178.1) = 0.151 mm, 0.38 of a 64th of an inch."""
    inches = msgspec.structs.replace(job, unit="in")
    note = drawn("placement", inches, layout, stamp).notes[-1]
    assert (
        note == "The top is taken as flat: a bow of 1/8 in between board and bridge moves the bridge by under 1/64 in."
    )


def test_without_pin_holes_the_clearing_is_laid_by_the_saddle_line(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert layout.bridge is not None
    assert drawn("clearing", job, layout, stamp).notes[0].endswith("stick it on by pin holes and centre line.")
    tied = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))
    assert drawn("clearing", job, tied, stamp).notes[0].endswith("stick it on by saddle line and centre line.")


def test_metal_is_named_on_the_plate_too(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert "METAL" in words(drawn("plate", job, layout, stamp))
    bare = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, metal=()))
    assert "METAL" not in words(drawn("plate", job, bare, stamp))


def test_the_bridge_says_what_its_numbers_are_in(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert drawn("bridge", job, layout, stamp).notes[1].startswith("Numbers in mm; ")


@pytest.mark.parametrize(("depth", "free"), [(20.0, (6.0, 20.0)), (8.0, (0.0, 4.0))])
def test_a_wing_is_free_on_the_longer_side_of_the_saddle_line(
    layout: Layout, depth: float, free: tuple[float, float]
) -> None:
    # derived: the line's tip 5 behind the front, with 1 kept clear on either side
    assert layout.saddle is not None
    line = saddle_lines(layout.saddle, PAST_SLOT)[0].shape
    assert isinstance(line, Line)
    x, y = line.a
    inward = (0.0, -math.copysign(1.0, y))
    assert _free(_Wing((x - 5.0, y), (1.0, 0.0), inward, depth), layout) == pytest.approx(free)
    beyond = _Wing((x - 5.0, y - 100.0 * inward[1]), (1.0, 0.0), inward, depth)
    assert _free(beyond, layout) == (0.0, depth)
    assert _free(beyond, msgspec.structs.replace(layout, saddle=None)) == (0.0, depth)


@pytest.mark.parametrize(
    ("tip", "free"),
    [
        ((646.0, 60.0), (9.0, 26.0)),  # 8 mm behind the front, and 1 mm beside the line
        ((657.0, 60.0), (0.0, 18.0)),
        ((646.0, 56.001), (9.0, 26.0)),
        ((646.0, 55.999), (0.0, 26.0)),  # 20 mm in from the tip
    ],
)
def test_words_in_a_wing_keep_clear_of_the_saddle_line(
    layout: Layout, tip: tuple[float, float], free: tuple[float, float]
) -> None:
    """The line is carried on 11 mm past the slot; here it runs square to the neck."""
    assert layout.saddle is not None
    slot_end = (tip[0], tip[1] - 11.0)
    saddle = msgspec.structs.replace(layout.saddle, line=(slot_end, (tip[0], -20.0)))
    wing = _Wing((638.0, 76.0), (1.0, 0.0), (0.0, -1.0), 26.0)
    found = _free(wing, msgspec.structs.replace(layout, saddle=saddle))
    assert found == pytest.approx(free)
    assert _free(wing, msgspec.structs.replace(layout, saddle=None)) == (0.0, 26.0)


def test_only_a_bridge_with_a_belly_is_dimensioned_over_it(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert layout.bridge is not None
    (x, y, _), (z, w, _) = (*layout.bridge.corners[0], 0.0), (*layout.bridge.corners[2], 0.0)
    plain = msgspec.structs.replace(layout.bridge, outline=((x, y, 0.0), (x, w, 0.0), (z, w, 0.0), (z, y, 0.0)))
    for bridge, seen in ((layout.bridge, True), (plain, False)):
        figure = drawn("bridge", job, msgspec.structs.replace(layout, bridge=bridge), stamp)
        assert any(mark.of == "field:bridge.belly_depth" for mark in figure.marks) == seen
        assert any(mark.of == "field:bridge.width" for mark in figure.marks)


def test_what_is_wrong_with_an_area_is_not_said_beside_an_old_hole(stamp: Stamp) -> None:
    """In this job an old hole lies behind a discoloured area, near its middle."""
    job = sample("bolted-left")
    layout = work_out(job)
    (hole,) = layout.old.holes
    marks = figure_of(TEMPLATES["placement"], job, layout, stamp).marks
    (word,) = (m.shape for m in marks if isinstance(m.shape, Text) and m.shape.text == "discoloured")
    assert not text_box(word).grown(4.0 + hole.diameter / 2).meets(around([hole.at]))
    (area,) = (around(one.outline) for one in layout.old.areas)
    assert area.y0 < word.at[1] < area.y1
