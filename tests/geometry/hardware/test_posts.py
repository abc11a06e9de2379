"""Rows of new posts fitted to old holes on a middle line along x, 22 mm from it, by arithmetic done here."""

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.hardware.post_rows import PostRow, fit, spacing
from geometry.hardware.posts import TOLD_APART, USED_AGAIN, MiddleLine, OldPosts, is_loose, is_worn, old_posts
from geometry.job import Job, OldPost, Reading, Tuners
from geometry.job.measured.readings import Point as JobsPoint
from geometry.units import Unit, mm
from tests.in_one import in_one

MIDDLE = MiddleLine(np.zeros(2, dtype=complex), np.full(2, -1 + 0j))
NO = np.empty(0, dtype=bool)
NONE = OldPosts(np.empty((2, 0), dtype=complex), np.empty(0), (), NO, np.empty(0), NO)


def old(*along: float, diameters: tuple[float, ...] = ()) -> OldPosts:
    """Old holes so far from the nut on the left; in the second row of states 1 mm farther."""
    first = np.array([-x + 22j for x in along])
    wide = np.array(diameters or (6.0,) * len(along))
    return OldPosts(
        np.array((first, first - 1)),
        wide,
        tuple("abcd"[: len(along)]),
        np.zeros(len(along), dtype=bool),
        np.full(len(along), USED_AGAIN),
        np.zeros(len(along), dtype=bool),
    )


def row(holes: OldPosts, keep: str = "first post", posts: int = 3, **fields: object) -> PostRow:
    tuners = Tuners(keep=keep, left=(posts,), right=(), **fields)  # type: ignore[arg-type]  # one of four, and lengths
    wide = dict(zip(holes.names, holes.diameters.tolist(), strict=True))
    worn = np.array([is_worn(Job(), name, OldPost(diameter=size), size, tuners) for name, size in wide.items()])
    loose = np.array([is_loose(Job(), name, size, tuners) for name, size in wide.items()])
    old = holes._replace(worn=worn, loose=loose) if wide else holes
    (found,) = fit(MIDDLE, {"left": old, "right": NONE}, tuners)
    return found


def stands(holes: OldPosts, keep: str = "first post", posts: int = 3, **fields: object) -> list[float]:
    return [-float(at.real) for at in row(holes, keep, posts, **fields).at[0]]


def test_most_old_holes_are_used_again() -> None:
    """derived: 35 apart, new ones at 85 and 120 use two old holes, with the third at 50 or at 155: 50 is nearer"""
    assert stands(old(45.0, 85.0, 120.0), "most old holes") == pytest.approx([50.0, 85.0, 120.0])


@pytest.mark.parametrize(("first", "wanted"), [(9.0, [45.0, 80.0, 115.0]), (8.0, [50.0, 85.0, 120.0])])
def test_least_wood_is_plugged(first: float, wanted: list[float]) -> None:
    """derived: used again is the first hole, or the two of 6 mm: 6² + 6² = 72 lies between 8² and 9²"""
    holes = old(45.0, 85.0, 120.0, diameters=(first, 6.0, 6.0))
    assert stands(holes, "least wood", post=9.0) == pytest.approx(wanted)


def test_of_fits_that_keep_as_much_the_one_that_moves_the_middle_least() -> None:
    """derived: each fit keeps one hole; the old ones' mean is 100.3, and with 105 in the middle the new ones' is 105"""
    assert stands(old(46.0, 105.0, 150.0), "most old holes") == pytest.approx([70.0, 105.0, 140.0])


def test_the_first_or_the_middle_is_kept() -> None:
    holes = old(45.0, 85.0, 121.0)
    assert stands(holes) == pytest.approx([45.0, 80.0, 115.0])
    # derived: the old ones' ends halve at 83
    assert stands(holes, "middle post") == pytest.approx([48.0, 83.0, 118.0])
    assert (-row(holes, "middle post").at[1].real).tolist() == pytest.approx([49.0, 84.0, 119.0])


@pytest.mark.parametrize(("beside", "again"), [(0.29, ("a", "b", "")), (0.31, ("a", "", "")), (-0.29, ("a", "b", ""))])
def test_a_hole_is_used_again_where_the_new_one_lies_on_it(beside: float, again: tuple[str, ...]) -> None:
    """common practice, no source: 0.3 mm (docs/numbers.md)"""
    assert row(old(45.0, 80.0 + beside)).again == again


@pytest.mark.parametrize(
    ("wide", "drilled", "again"),
    [
        (8.0, {"post": 8.0}, "a"),
        (8.14, {"post": 8.0}, "a"),
        (8.16, {"post": 8.0}, ""),
        (8.1, {"post": 6.0, "bushing": 8.1}, "a"),
        (8.7, {"bushing": 8.7}, "a"),
        (7.94, {"bushing": 8.73}, "a"),
        (6.35, {"bushing": 8.73}, "a"),
        (11.0, {"bushing": 8.7}, ""),
    ],
)
def test_a_hole_wider_than_the_new_one_is_not_used_again(wide: float, drilled: dict[str, Any], again: str) -> None:
    """derived: a drill takes away a hole on its place that is no wider than itself; of a wider one a ring stays open.
    A caliper tells 0.15 mm (common practice, no source: docs/numbers.md)
    """
    assert row(old(45.0, diameters=(wide,)), **drilled).again[0] == again


