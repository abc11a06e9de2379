"""How round a board is: the chord and its rise, a compound board carried on, and the crown over a straight line."""

import math

import numpy as np
import pytest

from geometry.findings import Finding
from geometry.job import Arch, Board, Job, NotAJob
from geometry.layout import Layout
from geometry.solids.board_bend import FLAT, Bend, bend_at, bulge, bulge_sd, radius_of, read_bend
from geometry.solids.board_told import findings
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed

HEIGHTS = {"height.bridge.left": 12.0, "height.bridge.right": 12.0}


def made(board: Board) -> tuple[Job, Layout]:
    asked = job(BOARD, board=board, bridge=bridge(thickness=9.0), strings=six(bass=4.0, treble=2.0))
    return asked, lay_out(asked, surveyed(BOARD, scales(640.0, 640.0) | HEIGHTS))


def at(board: Board, x: float) -> Bend | None:
    asked, layout = made(board)
    assert layout.neck is not None
    assert layout.frets is not None
    return bend_at(asked, layout.neck, layout.frets, x)


def stops(board: Board) -> list[Finding]:
    return [finding for finding in made(board)[1].findings if finding.code == "board.radius"]


@pytest.mark.parametrize("radius", [60.0, 184.15, 305.0, 508.0])
def test_chord_and_rise_give_the_radius_back(radius: float) -> None:
    # derived: the rise of a circle over a chord 2a is R - √(R² - a²)
    rise = radius - math.sqrt(radius**2 - 20.0**2)
    assert radius_of(40.0, rise) == pytest.approx(radius)
    assert read_bend(Arch(chord=40.0, rise=rise)).radius == pytest.approx(radius)


def test_half_a_circle() -> None:
    assert radius_of(80.0, 40.0) == pytest.approx(40.0)  # derived: its rise is its radius


def test_the_spread_of_an_arch_is_that_of_its_readings() -> None:
    # derived: by differences of 1/R, the rise sure of ±0.1 (sd 0.1/√3), the chord's sd 0.3
    arch = Arch(chord=45.0, rise=0.9, within=0.1)
    rise = (1 / radius_of(45.0, 0.9 + 1e-5) - 1 / radius_of(45.0, 0.9 - 1e-5)) / 2e-5
    chord = (1 / radius_of(45.0 + 1e-4, 0.9) - 1 / radius_of(45.0 - 1e-4, 0.9)) / 2e-4
    assert read_bend(arch).sd == pytest.approx(math.hypot(rise * 0.1 / math.sqrt(3), chord * 0.3), rel=1e-5)


def test_a_board_of_one_radius_has_it_everywhere() -> None:
    near, far = at(Board(radius=305.0), 0.0), at(Board(radius=305.0), 640.0)
    assert near == far
    assert near is not None
    assert near.radius == pytest.approx(305.0)


def test_a_compound_board_is_a_cone_carried_on() -> None:
    # derived: 250 at the nut, 400 at 440 mm: 250 + 150 x 640/440 = 468.2 at 640
    found = at(Board(radius=(250.0, 400.0)), 640.0)
    assert found is not None
    assert found.radius == pytest.approx(250 + 150 * 640 / 440)
    half_way = at(Board(radius=(250.0, 400.0)), 220.0)
    assert half_way is not None
    assert half_way.radius == pytest.approx(325.0)


def test_a_cones_spread_by_a_straight_line_through_two_radii() -> None:
    # derived: 3 % of 250 and of 400, weighed -0.4545 and 1.4545 at 640 of 440 mm
    found = at(Board(radius=(250.0, 400.0)), 640.0)
    assert found is not None
    share = 640 / 440
    sd = math.hypot((1 - share) * 7.5, share * 12.0)
    assert found.sd * found.radius**2 == pytest.approx(sd)


