"""The neck frame: where its origin lies, which way it runs, and what does not change it."""

import cmath
import math

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry import words
from geometry.job import Board
from geometry.layout import Layout
from geometry.neck.find_neck import edge_points
from geometry.perturbed_states import perturb
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, bridge, job, scales, six, surveyed

ASKEW: dict[str, XY] = {
    "nut.left": (0.3, 22.0),
    "nut.right": (-0.4, -21.5),
    "end.left": (441.0, 29.0),
    "end.right": (439.5, -27.2),
    "seam.1": (520.0, 3.0),
    "seam.2": (760.0, 9.0),
}


def laid_out(points: dict[str, XY], hand: str = "right", **blocks: object) -> Layout:
    made = job(points, hand=hand, strings=six(bass=4.3, treble=1.0), bridge=bridge(), **blocks)
    return lay_out(made, surveyed(points, scales(640.0, 641.0)))


def moved(points: dict[str, XY], by: complex, turn: float) -> dict[str, XY]:
    placed = {name: complex(*at) * cmath.exp(1j * turn) + by for name, at in points.items()}
    return {name: (at.real, at.imag) for name, at in placed.items()}


def test_a_true_board_is_its_own_frame() -> None:
    layout = lay_out(job(), surveyed(BOARD, {}))
    assert layout.frame == "neck"
    for name, at in BOARD.items():
        assert (layout.points[name].x, layout.points[name].y) == pytest.approx(at, abs=1e-9)


def test_the_edges_make_equal_angles_with_the_centre_line() -> None:
    neck = laid_out(ASKEW).neck
    assert neck is not None
    assert neck.left_edge.direction[1] == pytest.approx(-neck.right_edge.direction[1], abs=1e-12)


def test_the_origin_lies_on_the_nut_front() -> None:
    # derived: the nut's front crosses y = 0 at x = 0
    neck = laid_out(ASKEW).neck
    assert neck is not None
    (x0, y0), (x1, y1) = neck.nut
    assert x0 + (x1 - x0) * y0 / (y0 - y1) == pytest.approx(0.0, abs=1e-9)


def test_the_midpoints_may_be_chosen_instead() -> None:
    neck = laid_out(ASKEW, board=Board(centre="midpoints")).neck
    assert neck is not None
    assert neck.end is not None
    assert neck.end[0][1] == pytest.approx(-neck.end[1][1], abs=1e-9)
    assert neck.nut[0][1] == pytest.approx(-neck.nut[1][1], abs=1e-9)


def test_the_seam_is_seen_with_its_cant() -> None:
    # derived: (9 − 3) / (760 − 520) = 1.432° to the drawn axis, which the true board shares with its centre line
    points = BOARD | {"seam.1": (520.0, 3.0), "seam.2": (760.0, 9.0)}
    neck = lay_out(job(points), surveyed(points, {})).neck
    assert neck is not None
    assert neck.seam is not None
    assert math.degrees(math.atan2(*neck.seam.direction[::-1])) == pytest.approx(1.432, abs=0.0005)


def test_a_point_off_its_edge_line_is_a_finding() -> None:
    points = BOARD | {"edge.left.1": (220.0, 27.5)}
    found = lay_out(job(points), surveyed(points, {})).findings
    assert "edge.hollow" in {finding.code for finding in found}


@given(
    x=st.floats(-2000, 2000),
    y=st.floats(-2000, 2000),
    turn=st.floats(-math.pi, math.pi),
)
def test_moving_and_turning_the_instrument_changes_nothing(x: float, y: float, turn: float) -> None:
    here, there = laid_out(ASKEW), laid_out(moved(ASKEW, complex(x, y), turn))
    assert here.saddle is not None
    assert there.saddle is not None
    assert there.saddle.at_strings[0] == pytest.approx(here.saddle.at_strings[0], rel=1e-8, abs=1e-8)
    assert there.saddle.pm95 == pytest.approx(here.saddle.pm95, rel=1e-5)
    assert [check.distance for check in there.checks] == pytest.approx([check.distance for check in here.checks])
    assert there.points["seam.2"].sx == pytest.approx(here.points["seam.2"].sx, rel=1e-5)


