"""Filled in with an instrument's true values, every list leaves nothing loose and lays out the neck and the frets."""

from itertools import pairwise
from typing import get_args

import msgspec
import pytest

from geometry.advice.measuring_lists import LISTS, MeasuringList, Name, measuring_list
from geometry.job import Bridge, Held, Job, Point, Reading, Spread, String, Strings
from geometry.job.job import Hand
from geometry.survey import survey
from geometry.units import mm
from geometry.work_out import work_out

PLACES = {
    "nut.left": 0.2 + 21.6j,
    "nut.right": -0.2 - 21.4j,
    "fret12.left": 324.2 + 26.24j,
    "fret12.right": 323.8 - 25.906j,
    "end.left": 428.9 + 27.74j,
    "end.right": 428.3 - 27.36j,
    "seam.1": 490 - 2j,
    "seam.2": 745 + 5j,
    "old.1": 636 + 77j,
    "old.2": 633 - 76j,
    "old.3": 661 - 77j,
    "old.4": 664 + 76j,
    "pin.1": 659 + 26j,
    "pin.6": 656 - 27j,
    "foot.left": 640 + 52j,
    "foot.right": 637 - 50j,
    "tail.left": 742 + 19j,
    "tail.right": 741 - 17j,
    "body.1": 780 + 46j,
    "body.2": 781 - 44j,
    "mark.1": 638 + 53j,
    "mark.2": 635 - 51j,
    "mark.3": 652 - 52j,
    "mark.4": 654 + 52j,
    "hole.1": 628 + 36j,
    "hole.2": 626 - 35j,
    "hole.3": 660 - 36j,
    "hole.4": 661 + 35j,
}
"""An invented instrument, left-handed pins mirrored in the test; mm."""
KINDS: tuple[Held, ...] = get_args(Held)
kinds = pytest.mark.parametrize("held", KINDS)
lists = pytest.mark.parametrize("name", LISTS)
hands = pytest.mark.parametrize("hand", ["right", "left"])


def place(name: str, hand: Hand) -> complex:
    z = PLACES[name]
    return z.conjugate() if hand == "left" and name.startswith("pin.") else z


def part(d: complex, along: complex) -> complex:
    return d * along.conjugate() / abs(along)


def read(reading: Reading, hand: Hand) -> Reading:
    of = [place(name, hand) for name in reading.of]
    laid = [place(name, hand) for name in reading.from_]
    value: float | tuple[float, float] | None = None
    match reading.kind:
        case "distance":
            value = abs(of[1] - of[0])
        case "along":
            value = part(of[0] - laid[0], laid[1] - laid[0]).real
        case "off":
            off = part(of[0] - laid[0], laid[1] - laid[0]).imag
            assert (off > 0) == (reading.side == "left")
            value = abs(off)
        case "meets":
            edge, line = laid[1] - laid[0], of[1] - of[0]
            value = part(of[0] - laid[0], line).imag / part(edge, line).imag * abs(edge)
        case "rims":
            value = (abs(of[1] - of[0]) - 2.6, abs(of[1] - of[0]) + 2.6)
        case "fret":
            value = 648 * (1 - 2 ** (-(reading.fret or 0) / 12))
        case "height":
            value = 2.0
        case _:
            pass
    return msgspec.structs.replace(reading, value=value, asked=False)


def named(held: Held, name: Name, hand: Hand = "right", *, strings_on: bool = True) -> set[str]:
    """The families of points that a list reads."""
    points = measuring_list(name, hand, 6, strings_on=strings_on, held=held).points
    return {point.partition(".")[0] for point in points}


def filled(wanted: MeasuringList, hand: Hand) -> Job:
    strings = Strings(list=tuple(String(name=str(n)) for n in range(1, 7)), saddle=Spread(spread=55.0))
    return Job(
        hand=hand,
        points=wanted.points,
        readings=tuple(read(reading, hand) for reading in wanted.readings),
        strings=strings,
    )


@lists
@hands
def test_values_are_still_to_be_filled_in(name: Name, hand: Hand) -> None:
    wanted = measuring_list(name, hand, 6)
    assert all(reading.value is None for reading in wanted.readings)
    assert {point for reading in wanted.readings for point in (*reading.of, *reading.from_)} == set(wanted.points)
    assert [reading.id for reading in wanted.readings] == [f"r{n}" for n in range(1, len(wanted.readings) + 1)]


