"""The campaign's own geometry: by hand where a hand can, and against the program where no reading is in error."""

import cmath
import math

import pytest
from msgspec.structs import replace

from geometry.work_out import work_out
from tests.campaign.invented.cases import CASES, Case, cases_named
from tests.campaign.invented.instruments import Instrument, Seat, Strung, best_line, meet, neck_of, through, truth_of
from tests.campaign.invented.trials import trial_of
from tests.campaign.judging import figures_of, points_of

SAME, SLANTED = 1e-3, 5e-2
"""mm: rounding, and what an exact reading's stated fineness of 0.001 mm leaves to the program's own assumptions. Where
frets are slanted it takes the board's edge to lie about a tenth of the strings' spread outside them.
"""
SQUARE = {"nut.left": 22j, "nut.right": -22j, "end.left": 440 + 28j, "end.right": 440 - 28j}


def square(**changes: object) -> Instrument:
    """A board that is square, 44 mm wide at the nut, with four parallel strings on a scale of 640 mm."""
    bare = Instrument(
        hand="right",
        scale=(640.0, 640.0),
        shift=0.0,
        crank=0.0,
        strung=Strung(count=4, nut_spread=36, saddle_spread=36, shift=0, compensation=(1.0, 2.0, 3.0, 4.0)),
        seat=Seat(square=True, length=100, width=20, thickness=3, peak_at=0.5),
        points=dict(SQUARE),
        holes={},
        heights={},
    )
    return replace(bare, **changes)


def test_a_square_instrument_by_hand() -> None:
    truth = truth_of(square(), ("nut", "end"))
    # derived: string 1 is the treble, on the left of a right hand: 640 + 1 there, 640 + 4 at the bass
    assert truth.saddle == pytest.approx((641.0, 644.0))
    assert truth.slant == pytest.approx(3.0)
    assert truth.nominal == (640.0, 640.0)
    # derived: the line's middle 642.5, half the saddle's thickness before it along 3 in 36, and 0.38 of 20 more
    assert truth.front[0] == pytest.approx(642.5 - 1.5 * math.cos(math.atan(3 / 36)) - 7.6)
    assert truth.front[0] == pytest.approx(truth.front[1])


def test_a_bridge_that_turns_with_its_slot() -> None:
    seat = Seat(square=False, length=100, width=20, thickness=3, peak_at=0.5)
    front = truth_of(square(seat=seat), ("nut", "end")).front
    # derived: the treble at the left stands nearer by 3 in 36, over 100 mm of bridge at that angle
    assert front[1] - front[0] == pytest.approx(100 * math.sin(math.atan(3 / 36)))


def test_a_moved_nut_and_scales_of_two_lengths_by_hand() -> None:
    truth = truth_of(square(scale=(640.0, 646.0), shift=1.5), ("nut", "end"))
    assert truth.nominal == (638.5, 644.5)
    assert truth.saddle == pytest.approx((639.5, 648.5))
    # derived: half of 640, less the shift
    assert square(shift=1.5).fret(12, 0) == pytest.approx(318.5)
    askew = square(shift=1.5, askew=0.4)
    assert (askew.fret(12, 0), askew.fret(12, 1)) == pytest.approx((318.3, 318.7))


def test_the_neck_is_the_bisector_wherever_the_board_lies() -> None:
    turned = {name: 5 - 3j + cmath.rect(1, 0.3) * point for name, point in SQUARE.items()}
    neck = neck_of(turned, ("nut", "end"))
    assert neck.origin == pytest.approx(5 - 3j)
    assert cmath.phase(neck.way) == pytest.approx(0.3)


def test_lines_by_hand() -> None:
    assert meet(through(0j, 1 + 1j), through(2 + 0j, 2 + 1j)) == pytest.approx(2 + 2j)
    # derived: of three points on a bend the best line lies a third of its height over the ends
    normal, reach = best_line([0j, 100 + 0.3j, 200 + 0j])
    assert normal == pytest.approx(1j)
    assert reach == pytest.approx(0.1)


def test_a_crank_bends_both_edges_alike() -> None:
    crank = next(case for case in CASES if case.wish.cranked)
    for index in range(3):
        points = trial_of(crank, 3, index).truth.points
        bends = [
            cmath.phase((points[f"end.{s}"] - points[f"fret12.{s}"]) / (points[f"fret12.{s}"] - points[f"nut.{s}"]))
            for s in ("left", "right")
        ]
        assert bends[0] == pytest.approx(bends[1])
        assert 0.3 <= abs(math.degrees(bends[0])) <= 2.0


def exact(case: Case) -> Case:
    """The same instruments, read without any error by a hand that leaves nothing out and slips nowhere."""
    return replace(case, manner=replace(case.manner, exact=True, skips=0.0), slip="", few=False)


@pytest.mark.parametrize("case", cases_named([]), ids=lambda case: case.name)
def test_without_error_the_program_says_what_is_true(case: Case) -> None:
    for index in range(6):
        trial = trial_of(exact(case), 5, index)
        layout = work_out(trial.job)
        figures, points = figures_of(layout, trial), points_of(layout, trial)
        assert len(figures) == 9
        assert {name.split(" ")[0] for name in points} == set(trial.job.points)
        for name, figure in (figures | points).items():
            assert abs(figure.off) <= (SLANTED if case.wish.slanted else SAME), (index, name)