def test_a_mirrored_instrument_of_the_other_hand_is_the_mirror_image() -> None:
    other = {
        name.replace("left", "~").replace("right", "left").replace("~", "right"): (x, -y)
        for name, (x, y) in ASKEW.items()
    }
    here = laid_out(ASKEW)
    strings = six(bass=4.3, treble=1.0)
    made = job(other, hand="left", strings=strings, bridge=bridge())
    there = lay_out(made, surveyed(other, scales(641.0, 640.0)))
    assert here.saddle is not None
    assert there.saddle is not None
    left, right = here.saddle.at_strings
    assert there.saddle.at_strings[1] == pytest.approx((left[0], -left[1]), abs=1e-9)
    assert there.saddle.at_strings[0] == pytest.approx((right[0], -right[1]), abs=1e-9)
    assert there.saddle.longer == here.saddle.longer


THREADS: dict[str, XY] = {
    "thread.left.nut": (0.0, 19.0),
    "thread.right.nut": (0.0, -17.0),
    "thread.left.end": (440.0, 26.0),
    "thread.right.end": (440.0, -22.0),
}


def test_threads_that_lie_to_one_side_carry_the_centre_line_with_them() -> None:
    # derived: the threads' middle is 1 left of the board's at the nut and 2 at its end
    layout = laid_out(BOARD | THREADS, board=Board(centre="threads"))
    assert layout.neck is not None
    assert layout.points["nut.left"].y == pytest.approx(21.0, abs=0.01)
    assert layout.points["end.left"].y == pytest.approx(26.0, abs=0.01)
    assert "neck.centre" not in {finding.code for finding in layout.findings}


@pytest.mark.parametrize(("centre", "lacking"), [("threads", "thread.left.nut"), ("midpoints", "end.right")])
def test_a_centre_line_whose_points_are_not_held_is_said(centre: str, lacking: str) -> None:
    points = {name: at for name, at in (BOARD | THREADS | {"edge.right.1": (300.0, -26.0)}).items() if name != lacking}
    layout = laid_out(points, board=Board(centre=centre))  # type: ignore[arg-type]  # one of the three
    (found,) = (finding for finding in layout.findings if finding.code == "neck.centre")
    assert words.called(lacking, "right") in found.text
    assert layout.neck is not None


def test_left_and_right_exchanged_stop_the_work() -> None:
    points = BOARD | {"nut.left": (0.0, -22.0), "nut.right": (0.0, 22.0)}
    found = {finding.code: finding for finding in laid_out(points).findings}
    assert found["neck.sides"].grade == "stop"
    assert "Bass and treble are exchanged at the nut." in found["neck.sides"].text


@pytest.mark.parametrize(("place", "field"), [("nut", "point:nut.left"), ("end", "point:end.left")])
def test_sides_exchanged_lead_to_where_they_are(place: str, field: str) -> None:
    left, right = BOARD[f"{place}.left"], BOARD[f"{place}.right"]
    layout = laid_out(BOARD | {f"{place}.left": right, f"{place}.right": left})
    (found,) = (finding for finding in layout.findings if finding.code == "neck.sides")
    assert found.where == field


@pytest.mark.parametrize("where", [(0.0, 22.0), (40.0, 22.5)])
def test_an_edge_needs_a_point_well_away_from_the_nut(where: XY) -> None:
    layout = laid_out(BOARD | {"end.left": where})
    assert layout.neck is None
    (found,) = (finding for finding in layout.findings if finding.code == "neck.missing")
    assert "a second point on the treble edge well away from the nut" in found.text


def test_nut_corners_in_one_place_are_no_nut() -> None:
    layout = laid_out(BOARD | {"nut.right": (0.0, 22.0)})
    assert layout.neck is None
    assert "the nut’s two corners apart" in layout.findings[-1].text


@pytest.mark.parametrize(("sd", "kept"), [(2.0, True), (2.001, False)])
def test_a_point_that_is_hardly_known_is_on_its_edge_only_where_nothing_better_is(sd: float, kept: bool) -> None:
    points = BOARD | {"edge.left.1": (220.0, 25.0)}
    found = surveyed(points, {})
    at, cov = found.point_at["edge.left.1"], found.cov.copy()
    cov[at + 1, at + 1] = sd**2
    weak = msgspec.structs.replace(found, cov=cov)
    assert edge_points(perturb(weak, points, ()), "left") == ("nut.left", "end.left", *(["edge.left.1"] * kept))
    endless = {name: place for name, place in weak.point_at.items() if name != "end.left"}
    states = perturb(msgspec.structs.replace(weak, point_at=endless), endless, ())
    assert edge_points(states, "left") == ("nut.left", "edge.left.1")
