"""The bounds of saddle and bridge, each tried on both sides. All figures: common practice, no source."""

import pytest
from msgspec.structs import replace

from geometry.bounds.old_bridge import findings as old_findings
from geometry.bounds.saddle_and_bridge import _short_piece, bridge_findings, saddle_findings
from geometry.job import Pins, Reading
from geometry.layout import Hole, Layout, OldPlan, Ray
from geometry.layout.strings_to_bridge import SaddlePiece
from geometry.units import mm
from geometry.work_out import work_out
from tests.geometry.bounds.right_jobs import changed, grade, invented, sample

RECTANGLE = ((0.0, 75.0), (0.0, -75.0), (26.0, -75.0), (26.0, 75.0))


NO_OLD = OldPlan()


def codes(layout: Layout, old: OldPlan = NO_OLD) -> list[str]:
    assert layout.neck is not None
    assert layout.frets is not None
    assert layout.bridge is not None
    found = bridge_findings(sample(), layout.neck, layout.frets, layout.bridge)
    return [f.code for f in (*found, *old_findings(sample(), layout.bridge, old))]


@pytest.mark.parametrize(("past", "expected"), [(-0.1, "stop"), (0.1, "look"), (0.9, "look"), (1.1, "")])
def test_a_slot_shorter_than_the_strings_lie(past: float, expected: str) -> None:
    """At `straight` the slot is as long as it reaches across, and lies in the middle of the outer strings."""
    job = changed(sample(), saddle={"straight": True})
    assert job.strings is not None
    assert job.strings.saddle is not None
    long = mm(job.strings.saddle.spread) + 2 * past
    assert grade(changed(job, saddle={"slot_length": long}), "slot.short") == expected


@pytest.mark.parametrize(
    ("past", "strings", "grade", "says"),
    [
        (-0.5, ("1", "2"), "stop", "under strings 1 and 2 is 0.5 mm too short for them"),
        (0.5, ("1", "2"), "look", "under strings 1 and 2 ends 0.5 mm past them"),
        (0.0, ("3",), "look", "under string 3 ends 0.0 mm past it"),
    ],
)
def test_how_short_a_saddles_piece_is(past: float, strings: tuple[str, ...], grade: str, says: str) -> None:
    nowhere = ((0.0, 0.0),) * 4
    piece = SaddlePiece(
        strings=strings,
        line=nowhere[:2],
        at_strings=nowhere[:2],
        pm95=(0.1, 0.1),
        front=nowhere[:2],
        slot=nowhere,
        slant=0.0,
    )
    found = _short_piece(sample(), past, piece)
    assert (found.grade, found.values) == (grade, {"mm": past})
    assert says in found.text


@pytest.mark.parametrize(
    ("slant", "far", "expected"),
    [
        (59.0, 640.0, []),
        (61.0, 640.0, ["saddle.nowhere"]),
        (3.0, 199.0, ["saddle.nowhere"]),
        (3.0, 201.0, []),
        (3.0, 1499.0, []),
        (3.0, 1501.0, ["saddle.nowhere"]),
    ],
)
def test_a_saddle_where_none_can_be(slant: float, far: float, expected: list[str]) -> None:
    layout = work_out(sample())
    assert layout.saddle is not None
    assert layout.neck is not None
    parallel = replace(
        layout.neck,
        left_edge=Ray(at=(0.0, 22.0), direction=(1.0, 0.0)),
        right_edge=Ray(at=(0.0, -22.0), direction=(1.0, 0.0)),
    )
    (_, left), (_, right) = layout.saddle.at_strings
    plan = replace(layout.saddle, slant=slant, at_strings=((far - slant, left), (far, right)))
    found = saddle_findings(sample(), plan, parallel)
    assert [finding.code for finding in found if finding.code != "slot.short"] == expected


@pytest.mark.parametrize(("mm", "expected"), [(6.5, ""), (6.6, "look")])
def test_a_thick_saddle(mm: float, expected: str) -> None:
    assert grade(changed(sample(), saddle={"thickness": mm}), "saddle.thick") == expected


@pytest.mark.parametrize(("mm", "expected"), [(1.9, "look"), (2.1, ""), (14.9, ""), (15.1, "look")])
def test_how_deep_a_slot_is(mm: float, expected: str) -> None:
    assert grade(changed(sample(), saddle={"slot_depth": mm}), "saddle.slot_depth") == expected


@pytest.mark.parametrize(("mm", "expected"), [(29.9, ""), (30.1, "look")])
def test_how_far_a_belly_stands_out(mm: float, expected: str) -> None:
    job = changed(sample(), bridge={"outline": "belly", "belly_depth": mm})
    assert grade(job, "bridge.belly_depth") == expected


@pytest.mark.parametrize(("mm", "expected"), [(2.9, "look"), (3.1, ""), (7.9, ""), (8.1, "look")])
def test_how_wide_a_pin_hole_is(mm: float, expected: str) -> None:
    assert grade(changed(sample(), bridge={"pins": Pins(diameter=mm)}), "bridge.hole_diameter") == expected