@in_one(
    ("fields", "worn", "loose"),
    [
        ({"worn": True}, True, False),
        ({}, False, False),
        ({"diameter": 6.5}, False, False),
        ({"diameter": 6.51}, False, True),
        ({"diameter": 8.85}, False, True),
        ({"diameter": 8.86}, True, True),
    ],
)
def test_a_hole_is_worn_as_ticked_or_by_its_size(fields: dict[str, Any], worn: bool, loose: bool) -> None:
    """derived: a bushing of 8.7 mm takes away what is no wider than itself, and holds a post of 6.35 mm in it; a
    caliper tells 0.15 mm (common practice, no source: docs/numbers.md)
    """
    hole, tuners = OldPost(**{"diameter": 6.0} | fields), Tuners(post=6.35, bushing=8.7)
    wide = mm(hole.diameter)
    assert (is_worn(Job(), "post.1", hole, wide, tuners), is_loose(Job(), "post.1", wide, tuners)) == (worn, loose)


@in_one(
    ("unit", "with_", "wide", "worn"),
    [
        ("in", "rule 1/64", 16.5 / 64 * 25.4, False),
        ("in", "rule 1/64", 17 / 64 * 25.4, True),
        ("in", None, 16.4 / 64 * 25.4, False),
        ("in", None, 16.6 / 64 * 25.4, True),
        ("mm", "rule 0.5", 6.6, False),
        ("mm", "caliper 0.05", 6.6, True),
        ("mm", "caliper 0.05", 6.45, False),
    ],
)
def test_a_hole_is_worn_only_where_what_read_it_tells(unit: Unit, with_: str | None, wide: float, worn: bool) -> None:
    """derived: 1/4 in is wanted. Half a 64th is 0.20 mm, less than √2 · 0.18 = 0.25 mm, a 64th 0.40 mm; where nobody
    read the rims, 16.4/64 is told as 1/4 and 16.6/64 as 17/64; of half millimetres √2 · 0.2 = 0.28 mm holds the
    0.25 mm, of a caliper 0.15 mm does not, but 0.10 mm
    """
    of = ("nut.left", "post.1")
    read = (Reading(id="r1", kind="rims", of=of, value=(10.0, 16.0), with_=with_),) if with_ else ()
    job = Job(unit=unit, points=dict.fromkeys(of, JobsPoint()), readings=read)
    tuners = Tuners(post="1/4 in")
    assert is_worn(job, "post.1", OldPost(diameter=wide), wide, tuners) == worn
    assert is_loose(job, "post.1", wide, tuners) == worn


def test_of_as_many_old_holes_those_that_fit_the_post_are_kept() -> None:
    """derived: 45 and 80, or 90 and 125, can be kept; a post of 6.35 mm is loose in the first two, 8 mm wide, whose row
    would move the middle no more
    """
    holes = old(45.0, 80.0, 90.0, 125.0, diameters=(8.0, 8.0, 6.35, 6.35))
    assert stands(holes, "most old holes", posts=2, bushing=8.7) == pytest.approx([90.0, 125.0])


WAYS = ("first post", "middle post", "most old holes", "least wood")


@settings(max_examples=150, deadline=None)
@given(st.data(), st.integers(2, 6), st.integers(1, 6), st.floats(18.0, 40.0), st.booleans())
def test_each_way_is_as_good_as_the_others_at_what_it_is_named_for(
    data: st.DataObject, olds: int, posts: int, apart: float, slotted: bool
) -> None:
    """derived: no fit of the four uses more old holes than that which keeps most, nor plugs more wood than that which
    plugs least, nor leaves the first or the middle farther off than that which keeps it; holes a little off their
    places, along and across, some of them worn
    """
    off = st.floats(-0.6, 0.6)
    old_apart = data.draw(st.sampled_from([apart, apart + 0.2, apart * 1.3]))
    at = np.array([complex(-45.0 - old_apart * k + data.draw(off), 22.0 + data.draw(off)) for k in range(olds)])
    wide = np.array([data.draw(st.sampled_from([6.0, 6.35, 8.0])) for _ in range(olds)])
    worn = np.array([data.draw(st.booleans()) and data.draw(st.booleans()) for _ in range(olds)])
    near = np.array([data.draw(st.sampled_from([USED_AGAIN, 0.45, TOLD_APART])) for _ in range(olds)])
    holes = OldPosts(
        np.array((at, at)), wide, tuple("abcdef"[:olds]), worn, near, np.array([size > 6.5 for size in wide.tolist()])
    )
    found = {}
    for keep in WAYS:
        tuners = Tuners(keep=keep, left=(posts,), right=(), spacing=apart, roller=10.0 if slotted else None)  # type: ignore[arg-type]  # one of four
        (found[keep],) = fit(MIDDLE, {"left": holes, "right": NONE}, tuners)
    kept = {keep: sum(bool(name) for name in one.again) for keep, one in found.items()}
    lost = {
        keep: round(sum(d * d for d, name in zip(wide, "abcdef", strict=False) if name not in one.again), 6)
        for keep, one in found.items()
    }
    first = {keep: round(abs(float((one.at[0, 0] - at[0]).real)), 2) for keep, one in found.items()}
    assert kept["most old holes"] == max(kept.values())
    assert lost["least wood"] == min(lost.values())
    # the row's line leans a little, by which a first post that keeps its place along it is off along the neck
    assert first["first post"] <= min(first.values()) + 0.04
    for one in found.values():
        for name, post in zip(one.again, one.at[0], strict=True):
            if name:
                beside = post - at["abcdef".index(name)]
                assert abs(beside.real if slotted else beside) < near["abcdef".index(name)]
                assert not worn["abcdef".index(name)]