@lists
@hands
@kinds
@pytest.mark.parametrize("strings_on", [True, False])
def test_nothing_is_loose_and_the_readings_are_checked(name: Name, hand: Hand, held: Held, strings_on: bool) -> None:
    report = survey(filled(measuring_list(name, hand, 6, strings_on=strings_on, held=held), hand)).report
    assert report.verdict == "clean"
    assert report.loose == ()
    assert report.dof > 0


@lists
@hands
@kinds
def test_places_follow_without_the_rough_ones(name: Name, hand: Hand, held: Held) -> None:
    wanted = measuring_list(name, hand, 6, held=held)
    bare = msgspec.structs.replace(wanted, points=dict.fromkeys(wanted.points, Point()))
    solved = survey(filled(bare, hand))
    at = {point: complex(*solved.state[c : c + 2]) for point, c in solved.point_at.items()}
    for a in at:
        assert abs(at[a] - at["nut.left"]) == pytest.approx(abs(place(a, hand) - PLACES["nut.left"]), abs=0.1)


@lists
@hands
def test_the_saddle_can_be_placed(name: Name, hand: Hand) -> None:
    layout = work_out(filled(measuring_list(name, hand, 6), hand))
    assert layout.frame == "neck"
    assert layout.frets is not None
    assert layout.frets.scale == pytest.approx(648, abs=0.1)
    assert layout.saddle is not None


WHOLE: Name = "whole top with old work"


def test_what_an_old_bridge_left_follows_from_how_it_is_held() -> None:
    board = {"nut", "end", "fret12"}
    assert named("glue", WHOLE) == board | {"seam", "old", "pin"}
    assert named("strings", WHOLE) == board | {"seam", "foot", "mark", "tail", "body"}
    assert named("screws", WHOLE) == board | {"seam", "hole"}


def test_a_bridge_that_only_strings_hold_stands_while_they_are_on() -> None:
    assert "foot" in named("strings", "neck and bridge")
    assert "foot" not in named("strings", "neck and bridge", strings_on=False)
    assert "mark" in named("strings", WHOLE, strings_on=False)


def test_what_holds_the_strings_behind_a_floating_bridge_is_asked_for() -> None:
    """The tail hangs by the strings; the body's end, by which a strap pin is set, stays."""
    assert "tail" in named("strings", "neck and bridge")
    assert not {"tail", "foot"} & named("strings", WHOLE, strings_on=False)
    assert "body" in named("strings", WHOLE, strings_on=False)
    assert not {"tail", "body"} & (named("glue", WHOLE) | named("screws", WHOLE))


def test_the_short_list_is_the_board_and_the_frets_alone() -> None:
    readings = measuring_list("bridge only", "right", 6).readings
    assert [reading.kind for reading in readings] == ["distance"] * 6 + ["fret"] * 12


@pytest.mark.parametrize("held", get_args(Held))
@pytest.mark.parametrize("name", ["neck and bridge", "whole top with old work"])
def test_the_boards_end_is_read_from_fret_12_too(name: Name, held: Held) -> None:
    """The bridge is set from there, and all lengths from the nut may be out alike."""
    asked = {(one.of, one.from_) for one in measuring_list(name, "right", 6, held=held).readings if one.kind == "along"}
    assert {((f"fret12.{side}",), (f"end.{side}", f"nut.{side}")) for side in ("left", "right")} <= asked


def test_frets_are_read_in_one_laying_a_side() -> None:
    frets = [reading for reading in measuring_list("neck and bridge", "right", 6).readings if reading.kind == "fret"]
    assert [reading.fret for reading in frets] == [1, 3, 5, 7, 9, 12] * 2
    assert [reading.laid for reading in frets] == ["frets left"] * 6 + ["frets right"] * 6


@lists
@kinds
def test_each_straightedge_is_laid_down_once_over_the_top(name: Name, held: Held) -> None:
    """Readings from one straightedge over the top stand one after the other."""
    order = [
        reading.from_
        for reading in measuring_list(name, "right", 6, held=held).readings
        if reading.from_ and not any(point.startswith("fret12") for point in reading.of)
    ]
    changes = sum(one != two for one, two in pairwise(order))
    assert changes <= 1