@pytest.mark.parametrize(
    ("field", "mm", "expected"),
    [
        ("length", 49.0, "look"),
        ("length", 51.0, ""),
        ("length", 229.0, ""),
        ("length", 231.0, "look"),
        ("width", 7.9, "look"),
        ("width", 8.1, ""),
        ("width", 59.0, ""),
        ("width", 61.0, "look"),
    ],
)
def test_a_bridge_of_no_usual_size(field: str, mm: float, expected: str) -> None:
    job = changed(sample(), bridge={"outline": "straight", "belly_depth": None, field: mm})
    assert grade(job, f"bridge.{field}") == expected


@pytest.mark.parametrize(("room", "expected"), [(0.1, []), (-0.1, ["bridge.on_board"])])
def test_a_bridge_on_the_board(room: float, expected: list[str]) -> None:
    layout = work_out(changed(sample(), bridge={"seat": "square"}))
    assert layout.neck is not None
    assert layout.bridge is not None
    x = layout.bridge.corners[0][0] - room
    on = replace(layout, neck=replace(layout.neck, end=((x, 28.0), (x, -28.0))))
    assert codes(on) == expected


def test_a_bridge_on_the_frets_where_the_end_was_not_read() -> None:
    layout = work_out(changed(sample(), bridge={"seat": "square"}))
    assert layout.neck is not None
    assert layout.bridge is not None
    bare = replace(layout, neck=replace(layout.neck, end=None))
    assert codes(bare) == []
    near = replace(layout.bridge, corners=tuple((x - 330.0, y) for x, y in layout.bridge.corners))
    assert codes(replace(bare, bridge=near)) == ["bridge.on_board"]


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(("by", "expected"), [(9.9, []), (10.1, ["bridge.far"])])
def test_a_bridge_far_from_the_old_one(by: float, expected: list[str], way: int) -> None:
    """By the footprint, by the holes, and by the nearest of both."""
    layout = work_out(changed(sample(), bridge={"seat": "square"}))
    assert layout.bridge is not None
    outline = tuple((x - way * by, y) for x, y in layout.bridge.corners)
    pins = tuple(replace(hole, at=(hole.at[0] - way * by, hole.at[1])) for hole in layout.bridge.pins)
    assert codes(layout, OldPlan(outline=outline)) == expected
    assert codes(layout, OldPlan(pins=pins)) == expected
    assert codes(layout, OldPlan(outline=outline, pins=pins)) == expected
    assert codes(layout, OldPlan(outline=outline, pins=layout.bridge.pins)) == []
    assert codes(layout, OldPlan(outline=outline[:2])) == []  # two corners go round no footprint


def test_a_far_bridge_is_large_and_says_how_far() -> None:
    layout = work_out(changed(sample(), bridge={"seat": "square"}))
    assert layout.neck is not None
    assert layout.frets is not None
    assert layout.bridge is not None
    outline = tuple((x - 14.0, y) for x, y in layout.bridge.corners)
    (told,) = old_findings(sample(), layout.bridge, OldPlan(outline=outline))
    assert (told.grade, told.large) == ("look", True)
    assert told.text.startswith("The new place lies 14.0 mm farther from the nut than the old one.")


@pytest.mark.parametrize(
    ("old", "expected"),
    [
        (OldPlan(outline=tuple((x, y + 29.0) for x, y in RECTANGLE)), []),
        (OldPlan(outline=tuple((x, y + 31.0) for x, y in RECTANGLE)), ["old.aside"]),
        (OldPlan(outline=((0.0, 100.0), (0.0, -50.0), (26.0, 46.0))), ["old.aside"]),
        (OldPlan(outline=((0.0, 100.0), (0.0, 60.0))), []),
        (OldPlan(outline=((0.0, 75.0), (0.0, -75.0), (26.0, -75.0), (26.0, 69.1))), []),
        (OldPlan(outline=((0.0, 75.0), (0.0, -75.0), (26.0, -75.0), (26.0, 68.9))), ["old.askew"]),
        (OldPlan(outline=RECTANGLE, pins=(Hole(name="pin.1", at=(30.9, 0.0), diameter=5.0),)), []),
        (OldPlan(outline=RECTANGLE, pins=(Hole(name="pin.1", at=(31.1, 0.0), diameter=5.0),)), ["old.hole_outside"]),
        (OldPlan(outline=RECTANGLE, pins=(Hole(name="pin.1", at=(13.0, 0.0), diameter=2.1),)), []),
        (OldPlan(outline=RECTANGLE, pins=(Hole(name="pin.1", at=(13.0, 0.0), diameter=11.9),)), []),
        (OldPlan(outline=RECTANGLE, pins=(Hole(name="pin.1", at=(13.0, 0.0), diameter=1.9),)), ["old.pins"]),
        (OldPlan(outline=RECTANGLE, pins=(Hole(name="pin.1", at=(13.0, 0.0), diameter=12.1),)), ["old.pins"]),
    ],
)
def test_an_old_bridge_that_was_none(old: OldPlan, expected: list[str]) -> None:
    layout = work_out(changed(sample(), bridge={"seat": "square"}))
    assert [code for code in codes(layout, old) if code != "bridge.far"] == expected


