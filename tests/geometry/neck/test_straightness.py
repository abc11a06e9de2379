"""Edges that bend at fret 12 and boards that turn there: found against their own ±, and only then."""

import math

import numpy as np
import pytest
from msgspec.structs import replace

from app.edit.start.new_job import begin
from geometry.findings import Finding
from geometry.job import Board, Job
from geometry.job.neck.board import Centre
from geometry.layout import Layout
from geometry.neck.straightness import SURE
from geometry.work_out import lay_out, work_out
from tests.geometry.cranked import board, read
from tests.geometry.made import BOARD, XY, job, scales, six, surveyed

# derived: on a line from nut to board end, 324 and 104 mm off fret 12, a turn by 1° puts fret 12 off by
# 324 × 104 / 428 × tan 1° = 1.374 mm
OFF_PER_DEGREE = 324 * 104 / 428 * math.tan(math.radians(1))
BENDS = {"board.turns", "edge.bends", "edge.hollow"}


def told(layout: Layout, code: str) -> Finding:
    return next(finding for finding in layout.findings if finding.code == code)


def codes(layout: Layout) -> set[str]:
    return {finding.code for finding in layout.findings}


@pytest.mark.parametrize("turn", [1.0, -1.0, 2.0])
def test_a_board_that_turns_is_found_with_its_size_and_its_way(turn: float) -> None:
    found = told(work_out(read(board(turn))), "board.turns")
    assert (found.grade, found.where) == ("look", "field:board.centre")
    assert found.values["degrees"] == pytest.approx(turn, abs=0.02)
    assert abs(found.values["off"]) == pytest.approx(abs(turn) * OFF_PER_DEGREE, abs=0.03)
    assert f"by {abs(turn):.1f} ±" in found.text
    assert f"toward {'treble' if turn > 0 else 'bass'}" in found.text  # right-handed: treble lies left
    assert not codes(work_out(read(board(turn)))) & {"edge.bends", "edge.hollow", "board.straight"}


def test_for_the_other_hand_it_turns_the_other_way() -> None:
    assert "toward bass" in told(work_out(read(board(1.0), hand="left")), "board.turns").text


def test_one_degree_is_found_however_the_readings_err() -> None:
    # derived: the mean turn's standard deviation is that of the readings; a board is found unless it errs by more than
    # what lies between one degree and 3.29 of them
    random = np.random.default_rng(12)
    found = [codes(work_out(read(board(1.0), random=random))) for _ in range(60)]
    assert sum("board.turns" in one for one in found) >= 57
    assert all(one & BENDS for one in found)


def test_straight_boards_are_not_called_bent() -> None:
    # derived: 3.29 standard deviations are passed once in 1,000 edges, and the mean of two once in 1,000 boards of
    # which half turn alike; with 300 boards that is 0.75 findings, and 1 is one in 600 edges
    random = np.random.default_rng(20261128)
    found = [codes(work_out(read(board(), random=random))) & BENDS for _ in range(300)]
    assert sum(map(len, found)) <= 1


def test_a_straight_board_is_said_to_be_as_straight_as_was_read() -> None:
    found = told(work_out(read(board())), "board.straight")
    assert found.grade == "good"
    assert found.values["answered"] == 0.0
    assert "within ±" in found.text


def test_an_answer_that_is_false_on_one_side_contradicts_the_width() -> None:
    layout = work_out(read(board(2.0), falsely=("left",)))
    assert layout.survey.verdict != "clean"


def test_two_false_answers_are_said_to_be_all_there_is() -> None:
    layout = work_out(read(board(1.0), falsely=("left", "right")))
    found = told(layout, "board.straight")
    assert found.values["answered"] == 1.0
    assert "if both are wrong, no other reading shows it" in found.text


def test_an_unanswered_list_has_looked_at_nothing() -> None:
    wanted = begin(measuring="neck and bridge")
    answers = {reading.id: reading for reading in read(board(1.0)).readings}
    asked = {reading.id for reading in wanted.readings if reading.asked}
    readings = tuple(r if r.id in asked else answers[r.id] for r in wanted.readings)
    made = Job(points=wanted.points, readings=readings, strings=read(board()).strings)
    found = told(work_out(made), "board.unlooked")
    assert (found.grade, found.where) == ("look", "reading:r8")  # the list's first question
    assert "answer what the list asks of fret 12" in found.text


def test_a_board_read_by_its_corners_alone_was_not_looked_at() -> None:
    found = told(lay_out(job(), surveyed(BOARD, {})), "board.unlooked")
    assert found.text.startswith("Nobody has checked whether the edges are straight")
    assert found.where == "add:fret12.left+fret12.right"
    assert len(found.text) < 100  # it stands on every job of the shortest list


def test_the_edge_that_was_not_looked_at_is_named() -> None:
    points = BOARD | {"fret12.left": (320.0, 22.0 + 6 * 320 / 440)}
    text = told(lay_out(job(points), surveyed(points, {})), "board.unlooked").text
    assert "whether the bass edge is straight" in text


