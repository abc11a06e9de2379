"""The strip of nut slots: how wide, where, and from which edge they count."""

from itertools import combinations

import msgspec
import pytest
from shapely import LineString
from shapely import box as shapely_box

from export.drawing.flatten import shape_points
from export.drawing.marks import Line, Mark, Text
from export.drawing.typeface import text_box
from export.records import Stamp
from geometry.job import Job
from geometry.layout import Layout
from tests.export.templates.test_templates import drawn, shapes, words


def is_line(mark: Mark) -> bool:
    return not isinstance(mark.shape, Text)


def test_nut_slots_are_as_wide_as_their_strings(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = drawn("nut-slots", job, layout, stamp)
    lines = [line for line in shapes(figure, "string:6", "mark") if isinstance(line, Line)]
    assert lines[0].a[1] - lines[1].a[1] == pytest.approx(1.35)
    assert (lines[0].a[1] + lines[1].a[1]) / 2 == pytest.approx(-18.0)


def test_a_string_of_unknown_size_has_the_middle_of_its_slot_drawn(job: Job, layout: Layout, stamp: Stamp) -> None:
    """As has one whose edges would run into one bar, from 0.6 mm on they are two (common practice, no source). The
    job's outer strings lie at ±18.
    """
    for size, purposes in ((None, ["centre"]), (0.59, ["centre"]), (0.61, ["mark", "mark"])):
        strings = tuple(msgspec.structs.replace(one, diameter=size) for one in layout.strings)
        figure = drawn("nut-slots", job, msgspec.structs.replace(layout, strings=strings), stamp)
        lines = [mark for mark in figure.marks if mark.of == "string:6" and mark.purpose in ("centre", "mark")]
        assert [mark.purpose for mark in lines] == purposes
        assert sum(mark.shape.a[1] for mark in lines if isinstance(mark.shape, Line)) / len(lines) == pytest.approx(-18)


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
