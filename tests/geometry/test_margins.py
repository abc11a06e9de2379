"""How far the outer strings run inside the board's edges."""

import pytest

from geometry.findings import Finding
from geometry.job import Frets, Spread, String, Strings
from geometry.layout import Layout
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
    assert found.text.startswith(f"At fret 20 the outer {side} string runs 1.1 ±0.2 mm from the board's edge")


def test_a_string_beside_the_board_stops_the_work() -> None:
    # derived: (46 − 44) / 2 = 1 mm outside
    found = told(laid_out(spread(46.0)))
    assert (found.grade, found.where) == ("stop", "fret:0")
    assert "would lie 1.0 ±0.2 mm beyond the board's edge" in found.text


def test_one_string_runs_in_the_middle() -> None:
    one = Strings(list=(String(name="1"),), saddle=Spread(spread=10.0), compensation=(3.0,))
    margins = laid_out(one).margins
    assert margins is not None
    assert (margins.left[0], margins.right[0]) == pytest.approx((22.0, 22.0))
    assert margins.left[12] == pytest.approx(26.364, abs=0.001)  # derived, as above
