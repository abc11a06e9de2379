"""How far the outer strings run inside the board's edges."""

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Frets, Spread, String, Strings
from geometry.layout import Layout, Margin
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, job, scales, six, surveyed


def laid_out(strings: Strings | None = None, hand: str = "right", **blocks: object) -> Layout:
    made = job(BOARD, hand, strings=strings or six(bass=4.0, treble=4.0), **blocks)
    return lay_out(made, surveyed(BOARD, scales(640.0, 640.0)))


def told(layout: Layout) -> Finding:
    return next(finding for finding in layout.findings if finding.code == "margin.small")


def spread(nut: float, shift: float = 0.0) -> Strings:
    return Strings(
        list=tuple(String(name=str(i)) for i in range(1, 7)),
        nut=Spread(spread=nut),
        saddle=Spread(spread=56.0),
        compensation=(4.0,) * 6,
        shift=shift,
    )


def test_the_margin_runs_from_string_to_edge_along_the_nut_and_each_fret() -> None:
    # derived: at the nut 22 − 19; at fret 12, 320 mm out, the edge is at 22 + 6 × 320/440 = 26.364 and a string from
    # 19 to 28 at 644 − 0.06 at 19 + 9 × 320/643.94 = 23.472 (0.03 more or less by the path's lean)
    margins = laid_out().margins
    assert margins is not None
    assert margins.left[0] == pytest.approx(3.0)
    assert margins.left[12] == pytest.approx(2.892, abs=0.002)
    assert margins.left == pytest.approx(margins.right)


def test_there_is_one_for_the_nut_and_each_fret() -> None:
    margins = laid_out(frets=Frets(count=14)).margins
    assert margins is not None
    assert len(margins.left) == len(margins.right) == 15


def test_a_shift_takes_from_one_side_what_it_gives_the_other() -> None:
    margins = laid_out(spread(38.0, shift=0.5)).margins
    assert margins is not None
    assert (margins.left[0], margins.right[0]) == pytest.approx((2.5, 3.5))


def test_enough_room_is_not_worth_a_word() -> None:
    assert "margin.small" not in {finding.code for finding in laid_out().findings}


@pytest.mark.parametrize(("hand", "side"), [("right", "treble"), ("left", "bass")])
def test_the_smallest_is_named_with_its_place_and_side(hand: str, side: str) -> None:
    # derived: at fret 20, 438.4 mm out, the edge is at 22 + 6 × 438.4/440 = 27.978 and the string at 1.8 + 19 +
    # 9 × 438.4/643.94 = 26.927
    found = told(laid_out(spread(38.0, shift=1.8), hand))
    assert (found.grade, found.where) == ("look", "fret:20")
    assert found.text.startswith(f"At fret 20 the outer {side} string runs 1.1 ±0.2 mm from the board’s edge")


def test_a_string_beside_the_board_stops_the_work() -> None:
    # derived: (46 − 44) / 2 = 1 mm outside
    found = told(laid_out(spread(46.0)))
    assert (found.grade, found.where) == ("stop", "fret:0")
    assert "would lie 1.0 ±0.2 mm beyond the board’s edge" in found.text


def test_one_string_runs_in_the_middle() -> None:
    one = Strings(list=(String(name="1"),), saddle=Spread(spread=10.0), compensation=(3.0,))
    margins = laid_out(one).margins
    assert margins is not None
    assert (margins.left[0], margins.right[0]) == pytest.approx((22.0, 22.0))
    assert margins.left[12] == pytest.approx(26.364, abs=0.001)  # derived, as above


def at(layout: Layout, place: str, side: str) -> Margin:
    assert layout.margins is not None
    return next(m for m in layout.margins.at if (m.place, m.side) == (place, side))


def test_nut_fret_12_and_board_end_have_their_plus_minus() -> None:
    # derived: as above; at the end, 440 mm out, the edge is at 28 and the string at 19 + 9 × 440/643.94 = 25.149
    layout = laid_out()
    assert layout.margins is not None
    assert [(m.place, m.side) for m in layout.margins.at] == [
        (place, side) for place in ("nut", "fret 12", "board end") for side in ("left", "right")
    ]
    assert at(layout, "nut", "left").mm == pytest.approx(3.0)
    assert at(layout, "fret 12", "right").mm == pytest.approx(2.892, abs=0.002)
    assert at(layout, "board end", "left").mm == pytest.approx(2.851, abs=0.002)
    # derived: the nut's middle moves along with its corners, so each margin is half the nut's width less half the
    # spread: 0.1 × √2 / 2 × 1.96
    assert at(layout, "nut", "left").pm95 == pytest.approx(0.1386, abs=0.0005)