def bent(left: float, right: float, sd: float = 0.1) -> Layout:
    """Fret 12 moved to the left by so much on either edge of a straight board."""
    at = 22 + 6 * 320 / 440
    points: dict[str, XY] = BOARD | {"fret12.left": (320.0, at + left), "fret12.right": (320.0, right - at)}
    return lay_out(job(points, strings=six(bass=4.0, treble=4.0)), surveyed(points, scales(640.0, 640.0), sd))


def test_one_edge_that_bends_alone_is_named() -> None:
    layout = bent(1.0, 0.0)
    found = [finding for finding in layout.findings if finding.code in BENDS]
    assert [finding.code for finding in found] == ["edge.bends"]
    assert "The treble edge bends at fret 12" in found[0].text
    assert "1.0 ±0.3 mm outside" in found[0].text
    assert found[0].where == "point:fret12.left"


def test_edges_that_bend_against_each_other_are_two_findings() -> None:
    layout = bent(1.0, -1.0)
    assert [finding.code for finding in layout.findings if finding.code in BENDS] == ["edge.bends"] * 2
    assert codes(bent(0.6, 0.6)) & BENDS == {"board.turns"}


def test_a_bend_has_the_plus_minus_of_its_readings() -> None:
    # derived: off = f − (1 − s) n − s e with s = 320/440, so its variance is (1 + (1 − s)² + s²) sd² square to the
    # edge: sd × 1.2657 with sd 0.1; and the turn, off × 440 / (320 × 120) with it
    values = told(bent(1.0, 0.0), "edge.bends").values
    assert values["off"] == pytest.approx(1.0, abs=1e-3)
    assert values["off_pm95"] == pytest.approx(1.96 * 0.12657, rel=1e-3)
    per_mm = math.degrees(440 / (320 * 120))
    assert values["degrees"] == pytest.approx(-per_mm, rel=1e-3)
    assert values["degrees_pm95"] == pytest.approx(per_mm * values["off_pm95"], rel=1e-3)


@pytest.mark.parametrize(("times", "expected"), [(0.97, set()), (1.03, {"edge.bends"})])
def test_the_bound_is_the_readings_own(times: float, expected: set[str]) -> None:
    # derived: 0.12657 as above, for edges read ten times as finely a tenth of it
    for sd in (0.1, 0.01):
        assert codes(bent(times * SURE * 1.2657 * sd, 0.0, sd)) & BENDS == expected


def test_another_point_off_its_edge_is_a_hollow_by_its_own_plus_minus() -> None:
    straight = 22 + 6 * 220 / 440
    points: dict[str, XY] = BOARD | {"edge.left.1": (220.0, straight + 0.5)}
    found = told(lay_out(job(points), surveyed(points, {}, sd=0.1)), "edge.hollow")
    assert found.where == "point:edge.left.1"
    assert "0.5 ±0.3 mm off" in found.text
    assert "edge.hollow" not in codes(lay_out(job(points), surveyed(points, {}, sd=0.2)))


def test_points_on_a_bent_edge_are_measured_from_its_parts() -> None:
    turned = board(2.0)
    half = (turned["nut.left"] + turned["fret12.left"]) / 2
    at: dict[str, XY] = {name: (z.real, z.imag) for name, z in turned.items()} | {"edge.left.1": (half.real, half.imag)}
    found = codes(lay_out(job(at), surveyed(at, {})))
    assert found & BENDS == {"board.turns"}


def test_a_board_that_ends_at_fret_12_has_no_bend_there() -> None:
    points: dict[str, XY] = BOARD | {"fret12.left": (438.0, 27.97), "fret12.right": (438.0, -27.97)}
    assert not codes(lay_out(job(points), surveyed(points, {}))) & BENDS


def test_the_choice_of_centre_line_is_laid_open() -> None:
    """The two choices' margins are those that each gives when it is chosen."""
    values = told(work_out(read(board(1.0))), "board.turns").values
    for key, centre in (("whole", "bisector"), ("nut_to_12", "nut to fret 12")):
        layout = work_out(read(board(1.0), board=Board(centre=centre)))  # type: ignore[arg-type]  # one of the two
        assert layout.margins is not None
        assert layout.margins.at
        for margin in layout.margins.at:
            hand = "treble" if margin.side == "left" else "bass"
            place = {"nut": "nut", "fret 12": "fret12", "board end": "end"}[margin.place]
            assert values[f"{key}.{place}.{hand}"] == pytest.approx(margin.mm, abs=1e-9)
        assert told(layout, "board.turns").values["whole.fret12.bass"] == pytest.approx(values["whole.fret12.bass"])


