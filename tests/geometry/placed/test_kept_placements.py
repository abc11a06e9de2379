"""Placements that are kept, laid beside the present one."""

import math

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Board, Job, Kept, Places
from geometry.layout import Layout, Neck, Ray
from geometry.placed import kept_told
from geometry.placed.kept_placements import (
    Comparison,
    Difference,
    compare,
    lies_as_now,
    places_of,
    seen_now,
)
from geometry.placed.kept_told import rows
from geometry.units import Unit
from geometry.work_out import lay_out
from tests.geometry.any_job.test_mirrored import mirrored, swapped
from tests.geometry.made import BOARD, Saddle, bridge, job, scales, six, surveyed

SCALES = scales(643.0, 643.0)


def asked(points: dict[str, tuple[float, float]] = BOARD, **blocks: object) -> Job:
    given: dict[str, object] = {"strings": six(4.0, 2.0), "saddle": Saddle(), "bridge": bridge()} | blocks
    return job(points, **given)  # type: ignore[arg-type]  # a test gives the blocks of a job


def laid(made: Job) -> Layout:
    return lay_out(made, surveyed(BOARD, SCALES))


def kept(made: Job, layout: Layout, name: str = "Placement 1") -> Kept:
    places = places_of(made, layout)
    assert places is not None
    return Kept(name=name, when="2026-03-14", places=places)


def beside(now: Job, then: Job) -> Comparison:
    found = compare(now, laid(now), kept(then, laid(then)))
    assert found is not None
    return found


def of(found: Comparison, code: str) -> Difference:
    return next(one for one in found.differences if one.code == code)


def test_a_placement_beside_itself_is_the_same() -> None:
    made = asked()
    found = beside(made, made)
    assert found.neck_differs < 1e-3
    assert {row[3] for row in rows(made, found)} == {"the same"}
    assert kept_told.below(made, found) == ("Check distances and margins that are the same: all.",)


@pytest.mark.parametrize(("unit", "limit"), [("mm", 0.05), ("in", 25.4 / 128)])  # half of what such a job shows
@pytest.mark.parametrize("what", ["slot", "corners", "pins"])
def test_one_that_lies_as_now_is_nowhere_else_to_the_hand(what: str, unit: Unit, limit: float) -> None:
    made = replace(asked(), unit=unit)
    layout = laid(made)
    one = kept(made, layout)
    assert lies_as_now(made, layout, one)
    for off, same in ((0.98 * limit, True), (1.02 * limit, False)):
        (x, y), *others = getattr(one.places, what)
        moved = replace(one, places=replace(one.places, **{what: ((x, y + off), *others)}))
        assert lies_as_now(made, layout, moved) is same


def test_one_with_fewer_holes_or_none_to_lay_it_beside_does_not_lie_as_now() -> None:
    made = asked()
    layout = laid(made)
    one = kept(made, layout)
    fewer = replace(one, places=replace(one.places, pins=one.places.pins[1:]))
    assert not lies_as_now(made, layout, fewer)
    assert not lies_as_now(made, replace(layout, saddle=None), one)


@pytest.mark.parametrize(("made", "slots"), [("one", 0), ("two", 2), ("three", 3)])
def test_the_slots_of_a_saddle_in_pieces_are_kept_each(made: str, slots: int) -> None:
    """Of one slot its corners are the whole saddle's."""
    job = asked(saddle=Saddle(made=made))  # type: ignore[arg-type]  # one of several
    layout = laid(job)
    places = places_of(job, layout)
    assert places is not None
    assert layout.saddle is not None
    assert len(places.slots) == slots
    assert [slot[0] for slot in places.slots] == [
        (round(x, 4), round(y, 4)) for (x, y), *_ in layout.saddle.slots[:slots]
    ]


