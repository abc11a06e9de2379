"""A point whose readings do not meet never takes the rest down with it."""

import numpy as np
import pytest

from geometry.job import Job, Point, Reading
from geometry.layout import Layout
from geometry.survey.rows.row import Row
from geometry.survey.start.piece_by_piece import put_together
from geometry.work_out import work_out
from tests.geometry.made import BOARD, XY

WEAK = ("body.2", "body.3", "body.4")


def measured(points: dict[str, XY], pairs: list[tuple[str, str]], near: bool, wrong: float = 0.0) -> Layout:
    """The layout from distances between these pairs, read to 0.1 mm with 0.2 mm of error; the last one `wrong`."""
    random = np.random.default_rng(7)
    readings = []
    for number, (a, b) in enumerate(pairs, 1):
        true = float(np.hypot(*np.subtract(points[a], points[b]))) + random.normal(0, 0.2)
        value = round(true + (wrong if number == len(pairs) else 0.0), 1)
        readings.append(Reading(id=f"r{number}", kind="distance", of=(a, b), value=value, sigma=0.2))
    known = {name: Point(near=(round(x), round(y)) if near else None) for name, (x, y) in points.items()}
    return work_out(Job(points=known, readings=tuple(readings)))


def sides() -> list[tuple[str, str]]:
    names = list(BOARD)
    return [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]


@pytest.mark.parametrize("near", [True, False])
def test_points_nearly_in_line_with_what_they_were_read_from_leave_the_board_standing(near: bool) -> None:
    # derived: body.2, body.3 and body.4 lie within 16 mm of the line through the board's end corners, 150 mm off, so
    # two distances from there barely settle them
    body = {f"body.{n}": (400.0 + 14 * n, 150.0 * (-1) ** n) for n in range(24)}
    pairs = sides() + [(corner, name) for name in body for corner in ("end.left", "end.right")]
    layout = measured(BOARD | body, pairs, near)
    assert layout.frame == "neck"
    assert {item.point for item in layout.survey.loose} <= set(WEAK)
    for name, (x, y) in BOARD.items():
        assert (layout.points[name].x, layout.points[name].y) == pytest.approx((x, y), abs=1.0)


@pytest.mark.parametrize("wrong", [-100.0, 60.0, 300.0])
def test_two_readings_that_cannot_meet_are_named_and_the_board_stands(wrong: float) -> None:
    points = BOARD | {"metal.1": (640.0, -60.0)}
    layout = measured(points, [*sides(), ("end.left", "metal.1"), ("end.right", "metal.1")], near=True, wrong=wrong)
    assert layout.frame == "neck"
    assert layout.points["end.left"].x == pytest.approx(440.0, abs=1.0)
    if "metal.1" not in layout.points:
        assert "metal 1" in layout.survey.why.whole


def test_a_board_that_contradicts_itself_is_still_said_to() -> None:
    layout = measured(dict(BOARD), sides(), near=False, wrong=60.0)
    assert layout.survey.verdict != "clean"


@pytest.mark.parametrize(("board", "stands"), [(2, False), (3, True), (4, True)])
def test_three_points_make_a_board_and_two_do_not(board: int, stands: bool) -> None:
    # derived: two points lie on one line, which has no bass and treble; a third off it tells them apart
    names = [*list(BOARD)[:board], "old.1"]
    pairs = [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]
    rows = [Row(id=f"{a} {b}", form="distance", points=(a, b), value=100.0, sigma=0.2) for a, b in pairs]
    pieces = put_together(rows, lambda net: "old.1" not in net.points)
    if not stands:
        assert pieces is None
        return
    assert pieces is not None
    assert set(pieces.net.points) == set(names) - {"old.1"}
    assert set(pieces.left_out) == {"old.1"}
    assert set(pieces.left_out["old.1"]) == {f"{name} old.1" for name in names[:-1]}