def test_along_nut_to_fret_12_the_strings_run_in_the_middle_there() -> None:
    layout = work_out(read(board(1.0), board=Board(centre="nut to fret 12")))
    assert layout.neck is not None
    assert layout.margins is not None
    bass, treble = (
        next(m.mm for m in layout.margins.at if (m.place, m.side) == ("fret 12", s)) for s in ("right", "left")
    )
    assert bass == pytest.approx(treble, abs=0.02)
    assert layout.points["fret12.left"].y == pytest.approx(-layout.points["fret12.right"].y, abs=0.01)


def test_a_line_of_ones_own_is_told_beside_the_two() -> None:
    layout = work_out(read(board(1.0), board=Board(centre="midpoints")))
    found = told(layout, "board.turns")
    assert layout.margins is not None
    end = next(m.mm for m in layout.margins.at if (m.place, m.side) == ("board end", "right"))
    assert found.values["midpoints.end.bass"] == pytest.approx(end, abs=1e-9)
    assert "by the midpoints" in found.text
    lacking = work_out(read(board(1.0), board=Board(centre="threads")))  # no thread was read
    assert not any(key.startswith("threads.") for key in told(lacking, "board.turns").values)


def test_how_far_apart_the_bridge_comes_to_lie() -> None:
    # derived: nut to fret 12 runs along x. The whole board's middle is at y = 0, 0 and 104 sin 1° = 1.815 for
    # x = 0, 324 and 428, and the line of least squares through these is at −0.205 + 0.003230 x: 1.895 at 650
    values = told(work_out(read(board(1.0))), "board.turns").values
    assert abs(values["saddle_apart"]) == pytest.approx(1.895, abs=0.01)


def test_without_strings_the_turn_is_told_all_the_same() -> None:
    made = read(board(1.0))
    bare = Job(points=made.points, readings=made.readings)
    found = told(work_out(bare), "board.turns")
    assert "once the strings are known" in found.text
    assert not any(key.startswith("whole.") for key in found.values)


@pytest.mark.parametrize(
    ("centre", "lies"), [("bisector", "along the whole board"), ("nut to fret 12", "along nut to fret 12")]
)
def test_once_a_centre_line_is_chosen_it_is_said_and_nothing_is_left_to_look_at(centre: Centre, lies: str) -> None:
    made = read(board(1.0))
    found = told(work_out(replace(made, board=replace(made.board, centre=centre))), "board.turns")
    assert found.grade == "good"
    assert f"The neck centre line {lies} is used, as chosen." in found.text
    assert "Choose" not in found.text


def test_a_chosen_line_whose_points_are_not_held_is_still_to_be_looked_at() -> None:
    made = read(board(1.0))
    layout = work_out(replace(made, board=replace(made.board, centre="threads")))
    assert told(layout, "board.turns").grade == "look"


def test_the_whole_board_lies_the_same_chosen_or_not() -> None:
    made = read(board(1.0))
    chosen = work_out(replace(made, board=replace(made.board, centre="bisector")))
    assert chosen.saddle == work_out(made).saddle


@pytest.mark.parametrize(
    ("left", "right", "sd", "found"),
    [
        (1.0, 0.4, 0.1, ["board.turns"]),  # they surely differ, but the weaker turns by over half of their mean
        (1.0, 0.3, 0.1, ["edge.bends", "edge.bends"]),  # by less than half of it
        (1.7, 0.3, 0.3, ["board.turns"]),  # by less, but whether they differ at all is not sure
    ],
)
def test_edges_that_turn_one_way_turn_together_unless_they_surely_differ_much(
    left: float, right: float, sd: float, found: list[str]
) -> None:
    """derived: off has 1.2657 sd (above), the difference of two √2 of it, their mean 1/√2; sure is 3.29 times that"""
    one = 1.2657 * sd
    assert ((left - right) / (one * math.sqrt(2)) > SURE) == (sd == 0.1)
    assert (left + right) / 2 / (one / math.sqrt(2)) > SURE
    told = [finding.code for finding in bent(left, right, sd).findings if finding.code in BENDS]
    assert sorted(set(told)) == sorted(set(found))


@pytest.mark.parametrize(("hand", "told_of"), [("right", "bass"), ("left", "treble")])
def test_an_edge_that_bends_beside_a_string_that_starts_at_a_fret_may_be_a_board_that_grows_wider(
    hand: str, told_of: str
) -> None:
    """derived: the last string is the bass one, and lies on the right of a right-handed instrument"""
    strings = six(bass=4.0, treble=4.0)
    short = replace(strings, list=(*strings.list[:-1], replace(strings.list[-1], starts_at=5)))
    wide = 22 + 6 * 320 / 440 + 2.0
    points: dict[str, XY] = BOARD | {"fret12.left": (320.0, wide - 2.0), "fret12.right": (320.0, -wide)}
    found = told(lay_out(job(points, hand, strings=short), surveyed(points, scales(640.0, 640.0))), "edge.bends")
    assert f"The {told_of} edge bends" in found.text
    assert ("two threads" in found.text) == (told_of == "bass")
    assert "two threads" not in told(bent(0.0, -2.0), "edge.bends").text