def test_a_saddle_that_moves_a_millimetre_back() -> None:
    """derived: 1 mm of 643 is 1200 / ln 2 / 643 = 2.692 cents, and what is longer is flatter."""
    found = beside(asked(strings=six(5.0, 3.0)), asked())
    for side in ("left", "right"):
        saddle = of(found, f"saddle.{side}")
        assert saddle.along == pytest.approx(1.0, abs=2e-4)
        assert saddle.cents == pytest.approx(-1200 / math.log(2) / 643.0, abs=1e-3)
        assert of(found, f"slot.{side}").along == pytest.approx(1.0, abs=2e-4)
        assert of(found, f"corner.back.{side}").along == pytest.approx(1.0, abs=2e-4)
        assert of(found, f"check.end.bridge.{side}").along == pytest.approx(1.0, abs=1e-3)
    told = {row[0]: row[3] for row in rows(asked(), found)}
    assert told["Nut to saddle line, bass"] == "1.0 mm farther from the nut, 2.7 cents flatter"
    assert told["Bridge, front treble corner"] == "1.0 mm farther from the nut"
    assert told["Fret 12 to bridge front, bass edge"] == "1.0 mm longer"
    assert "Board end to bridge front, bass edge" not in told  # one edge, and one figure of how far it moved
    assert kept_told.below(asked(), found)[0] == kept_told.CENTS


def test_from_the_boards_end_an_edge_is_told_again_only_where_that_moved_otherwise() -> None:
    found = beside(asked(strings=six(5.0, 3.0)), asked())
    moved = tuple(
        replace(one, now=one.now + 0.1) if one.code == "check.end.bridge.left" and one.now is not None else one
        for one in found.differences
    )
    told = {row[0]: row[3] for row in rows(asked(), replace(found, differences=moved))}
    assert {name: told[name] for name in told if name.startswith("Board end to")} == {
        "Board end to bridge front, treble edge": "1.1 mm longer"
    }


def test_strings_moved_across_say_to_which_side() -> None:
    """Strings moved by 2 mm to the left: to treble of a right-handed instrument, to bass of a left-handed one."""
    for hand, side in (("right", "treble"), ("left", "bass")):
        shifted = asked(hand=hand, strings=replace(six(4.0, 4.0), shift=2.0))
        found = beside(shifted, asked(hand=hand, strings=six(4.0, 4.0)))
        assert of(found, "slot.left").across == pytest.approx(2.0, abs=2e-4)
        told = {row[0]: row[3] for row in rows(shifted, found)}
        assert told["Slot front, bass end"] == f"2.0 mm to {side}"


def test_another_centre_line_moves_nothing_that_was_kept() -> None:
    """The bridge stays on the same wood, whatever line is called the centre line afterwards."""
    threads = {"left.nut": (0.0, 18.0), "left.end": (440.0, 27.0), "right.nut": (0.0, -19.0), "right.end": (440.0, -23)}
    points = BOARD | {f"thread.{name}": at for name, at in threads.items()}
    made = asked(points=points)
    then = lay_out(made, surveyed(points, SCALES))
    now = lay_out(replace(made, board=Board(centre="threads")), surveyed(points, SCALES))
    assert then.neck is not None
    assert now.neck is not None
    assert then.bridge is not None
    one = kept(made, then)
    turned = seen_now(one.places, now.neck)
    assert max(math.dist(a, b) for a, b in zip(one.places.slot, turned.slot, strict=True)) > 0.2
    assert turned.corners is not None
    for at, corner in enumerate(then.bridge.corners):
        assert math.dist(turned.corners[at], now.neck.nut[0]) == pytest.approx(
            math.dist(corner, then.neck.nut[0]), abs=1e-3
        )
    found = compare(made, now, one)
    assert found is not None
    assert found.neck_differs < 1e-3


def test_a_board_read_anew_is_told() -> None:
    made = asked()
    wider = lay_out(made, surveyed(BOARD | {"end.left": (440.0, 29.0)}, SCALES))
    found = compare(made, wider, kept(made, laid(made)))
    assert found is not None
    assert found.neck_differs == pytest.approx(0.3, abs=0.2)
    said = kept_told.below(made, found)[-1]
    assert said.startswith("The board was read anew since: its corners lie up to 0.")


