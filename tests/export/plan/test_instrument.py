"""The frets on the plan end where the board does."""

import pytest

from export.drawing.marks import XY, Line
from export.plan.instrument import on_board

ASKEW = ((460.0, 28.0), (440.0, -28.0))  # a board's end, 20 mm farther at the left


@pytest.mark.parametrize(
    ("x", "drawn"),
    [
        (430.0, Line((430.0, 27.0), (430.0, -27.0))),
        (
            450.0,
            Line((450.0, 27.0), (450.0, 0.0)),
        ),  # derived: midway between the corners the end lies at x = 450, y = 0
        (470.0, None),
    ],
)
def test_a_fret_is_drawn_as_far_as_the_board_goes(x: float, drawn: Line | None) -> None:
    assert on_board((x, 27.0), (x, -27.0), ASKEW) == drawn


def test_the_other_way_askew_the_right_part_is_drawn() -> None:
    end: tuple[XY, XY] = ((440.0, 28.0), (460.0, -28.0))
    assert on_board((450.0, 27.0), (450.0, -27.0), end) == Line((450.0, 0.0), (450.0, -27.0))


def test_where_no_end_was_measured_every_fret_is_whole() -> None:
    assert on_board((470.0, 27.0), (470.0, -27.0), None) == Line((470.0, 27.0), (470.0, -27.0))