@pytest.mark.parametrize(("lean", "expected"), [(0.03, []), (0.05, ["neck.edges_cross"])])
def test_edges_that_cross_before_the_saddle(lean: float, expected: list[str]) -> None:
    """Derived: edges 44 mm apart that each lean in by `lean` meet after 22 mm / lean: at 733 and at 440 mm."""
    layout = work_out(sample())
    assert layout.neck is not None
    assert layout.saddle is not None
    neck = replace(
        layout.neck,
        left_edge=Ray(at=(0.0, 22.0), direction=(1.0, -lean)),
        right_edge=Ray(at=(0.0, -22.0), direction=(1.0, lean)),
    )
    assert [finding.code for finding in saddle_findings(sample(), layout.saddle, neck)] == expected


def test_right_jobs_are_within_all_bounds() -> None:
    for job in (sample(), sample("tie-bridge"), sample("small-four"), invented(2), invented(5), invented(8)):
        layout = work_out(job)
        assert layout.neck is not None
        assert layout.saddle is not None
        assert saddle_findings(job, layout.saddle, layout.neck) == ()
        assert codes(layout, layout.old) == []


@pytest.mark.parametrize(("wide", "expected"), [("5/16 in", ""), ("19/64 in", "look")])
def test_a_size_that_reads_as_the_limit_is_usual(wide: str, expected: str) -> None:
    """Derived: 8 mm are 20.16 sixty-fourths of an inch, and 5/16 in 7.94 mm: they are not called under 5/16 in."""
    job = replace(changed(sample(), bridge={"width": wide, "front_to_slot": 2.0, "pins": None}), unit="in")
    assert grade(job, "bridge.width") == expected


def test_a_fret_that_waits_to_be_read_ends_no_board() -> None:
    """Fret 16 stands behind this bridge, and nobody has read it yet; fret 12 before it was."""
    layout = work_out(changed(sample(), bridge={"seat": "square"}))
    assert layout.neck is not None
    assert layout.frets is not None
    assert layout.bridge is not None
    beyond = next(line for line in layout.frets.lines if line.fret == 16).left[0]
    near = replace(
        layout.bridge,
        corners=tuple((x - layout.bridge.corners[0][0] + beyond - 9, y) for x, y in layout.bridge.corners),
    )
    waiting = Reading(id="waits", kind="fret", fret=16, on="left")
    read = tuple(one for one in sample().readings if one.kind != "fret" or (one.fret or 0) <= 12)
    job = replace(sample(), readings=(*read, waiting))
    found = bridge_findings(job, replace(layout.neck, end=None), layout.frets, near)
    assert [one.code for one in found if one.code == "bridge.on_board"] == []
    taken = replace(job, readings=(*read, replace(waiting, value=beyond)))
    found = bridge_findings(taken, replace(layout.neck, end=None), layout.frets, near)
    assert [one.code for one in found if one.code == "bridge.on_board"] == ["bridge.on_board"]


@pytest.mark.parametrize(
    ("front", "end", "room"),
    [
        # along straight lines, between the sides of the narrower of both (derived)
        (((450.0, 10.0), (430.0, -40.0)), ((440.0, 28.0), (440.0, -28.0)), -5.2),  # 430 + 20 × 12 / 50 at y −28
        (((430.0, 40.0), (450.0, -10.0)), ((440.0, 28.0), (440.0, -28.0)), -5.2),
        (((438.0, 75.0), (438.0, -75.0)), ((446.0, 28.0), (432.0, -28.0)), -8.0),
        (((438.0, 75.0), (438.0, -75.0)), ((432.0, 28.0), (446.0, -28.0)), -8.0),
        (((438.0, 75.0), (438.0, -20.0)), ((430.0, 28.0), (444.0, -28.0)), -4.0),  # 444 − 14 × 8 / 56 at y −20
        (((438.0, 20.0), (438.0, -75.0)), ((444.0, 28.0), (430.0, -28.0)), -4.0),
        (((440.1, 75.0), (440.1, -75.0)), ((440.0, 28.0), (440.0, -28.0)), None),
    ],
)
def test_a_front_edge_before_the_boards_end_at_either_side(
    front: tuple[tuple[float, float], ...], end: tuple[tuple[float, float], ...], room: float | None
) -> None:
    layout = work_out(sample())
    assert layout.neck is not None
    assert layout.frets is not None
    assert layout.bridge is not None
    bridge = replace(layout.bridge, corners=(*front, *layout.bridge.corners[2:]))
    found = bridge_findings(sample(), replace(layout.neck, end=end), layout.frets, bridge)
    assert [one.values["mm"] for one in found if one.code == "bridge.on_board"] == pytest.approx(
        [] if room is None else [room]
    )