def test_a_board_turned_and_moved_carries_the_ghost_along() -> None:
    """derived: a neck moved by (3, -2) and turned by 0.1 rad about its origin moves every place alike."""
    places = kept(asked(), laid(asked())).places
    turn, away = complex(math.cos(0.1), math.sin(0.1)), complex(3, -2)
    nl, nr, left_on, right_on = (complex(*at) * turn + away for at in places.board)
    ways = (left_on - nl) / abs(left_on - nl), (right_on - nr) / abs(right_on - nr)
    left, right = (
        Ray(at=(at.real, at.imag), direction=(way.real, way.imag)) for at, way in zip((nl, nr), ways, strict=True)
    )
    neck = Neck(left_edge=left, right_edge=right, nut=(left.at, right.at), end=None)
    moved = seen_now(places, neck)
    wanted = [complex(*at) * turn + away for at in (*places.slot, *places.pins)]
    assert np.allclose([complex(*at) for at in (*moved.slot, *moved.pins)], wanted, atol=1e-3)


def test_a_mirrored_job_keeps_the_mirror_image() -> None:
    made = asked(strings=six(5.0, 2.5))
    points = {swapped(name): (x, -y) for name, (x, y) in BOARD.items()}
    here, there = laid(made), lay_out(mirrored(made), surveyed(points, SCALES))
    a, b = places_of(made, here), places_of(mirrored(made), there)
    assert a is not None
    assert b is not None
    assert a.corners is not None
    assert b.corners is not None
    assert b.saddle == pytest.approx(a.saddle[::-1], abs=1e-3)
    for one, other in ((0, 1), (1, 0), (2, 3), (3, 2)):
        assert b.slot[one] == pytest.approx((a.slot[other][0], -a.slot[other][1]), abs=1e-3)
        assert b.corners[one] == pytest.approx((a.corners[other][0], -a.corners[other][1]), abs=1e-3)
    assert {swapped(code) for code in a.checks} == set(b.checks)


def test_the_hand_turned_over_lays_each_check_beside_its_own_side() -> None:
    made = asked(strings=six(4.0, 4.0))
    turned = replace(made, hand="left")
    found = compare(turned, laid(turned), kept(made, laid(made)))
    assert found is not None
    checks = [one for one in found.differences if one.code.startswith("check.")]
    assert len(checks) == 18
    assert max(abs(one.along or 0.0) for one in checks) < 1e-3


def test_no_saddle_no_placement() -> None:
    made = asked(strings=None)
    assert places_of(made, laid(made)) is None
    assert compare(made, laid(made), kept(asked(), laid(asked()))) is None


def test_a_bridge_in_one_of_them_only_says_nothing_of_corners() -> None:
    found = beside(asked(bridge=None), asked())
    assert not any(one.code.startswith("corner.") for one in found.differences)
    assert of(found, "saddle.left").along == pytest.approx(0.0, abs=1e-3)


def test_scars_of_either_are_laid_side_by_side() -> None:
    bare = laid(asked())
    layout = replace(bare, old=replace(bare.old, outline=((0, 0), (1, 0), (0, 1))))  # covered
    scarred = replace(layout, old=replace(layout.old, scar_widths={"front": 1.5, "left wing": 0.8}))
    found = compare(asked(), layout, kept(asked(), scarred))
    assert found is not None
    told = {row[0]: row[1:] for row in rows(asked(), found)}
    assert told["Scar in front"] == ("1.5", "0.0", "1.5 mm narrower")
    assert told["Scar past the treble wing"] == ("0.8", "0.0", "0.8 mm narrower")