def test_the_ends_of_a_margin_are_string_and_edge() -> None:
    found = at(laid_out(), "board end", "right")
    assert found.edge_xy == pytest.approx((440.0, -28.0))
    assert found.string_xy == pytest.approx((440.0, -28.0 + found.mm))


def test_fret_12_as_it_was_read_is_the_edge_there() -> None:
    # derived: 0.4 beyond where the straight edge is
    points = BOARD | {"fret12.left": (320.0, 26.364 + 0.4), "fret12.right": (320.0, -26.364)}
    layout = lay_out(job(points, strings=six(bass=4.0, treble=4.0)), surveyed(points, scales(640.0, 640.0)))
    assert at(layout, "fret 12", "left").mm - at(layout, "fret 12", "right").mm == pytest.approx(0.4, abs=0.3)
    assert layout.points["fret12.left"].y - at(layout, "fret 12", "left").string_xy[1] == pytest.approx(
        at(layout, "fret 12", "left").mm, abs=0.01
    )


def test_an_edge_read_too_near_at_fret_12_is_named_there() -> None:
    # derived: 2.892 less 2.4 where fret 12 was read, with 2.9 at the frets beside it
    points = BOARD | {"fret12.left": (320.0, 26.364 - 2.4), "fret12.right": (320.0, -26.364)}
    layout = lay_out(job(points, strings=six(bass=4.0, treble=4.0)), surveyed(points, scales(640.0, 640.0)))
    assert told(layout).where == "fret:12"
    assert told(layout).values["mm"] == pytest.approx(at(layout, "fret 12", "left").mm)
    assert told(layout).values["mm"] < 1.0


def test_a_margin_is_a_check_distance() -> None:
    checks = {check.code: check for check in laid_out().checks}
    found = checks["margin.fret12.bass"]
    assert (found.from_, found.to) == ("outer bass string", "board’s edge at fret 12")
    assert (found.distance, found.pm95) == pytest.approx((2.892, at(laid_out(), "fret 12", "right").pm95), abs=0.002)
    assert checks["margin.nut.treble"].to == "board’s edge at the nut"
    assert checks["margin.end.treble"].to == "board’s edge at the board’s end"


def test_a_string_beside_the_board_is_no_distance_to_check() -> None:
    codes = {check.code for check in laid_out(spread(46.0)).checks}
    assert "margin.nut.bass" not in codes
    assert "margin.end.bass" in codes


@pytest.mark.parametrize(("nut", "grade"), [(44.2, "look"), (44.26, "look"), (44.3, "stop")])
def test_beyond_the_edge_by_less_than_its_plus_minus_is_not_claimed(nut: float, grade: str) -> None:
    # derived: 0.10, 0.13 and 0.15 mm beyond, known to ±0.1386
    found = told(laid_out(spread(nut)))
    assert found.grade == grade
    assert ("may lie beyond the board’s edge" in found.text) == (grade == "look")
    assert found.values["pm95"] == pytest.approx(0.1386, abs=0.0005)


def test_the_plus_minus_of_a_small_margin_at_any_fret() -> None:
    # derived: between the nut and the end, both known to 0.1386, and never better than in the middle between them
    found = told(laid_out(spread(38.0, shift=1.8)))
    assert found.values["fret"] == 20.0
    assert found.values["pm95"] == pytest.approx(0.138, abs=0.001)


def unchecked(strings: Strings) -> Layout:
    """The same board with its left edge read once only: no other reading holds it."""
    found = surveyed(BOARD, scales(640.0, 640.0))
    redundancy = found.redundancy.copy()
    redundancy[2:4] = 0.0  # the two rows that hold nut.left's y
    return lay_out(job(BOARD, strings=strings), replace(found, redundancy=redundancy))


def test_a_margin_on_a_width_that_no_reading_checks_says_so_and_stops_nothing() -> None:
    # derived: (46 - 44) / 2 = 1 mm outside, ±0.14; but the width could be out by millimetres
    layout = unchecked(spread(46.0))
    assert layout.margins is not None
    assert {m.place for m in layout.margins.at if not m.checked} >= {"nut"}
    found = told(layout)
    assert found.grade == "look"
    assert "The width is not checked: measure it again." in found.text
    assert all(m.checked for m in laid_out().margins.at)  # type: ignore[union-attr]  # it is laid out
