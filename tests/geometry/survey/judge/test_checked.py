"""Which readings would show a gross error, and which points hang on those that would not: both sides of each limit."""

from pathlib import Path

import numpy as np
import pytest

from app.file import job_file, samples
from geometry.layout import Fit
from geometry.survey import survey
from geometry.survey.judge.checked import checked_points, holds, shows

CORNERS = {"nut.left": 0, "nut.right": 2, "end.left": 4, "end.right": 6}
STATE = np.array([0.0, 22.0, 0.0, -22.0, 440.0, 28.0, 440.0, -28.0, 600.0, 0.0])
AT = CORNERS | {"old.1": 8}
BEYOND_95_80 = 4.1321
"""3.2905 + 0.8416, from the tables of the normal distribution."""


def gain(**moved: complex) -> np.ndarray:
    """What a millimetre in one reading moves, by the point's name with an underscore."""
    column = np.zeros((len(STATE), 1))
    for name, by in moved.items():
        at = AT[name.replace("_", ".")]
        column[at : at + 2, 0] = by.real, by.imag
    return column


@pytest.mark.parametrize(("redundancy", "sigma", "seen"), [(0.1, 9.0, True), (0.099, 9.0, False), (1.0, 9.0, True)])
def test_a_tenth_of_redundancy_shows_whatever_the_reading_is_worth(redundancy: float, sigma: float, seen: bool) -> None:
    assert bool(shows(np.array(redundancy), np.array(sigma))) == seen


@pytest.mark.parametrize(("error", "seen"), [(2.99, True), (3.01, False)])
def test_an_error_of_three_millimetres_must_show(error: float, seen: bool) -> None:
    # common practice, no source: 3 mm; derived: the least error that shows is 4.132 sigma over the root of redundancy
    assert bool(shows(np.array(0.0625), np.array(error * 0.25 / BEYOND_95_80))) == seen


@pytest.mark.parametrize("way", [1.0, -1.0, 1j, 0.6 + 0.8j])
@pytest.mark.parametrize(("moved", "held"), [(0.049, False), (0.051, True)])
def test_a_reading_holds_a_point_that_it_moves_by_a_twentieth(way: complex, moved: float, held: bool) -> None:
    found = holds(STATE, AT, gain(old_1=moved * way))
    assert found[:, 0].tolist() == [False] * 4 + [held]


def test_what_shifts_and_turns_all_points_alike_holds_none() -> None:
    places = STATE[0::2] + 1j * STATE[1::2]
    moves = {name.replace(".", "_"): 5.0 + 0.01j * places[at // 2] for name, at in AT.items()}
    assert not holds(STATE, AT, gain(**moves)).any()


def test_movements_are_seen_from_the_corners() -> None:
    """A turn of the corners alone is one of the point beside them. derived: they turn by 0.001 about (220, 0), and the
    point, 380 from there, stays where it is: seen from them it moves by 0.38.
    """
    places = STATE[0::2] + 1j * STATE[1::2]
    moves = {name.replace(".", "_"): 0.001j * (places[at // 2] - 220.0) for name, at in CORNERS.items()}
    assert holds(STATE, AT, gain(**moves))[:, 0].tolist() == [False] * 4 + [True]
    far = {name: 0.1 * by for name, by in moves.items()}
    assert not holds(STATE, AT, gain(**far)).any()


def test_without_corners_movements_are_seen_from_all_points() -> None:
    # derived: of two points one moves by 0.11 along the line between them: each by half of it from their middle
    state, at = np.array([0.0, 0.0, 100.0, 0.0]), {"a": 0, "b": 2}
    for moved, held in ((0.11, True), (0.09, False)):
        column = np.array([[0.0], [0.0], [moved], [0.0]])
        assert holds(state, at, column)[:, 0].tolist() == [held, held]


def test_points_in_one_place_tell_no_turn() -> None:
    state, at = np.zeros(4), {"a": 0, "b": 2}
    assert not holds(state, at, np.zeros((4, 1))).any()


def test_a_point_is_unchecked_where_a_reading_that_would_not_show_holds_it() -> None:
    moves = np.concatenate((gain(old_1=1.0), gain(end_left=1.0)), axis=1)
    seen, unseen = np.array([0.5, 0.5]), np.array([0.05, 0.5])
    sigma = np.array([1.0, 1.0])
    assert all(checked_points(STATE, AT, moves, seen, sigma).values())
    found = checked_points(STATE, AT, moves, unseen, sigma)
    assert [name for name, checked in found.items() if not checked] == ["old.1"]


@pytest.mark.parametrize("names", [(), ("nut.left",)])
def test_one_point_alone_is_not_checked(names: tuple[str, ...]) -> None:
    at = {name: AT[name] for name in names}
    assert checked_points(STATE, at, gain(), np.array([1.0]), np.array([0.1])) == dict.fromkeys(names, False)


def test_with_two_corners_alone_things_are_seen_from_these() -> None:
    """Derived: what turns both corners about their middle, and nothing else, is no movement of them but one of the
    point before them, by the turn times how far it lies off.
    """
    at = {name: AT[name] for name in ("nut.left", "nut.right", "old.1")}
    turned = holds(STATE, at, gain(nut_left=0.01j * 22j, nut_right=0.01j * -22j))
    assert turned[:, 0].tolist() == [False, False, True]


def test_one_corner_alone_tells_no_turn_and_things_are_seen_from_all() -> None:
    at = {"nut.left": 0, "seam.1": 4, "old.1": 8}
    column = np.zeros((len(STATE), 1))
    for to in at.values():
        by = 5.0 + 0.01j * complex(*STATE[to : to + 2])
        column[to : to + 2, 0] = by.real, by.imag
    assert not holds(STATE, at, column).any()


@pytest.mark.parametrize(
    ("redundancy", "smallest", "checked"),
    [(0.1, 9.0, True), (0.099, 3.0, True), (0.099, 3.01, False), (0.0, None, False)],
)
def test_a_reading_is_checked_as_its_points_are(redundancy: float, smallest: float | None, checked: bool) -> None:
    fit = Fit("r", 1.0, 1.0, 0.0, 0.2, redundancy, None if smallest is None else 0.0, 0.6, smallest)
    assert fit.checked == checked


@pytest.mark.parametrize("path", samples.paths(), ids=lambda path: path.stem)
def test_a_survey_tells_of_each_reading_what_it_takes_for_its_points(path: Path) -> None:
    for fit in survey(job_file.read(path)).fits:
        assert fit.checked == bool(shows(np.array(fit.redundancy), np.array(fit.sigma))), fit.id