def test_pin_one_is_the_treble_string() -> None:
    sides: list[tuple[Hand, tuple[str, str]]] = [("right", ("old.1", "old.4")), ("left", ("old.2", "old.3"))]
    for hand, near in sides:
        readings = measuring_list("whole top with old work", hand, 6).readings
        rims = [reading.of for reading in readings if reading.kind == "rims" and reading.of[1] == "pin.1"]
        assert {of[0] for of in rims[:2]} == set(near)


def test_without_pins_there_are_no_holes_to_read() -> None:
    readings = measuring_list("whole top with old work", "right", 4, pins=False).readings
    assert not any(reading.kind == "rims" for reading in readings)


def test_in_inches_the_rule_is_one_of_sixty_fourths() -> None:
    readings = measuring_list("bridge only", "right", 6, unit="in").readings
    assert {reading.with_ for reading in readings} == {"caliper 0.1", "rule 1/64"}


@lists
def test_with_the_strings_off_a_straightedge_is_read_in_their_stead(name: Name) -> None:
    on, off = (measuring_list(name, "right", 6, strings_on=strings_on).readings for strings_on in (True, False))
    asked = {(r.at, r.on) for r in off if r.kind == "height"}
    places = ("board end", "saddle") if any(r.kind == "height" for r in on) else ()
    assert asked == {(place, side) for place in places for side in ("left", "right")}
    assert [r.kind for r in off if r.kind != "height"] == [r.kind for r in on if r.kind != "height"]
    assert [r.id for r in off] == [f"r{n}" for n in range(1, len(off) + 1)]


def test_with_the_strings_off_the_saddles_height_comes_out_all_the_same() -> None:
    # derived: 2.0 under the straightedge is no room for a bridge of 9 mm
    made = filled(measuring_list("neck and bridge", "right", 6, strings_on=False), "right")
    layout = work_out(msgspec.structs.replace(made, bridge=Bridge(thickness=9.0)))
    assert {f.grade for f in layout.findings if f.code == "saddle.none"} == {"stop"}
    assert any(f.code == "saddle.height" for f in layout.findings)


@pytest.mark.parametrize(("strings", "pins"), [(1, []), (2, ["pin.1", "pin.2"]), (6, ["pin.1", "pin.6"])])
def test_the_outer_pin_holes_are_read_where_there_are_two(strings: int, pins: list[str]) -> None:
    made = measuring_list("whole top with old work", "right", strings)
    rims = [reading for reading in made.readings if reading.kind == "rims"]
    assert list(dict.fromkeys(reading.of[1] for reading in rims)) == pins


@hands
def test_rough_places_of_fret_12_lie_on_the_edges_from_nut_to_board_end(hand: Hand) -> None:
    # derived: a straight edge, half way to the saddle, to the half mm
    points = measuring_list("neck and bridge", hand, 6).points
    near = {name: complex(*map(mm, point.near)) for name, point in points.items() if point.near is not None}
    for side in ("left", "right"):
        nut, end, at = (near[f"{name}.{side}"] for name in ("nut", "end", "fret12"))
        assert at.real == pytest.approx(650 / 2, abs=0.1)
        assert at.imag == pytest.approx(nut.imag + (end.imag - nut.imag) * at.real / end.real, abs=0.5)


def test_where_the_points_of_the_lists_usually_lie() -> None:
    """Along the neck in the order they have on an instrument, the board wider at each place than at the one before, the
    outer holes within the footprint and no farther out than the board at its end; left and right alike (common
    practice, no source).
    """
    near = {
        name: point.near for one in LISTS for name, point in measuring_list(one, "right", 6, scale=640.0).points.items()
    }
    at = {name: complex(mm(place[0]), mm(place[1])) for name, place in near.items() if place is not None}
    order = ["nut.left", "fret12.left", "end.left", "seam.1", "old.1", "pin.1", "old.4", "seam.2"]
    along = [at[name].real for name in order]
    assert along == sorted(set(along))
    assert at["fret12.left"].real == 640.0 / 2
    across = [at[name].imag for name in ("nut.left", "fret12.left", "end.left", "old.1")]
    assert across == sorted(set(across))
    assert 0 < at["pin.1"].imag <= at["end.left"].imag
    mirrored = [("nut.left", "nut.right"), ("end.left", "end.right"), ("old.1", "old.2"), ("old.4", "old.3")]
    assert all(at[a] == at[b].conjugate() for a, b in [*mirrored, ("pin.1", "pin.6"), ("fret12.left", "fret12.right")])
    assert at["seam.1"].imag == at["seam.2"].imag == 0