def test_two_holes_are_kept_from_between_them() -> None:
    """derived: 35 apart, holes at 45 and 80.5: right on one of them the other is 0.5 mm off, from between each 0.25"""
    found = row(old(45.0, 80.5), "most old holes", posts=2)
    assert found.again == ("a", "b")
    assert (-found.at[0].real).tolist() == pytest.approx([45.25, 80.25])


def test_what_stands_off_the_rows_line_does_not_draw_it() -> None:
    """derived: of 45, 80, 115 and 150, 0.6 mm to and fro across the row's line, none is within 0.3 mm of a post on that
    line, though three lie 35 apart; 97.5, which is on it, is what can be kept
    """
    at = np.array([-45 + 22.6j, -80 + 21.4j, -97.5 + 22j, -115 + 21.4j, -150 + 22.6j])
    holes = OldPosts(
        np.array((at, at)),
        np.full(5, 6.0),
        tuple("abcde"),
        np.zeros(5, dtype=bool),
        np.full(5, USED_AGAIN),
        np.zeros(5, dtype=bool),
    )
    assert [name for name in row(holes, "most old holes").again if name] == ["c"]


def test_wider_holes_do_not_draw_the_row() -> None:
    """derived: holes of 6.35 mm cannot use the two of 11 mm, so that the one of 6 mm is used again: of the rows through
    46 the one whose mean, 81, lies nearest to the old ones', 83.7, begins there
    """
    holes = old(46.0, 85.0, 120.0, diameters=(6.0, 11.0, 11.0))
    assert stands(holes, "most old holes") == pytest.approx([46.0, 81.0, 116.0])


def test_where_the_person_says_how_far_from_the_middle() -> None:
    found = row(NONE, from_middle=20.0)
    # common practice, no source: the first post stands 30 mm from the nut (docs/numbers.md)
    assert found.at[0].tolist() == pytest.approx([-30 + 20j, -65 + 20j, -100 + 20j])
    assert found.again == ("", "", "")
    kept = row(old(45.0, 85.0), from_middle=20.0)
    assert kept.at[0].tolist() == pytest.approx([-45 + 20j, -80 + 20j, -115 + 20j])
    right = fit(MIDDLE, {"left": NONE, "right": NONE}, Tuners(from_middle=20.0, left=(), right=(2,)))[0]
    assert right.side == "right"
    assert right.at[0].tolist() == pytest.approx([-30 - 20j, -65 - 20j])


def test_one_old_hole_carries_a_row_along_the_middle_line() -> None:
    assert row(old(45.0)).at[0].tolist() == pytest.approx([-45 + 22j, -80 + 22j, -115 + 22j])
    assert fit(MIDDLE, {"left": NONE, "right": NONE}, Tuners()) == ()


def test_posts_on_several_plates_stand_evenly() -> None:
    assert spacing((1, 2), 40.0).tolist() == [0.0, 40.0, 80.0]
    assert spacing((), 40.0).tolist() == []


def test_old_holes_are_counted_from_the_nut_whatever_the_order_they_are_listed_in() -> None:
    """derived: 45, 85 and 120 from the nut on the left, 60 on the right; the one that has no place yet is left out"""
    places = {"c": -120 + 22j, "a": -45 + 22j, "r": -60 - 22j, "b": -85 + 22j}
    head: Any = SimpleNamespace(posts=dict.fromkeys((*places, "lost"), OldPost(diameter=8.0)))
    states: Any = SimpleNamespace(
        has=places.__contains__,
        surveyed=SimpleNamespace(report=SimpleNamespace(diameters={"b": 9.5})),
        pm95=lambda off: np.array([0.1, 0.4, 0.9])[: off.shape[1]],
    )
    frame: Any = SimpleNamespace(see=lambda _, name: np.full((2, 1), places[name]))
    found = old_posts(states, frame, Job(), head, MIDDLE, Tuners(post=8.0))
    assert (found["left"].names, found["right"].names) == (("a", "b", "c"), ("r",))
    assert found["left"].diameters.tolist() == [8.0, 9.5, 8.0]
    assert found["left"].at[0].tolist() == [places[name] for name in "abc"]
    assert found["left"].worn.tolist() == [False, True, False]
    assert (found["left"].near.tolist(), found["right"].near.tolist()) == ([0.3, 0.4, 0.6], [0.3])