def test_a_footprint_that_was_not_known_had_no_scar_of_nought() -> None:
    """derived: nothing was told of a scar then, so nothing is told of how it changed"""
    made = asked()
    bare = laid(made)
    scarred = replace(bare, old=replace(bare.old, outline=((0, 0), (1, 0), (0, 1)), scar_widths={"front": 3.2}))
    covered = replace(scarred, old=replace(scarred.old, scar_widths={}))
    for then, now, wanted, told in (
        (bare, scarred, (None, 3.2), "the old footprint was not known then"),
        (scarred, bare, (3.2, None), "the old footprint is not known now"),
        (covered, scarred, (0.0, 3.2), "3.2 mm wider"),
    ):
        found = compare(made, now, kept(made, then))
        assert found is not None
        scar = of(found, "scar.front")
        assert (scar.then, scar.now) == wanted
        assert next(row for row in rows(made, found) if row[0] == "Scar in front")[3] == told


def test_places_are_data_of_their_own() -> None:
    places = kept(asked(), laid(asked())).places
    assert isinstance(places, Places)
    assert places.pm95[0] > 0


def test_an_inch_job_tells_what_a_rule_of_64ths_shows() -> None:
    """derived: 0.15 mm is 0.38 of a 64th, and 0.3 mm 0.76 of one."""
    for moved, told in ((0.15, "0.4 cents flatter"), (0.3, "1/64 in farther from the nut, 0.8 cents flatter")):
        now = replace(asked(strings=six(4.0 + moved, 2.0 + moved)), unit="in")
        said = {row[0]: row[3] for row in rows(now, beside(now, asked()))}
        assert said["Nut to saddle line, bass"] == told


@pytest.mark.parametrize(("hand", "bass"), [("right", "right"), ("left", "left")])
def test_the_bass_is_told_first(hand: str, bass: str) -> None:
    made = asked(hand=hand)
    told = [one.code for one in beside(made, made).differences]
    for what in ("saddle", "slot", "corner.front", "corner.back"):
        sides = [code for code in told if code.startswith(f"{what}.")]
        assert len(sides) == 2
        assert sides[0] == f"{what}.{bass}"


@pytest.mark.parametrize(
    ("unit", "then", "now", "row"),
    [
        ("mm", 643.14, 643.16, ("643.1", "643.2", "0.1 mm farther from the nut")),
        ("mm", 643.06, 643.14, ("643.1", "643.1", "the same")),
        ("in", 25.35, 25.62, ("1", "1 1/64", "1/64 in farther from the nut")),
        ("in", 25.3, 25.5, ("1", "1", "the same")),
    ],
)
def test_what_differs_is_the_difference_of_the_figures_beside_it(
    unit: Unit, then: float, now: float, row: tuple[str, str, str]
) -> None:
    """derived: 643.2 less 643.1; 1 in is 25.4 mm, 1/64 in 0.397 mm"""
    one = Difference(code="saddle.left", name="Nut to saddle line, bass", along=now - then, then=then, now=now)
    found = Comparison(name="", when="", neck_differs=0.0, differences=(one,))
    assert kept_told.place_rows(Job(unit=unit), found) == [("Nut to saddle line, bass", *row)]


@pytest.mark.parametrize(
    ("unit", "then", "now", "told"),
    [
        # derived: 785.5 64ths of an inch are 311.75 mm; 0.1 mm across that shows as 1/64 in
        ("in", 311.7, 311.8, True),
        ("in", 311.5, 311.6, False),
        ("in", 311.55, 311.95, False),
        ("mm", 311.54, 311.56, True),
        ("mm", 311.5, 311.6, False),
    ],
)
def test_figures_that_part_by_rounding_say_so_under_the_table(unit: Unit, then: float, now: float, told: bool) -> None:
    made = asked(unit=unit)
    one = Difference(code="check.fret12.bridge.left", name="Fret 12", along=now - then, then=then, now=now)
    found = Comparison(name="First", when="", neck_differs=0.0, differences=(one,))
    step = "1/64 in" if unit == "in" else "0.1 mm"
    says = f"Lengths are rounded: two figures of one move may differ by {step}."
    assert (says in kept_told.below(made, found)) is told