def test_no_radius_is_flat() -> None:
    assert at(Board(), 640.0) == FLAT
    assert bulge(0.0, 27.0, np.array([0.0, 10.0])).tolist() == [0.0, 0.0]


@pytest.mark.parametrize("off", [-27.0, -13.0, 0.0, 8.0, 27.0, 35.0])
def test_the_bulge_by_three_dimensional_vectors(off: float) -> None:
    # derived: a point of a circle of 305 mm through two places 54 mm apart
    centre = np.array([0.0, -math.sqrt(305.0**2 - 27.0**2)])
    top = centre + 305.0 * np.array([off / 305.0, math.sqrt(1 - (off / 305.0) ** 2)])
    assert bulge(1 / 305.0, 27.0, np.array([off]))[0] == pytest.approx(top[1], abs=1e-9)


def test_the_bulges_spread_grows_with_the_bends() -> None:
    middle = np.zeros(1)
    # derived: a bulge is bend x half²/2 but for a part in a hundred, and so is its spread
    assert bulge_sd(Bend(1 / 305.0, 1e-4), 27.0, middle)[0] == pytest.approx(1e-4 * 27.0**2 / 2, rel=0.01)


def test_a_radius_of_less_than_half_the_boards_width_stops_the_work() -> None:
    (found,) = stops(Board(arch=(Arch(chord=20.0, rise=9.0),)))
    assert found.grade == "stop"
    # derived: 20²/72 + 4.5 = 10.06 mm against 56 of width
    assert found.text.startswith("The board’s radius is 10.1 mm, less than half of its width of 56.0 mm")
    assert found.where == "field:board.arch"
    assert not stops(Board(radius=305.0))


def test_two_radii_that_come_to_nothing_at_the_saddle_stop_the_work() -> None:
    (found,) = stops(Board(radius=(200.0, 60.0)))  # derived: 200 - 140 x 643/440 = -4.6
    assert found.text.startswith("Carried on to the saddle")
    layout = made(Board(radius=(200.0, 60.0)))[1]
    assert layout.saddle_blank is not None
    assert layout.saddle_blank.radius is None


@pytest.mark.parametrize(
    ("fields", "match"),
    [
        ({"radius": 20.0}, "The board’s radius is 20 mm, but must lie between 30 and 5000 mm"),
        ({"radius": (305.0, 9000.0)}, "The board’s radius"),
        ({"radius": 305.0, "arch": (Arch(chord=40.0, rise=0.7),)}, "keep one of them"),
        ({"arch": (Arch(chord=40.0, rise=0.7),) * 3}, "read at 3 places"),
    ],
)
def test_what_no_board_can_be_is_refused(fields: dict[str, object], match: str) -> None:
    with pytest.raises(NotAJob, match=match):
        Board(**fields)  # type: ignore[arg-type]  # a test gives the fields of a board


@pytest.mark.parametrize(
    ("fields", "match"),
    [
        ({"chord": 40.0, "rise": 21.0}, "more than half a circle"),
        ({"chord": 40.0, "rise": 0.0}, "The board’s rise"),
        ({"chord": 4.0, "rise": 0.5}, "The chord across the board"),
        ({"chord": 40.0, "rise": 0.5, "within": 5.0}, "How surely"),
    ],
)
def test_what_no_arch_can_be_is_refused(fields: dict[str, float], match: str) -> None:
    with pytest.raises(NotAJob, match=match):
        Arch(**fields)


@pytest.mark.parametrize(("times", "told"), [(1.01, 0), (0.99, 1)])
def test_the_radius_at_the_saddle_is_held_against_half_the_strings_spread(times: float, told: int) -> None:
    asked, layout = made(Board(radius=(300.0, 300.0)))
    assert layout.neck is not None
    assert layout.saddle is not None
    half = math.dist(*layout.saddle.at_strings) / 2  # derived: an arc of less has no chord so long
    assert len([*findings(asked, layout.neck, layout.saddle, Bend(1 / (times * half)))]) == told
