"""The drawn templates, one by one."""

import math
from typing import Literal

import msgspec
import pytest
from shapely import LineString, Point, Polygon
from shapely import box as shapely_box

from export.drawing.flatten import around, path_points
from export.drawing.marks import Line, Mark, Path, Text
from export.drawing.typeface import text_box
from export.errors import ExportError
from export.plan.bridge.bridgework import saddle_lines
from export.records import Figure, Stamp
from export.templates import TEMPLATES, figure_of
from export.templates.glued.bridge import _free, _Wing
from export.templates.glued.dowels import dowels, is_clear
from export.templates.parts import PAST_SLOT
from geometry.job import Job
from geometry.layout import Hole, Layout, Metal
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


def drawn(name: str, job: Job, layout: Layout, stamp: Stamp) -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    return draw(job, layout, stamp)


def shapes(figure: Figure, of: str, purpose: str) -> list[object]:
    return [m.shape for m in figure.marks if m.of == of and m.purpose == purpose]


def words(figure: Figure) -> list[str]:
    return [m.shape.text for m in figure.marks if isinstance(m.shape, Text)]


def test_the_note_says_what_a_bow_costs(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: 8 · 2² / (3 · 178.1) = 0.06 mm from the board's end (451.4) to the old footprint's front (629.5)."""
    note = drawn("placement", job, layout, stamp).notes[-1]
    assert note == "The top is taken as flat: a bow of 2 mm between board and bridge moves the bridge by 0.06 mm."


def test_dowels_stand_in_the_slot(layout: Layout) -> None:
    assert layout.saddle is not None
    slot = Polygon(layout.saddle.slot)
    holes = dowels(layout, "mm")
    assert [hole.name for hole in holes] == ["left", "right"]
    for hole in holes:
        assert slot.contains(Point(hole.at).buffer(hole.diameter / 2 - 0.01))


def test_dowels_give_way_to_old_holes_and_metal(layout: Layout) -> None:
    (left, right) = dowels(layout, "mm")
    old = msgspec.structs.replace(
        layout.old,
        pins=(Hole(name="pin.7", at=left.at, diameter=5.0),),
        metal=(Metal(name="metal.2", at=right.at, keep_out=5.0),),
    )
    moved = msgspec.structs.replace(layout, old=old)
    for before, after in zip((left, right), dowels(moved, "mm"), strict=True):
        assert 4.0 < math.dist(before.at, after.at) < 12.0
        assert is_clear(moved, after.at, after.diameter / 2)


def test_no_dowels_where_nothing_is_clear(job: Job, layout: Layout, stamp: Stamp) -> None:
    metal = (Metal(name="metal.1", at=(646.0, 30.0), keep_out=40.0),)
    blocked = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, metal=metal))
    assert dowels(blocked, "mm") == ()
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


def test_the_bridges_outline_is_a_line_to_mark_or_a_window(job: Job, layout: Layout, stamp: Stamp) -> None:
    for name in ("placement", "full-length"):
        plain = drawn(name, job, layout, stamp)
        assert [m.purpose for m in plain.marks if m.of == "bridge"] == ["mark"]
        wanted = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, window=True))
        window = drawn(name, wanted, layout, stamp)
        assert [m.purpose for m in window.marks if m.of == "bridge"] == ["cut"]
        assert "bridge" not in window.kept
        assert not [m for m in window.marks if m.purpose in ("drill", "route")]


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
        note
        == "The top is taken as flat: a bow of 1/8 in between board and bridge moves the bridge by less than 1/64 in."
    )


def test_without_pin_holes_the_clearing_is_laid_by_the_saddle_line(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert layout.bridge is not None
    assert drawn("clearing", job, layout, stamp).notes[0].endswith("stick on by pin holes and centre line.")
    tied = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))
    assert drawn("clearing", job, tied, stamp).notes[0].endswith("stick on by saddle line and centre line.")


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
