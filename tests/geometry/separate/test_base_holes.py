"""Screw holes, through holes and what lies in their way."""

import math
from itertools import pairwise

import numpy as np
import pytest
from msgspec.structs import replace

from export.templates.written.unglued import separate_steps
from geometry.frame import Array
from geometry.go_or_wait import verdicts
from geometry.job import Job, Old, OldHole, OldMetal, Through
from geometry.separate.base_holes import _over, _rim_over
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.separate.slanted_sample import codes, one_a_string, plan_of, said, sample, with_block


def test_screw_holes_lie_on_the_base_as_the_job_says() -> None:
    _, plan = plan_of(sample())
    (base,) = plan.bases
    front_left, front_right = (complex(*at) for at in base.corners[:2])
    left = (front_left - front_right) / abs(front_left - front_right)
    middle = (front_left + front_right) / 2
    own = [(complex(*hole.at) - middle) / (left / 1j) for hole in base.screws]
    assert [(at.real, at.imag) for at in own] == [
        pytest.approx(at, abs=1e-9) for at in ((4.5, 33), (4.5, -33), (37, 33), (37, -33))
    ]  # the sample's own
    assert all(0 < along < 4 and 0 < across < 2 for along, across in base.screws_pm95)


def test_a_through_hole_lies_on_its_saddles_lane() -> None:
    _, plan = plan_of(sample())
    for hole, one in zip(plan.through, plan.saddles, strict=True):
        assert hole.name == one.string
        lane, to_hole = complex(*one.rearmost) - complex(*one.foremost), complex(*hole.at) - complex(*one.foremost)
        assert abs((lane.conjugate() * to_hole).imag) < 1e-6
        assert abs(to_hole) == pytest.approx(30 - 9)  # 30 behind the front, the foremost place 9 behind it


def test_from_the_foremost_break_point_is_as_much_farther_back() -> None:
    _, plan = plan_of(with_block(through=Through(behind=21, from_="foremost")))
    _, same = plan_of(with_block(through=Through(behind=30)))
    assert [hole.at for hole in plan.through] == [pytest.approx(hole.at) for hole in same.through]


def test_ferrules_count_for_the_wood_between_through_holes() -> None:
    layout, plan = plan_of(with_block(through=Through(behind=30, ferrule=9.5)))
    wall = min(gap.mm for gap in plan.walls if gap.new.startswith("through") and gap.old.startswith("through"))
    at = [complex(*hole.at) for hole in plan.through]
    assert wall == pytest.approx(min(abs(a - b) for a, b in pairwise(at)) - 9.5)
    assert codes(layout)["separate.wall"] == "look"
    layout, _ = plan_of(with_block(through=Through(behind=30, ferrule=11)))
    assert codes(layout)["separate.wall"] == "stop"


def test_a_screw_near_a_through_hole_is_said() -> None:
    layout, _ = plan_of(with_block(screws=((30, 0), (4.5, 33))))
    found = said(layout, "separate.wall")
    assert found.startswith("Screw hole 1 and the through hole of string 3")
    assert "through hole of string" in found


def _with_old(name: str, at: complex, diameter: float, metal: float | None = None) -> Job:
    """The sample without its old holes, but with one whose place is read as it would be, true to 0.01 mm."""
    from geometry.job import Point, Reading

    job = sample()
    layout, _ = plan_of(job)
    read = [
        Reading(
            id=f"{name}.{end}",
            kind="distance",
            of=(end, name),
            value=round(abs(at - complex(layout.points[end].x, layout.points[end].y)), 2),
            within=0.02,
        )
        for end in ("nut.left", "nut.right", "end.left", "end.right")
    ]
    old = (
        Old(holes={name: OldHole(diameter=diameter)}) if metal is None else Old(metal={name: OldMetal(keep_out=metal)})
    )
    return replace(
        job, points={**job.points, name: Point(near=(at.real, at.imag))}, readings=(*job.readings, *read), old=old
    )


def test_an_old_hole_in_the_way_is_plugged_first() -> None:
    _, plan = plan_of(sample())
    hole = complex(*plan.bases[0].screws[0].at)
    layout, plan = plan_of(_with_old("hole.9", hole + 1.5, 3.2))
    assert codes(layout)["separate.into_old"] == "look"
    gap = min((gap for gap in plan.walls if gap.old == "point:hole.9"), key=lambda gap: gap.mm)
    assert gap.new == "screw:1"
    assert gap.mm == pytest.approx(1.5 - 1.25 - 1.6, abs=0.3)  # the middles apart less both half widths
    assert "Plug the old hole first" in said(layout, "separate.into_old")


def test_an_old_hole_on_the_same_place_is_used_again() -> None:
    _, plan = plan_of(sample())
    hole = complex(*plan.bases[0].screws[0].at)
    layout, plan = plan_of(_with_old("hole.9", hole, 2.5))
    assert codes(layout).get("separate.used_again") == "good"
    assert plan.used_again == ("hole.9",)
    assert "separate.into_old" not in codes(layout)
    layout, plan = plan_of(_with_old("hole.9", hole, 4.5))  # wider than the screw's hole: it would not hold
    assert plan.used_again == ()


def test_metal_in_the_way_stops_the_work() -> None:
    _, plan = plan_of(sample())
    hole = complex(*plan.through[2].at)
    layout, _ = plan_of(_with_old("metal.9", hole + 4, 0, metal=6))
    assert codes(layout)["separate.metal"] == "stop"
    layout, _ = plan_of(_with_old("metal.9", complex(700, 60), 0, metal=6))
    assert codes(layout)["separate.metal"] == "good"


def test_the_opening_is_judged_where_it_was_measured() -> None:
    layout, plan = plan_of(sample())
    assert len(plan.opening) == 4
    assert "separate.over" not in codes(layout)
    layout, plan = plan_of(with_block(foremost=38, length=64, screws=((2, 0),), through=None))
    assert codes(layout)["separate.over"] == "look"
    assert min(gap.mm for gap in plan.over) < 0
    assert codes(layout)["separate.hole_over"] == "stop"
    layout, plan = plan_of(with_block(foremost=38, length=64, screws=((2, 0),), through=None, opening=()))
    assert plan.over == ()


def test_holes_of_bases_of_their_own_are_named_after_their_string() -> None:
    _, plan = plan_of(replace(sample(), separate=one_a_string()))
    assert [base.screws[0].name for base in plan.bases] == ["1.1", "2.1", "3.1", "4.1", "5.1", "6.1"]


def test_the_strings_break_angle_is_that_of_the_triangle() -> None:
    layout, plan = plan_of(sample())
    bass, treble = plan.degrees
    assert bass is not None
    assert treble is not None
    values = next(finding.values for finding in layout.findings if finding.code == "saddle.height")
    # derived: a right triangle of the height over the base's 3 mm, and the way back to the hole along the lane
    for side, found, string in (("bass", bass, 5), ("treble", treble, 0)):
        out = values[f"over_top.{side}"] - 3
        back = math.dist(plan.through[string].at, plan.saddles[string].wanted)
        assert found[0] == pytest.approx(math.degrees(math.atan2(out, back)))
    assert codes(layout)["separate.angle"] == "good"
    layout, _ = plan_of(with_block(through=Through(behind=90), length=46))
    assert codes(layout)["separate.angle"] == "look"
    assert plan_of(with_block(thickness=None))[1].degrees == (None, None)


@pytest.mark.parametrize("behind", [0, 12])
def test_a_hole_in_front_of_its_saddle_stops_the_work(behind: float) -> None:
    job = with_block(through=Through(behind=behind))
    layout, plan = plan_of(job)
    # derived: along the lane, whose foremost place lies 9 behind the front; strings cross the lanes by the base's turn
    worst = (max(one.ahead for one in plan.saddles) + 9 - behind) * math.cos(plan.bases[0].turn)
    found = next(finding for finding in layout.findings if finding.code == "separate.through")
    assert found.grade == "stop"
    assert -found.values["mm"] == pytest.approx(worst, rel=0.02)  # the strings run within 2 degrees of the neck
    assert "separate.angle" not in codes(layout)
    assert not any(step.go for step in verdicts(job, layout))


def test_a_hole_past_the_base_goes_down_to_the_body() -> None:
    layout, plan = plan_of(with_block(through=Through(behind=60)))
    values = next(finding.values for finding in layout.findings if finding.code == "saddle.height")
    for side, found, string in zip(("bass", "treble"), plan.degrees, (5, 0), strict=True):
        assert found is not None
        back = math.dist(plan.through[string].at, plan.saddles[string].wanted)
        # derived: a right triangle down to the body, for the base ends at 46
        assert found[0] == pytest.approx(math.degrees(math.atan2(values[f"over_top.{side}"], back)))


def test_the_bases_back_edge_holds_a_string_up() -> None:
    layout, plan = plan_of(with_block(through=Through(behind=60), length=55, thickness=9))
    values = next(finding.values for finding in layout.findings if finding.code == "saddle.height")
    for side, found, string in zip(("bass", "treble"), plan.degrees, (5, 0), strict=True):
        assert found is not None
        back = 55 - 9 - plan.saddles[string].ahead  # derived: to the edge, the base's own sizes
        out = values[f"over_top.{side}"] - 9
        assert found[0] == pytest.approx(math.degrees(math.atan2(out, back)))


@pytest.mark.parametrize(("width", "grade"), [(10.0, None), (14.0, "stop")])
def test_bases_that_overlap_stop_the_work(width: float, grade: str | None) -> None:
    job = replace(sample(), separate=one_a_string(width=width, set="square"))
    layout, _ = plan_of(job)
    assert codes(layout).get("separate.overlap") == grade
    if grade:
        found = next(finding for finding in layout.findings if finding.code == "separate.overlap")
        y = [one.wanted[1] for one in plan_of(job)[1].saddles]
        narrow = min(abs(a - b) for a, b in pairwise(y))
        assert found.values["mm"] == pytest.approx(width - narrow)  # derived: square bases, each amid its own lane
        assert found.text.startswith("The bases of strings 1, 2, 3, 4, 5 and 6 overlap, those of strings ")
        assert not any(step.go for step in verdicts(job, layout))


def test_the_overlap_of_bases_is_that_of_another_librarys_outlines() -> None:
    """Bases along their strings at other turns: apart where shapely has no common ground, and parted by the depth."""
    from shapely import Polygon
    from shapely.affinity import translate

    from geometry.separate.separate_told import _depth

    one = ((0.0, 5.0), (0.0, -5.0), (40.0, -5.0), (40.0, 5.0))
    for turn in (0.0, 0.03, 0.4):
        for up in (4.0, 9.0, 25.0, 40.0):
            way = complex(math.cos(turn), math.sin(turn))
            moved = [complex(*at) * way + 1j * up for at in one]
            other = tuple((at.real, at.imag) for at in moved)
            deep, a, b = _depth(one, other), Polygon(one), Polygon(other)
            assert (deep > 0) == (a.intersection(b).area > 1e-9)
            if deep > 0:
                normals = [edge * k for edge in (1, 1j, way, 1j * way) for k in (1, -1)]
                parted = [
                    a.intersection(translate(b, *[(deep + 1e-6) * part for part in (n.real, n.imag)])).area < 1e-9
                    for n in map(complex, normals)
                ]
                assert any(parted)


class _AsMoved:
    """± of what was moved in one further row: that much, however it is called."""

    def pm95(self, values: Array) -> Array:
        return np.asarray(np.abs(values[1:] - values[0]).max(axis=0))


BASE = np.array([0 + 40j, 0 - 40j, 30 - 40j, 30 + 40j])
MOUTH = np.array([-30 + 20j, -30 - 20j, -6 - 20j, -6 + 20j])


@pytest.mark.parametrize(
    ("base_by", "mouth_by", "pm95"), [(0.3, 0.3, 0.0), (0.0, 0.3, 0.3), (0.2, 0.0, 0.2), (0.2, -0.1, 0.3)]
)
def test_between_base_and_opening_only_what_moves_them_apart_counts(
    base_by: float, mouth_by: float, pm95: float
) -> None:
    """derived: two edges square to the neck 6 mm apart; what moves both leaves the wall as it is"""
    corners, mouth = np.stack([BASE, BASE + base_by]), np.stack([MOUTH, MOUTH + mouth_by])
    nearest_two = sorted(_rim_over(_AsMoved(), mouth, corners), key=lambda gap: gap.mm)[:2]  # type: ignore[arg-type]  # stands in for the states
    assert [gap.mm for gap in nearest_two] == [pytest.approx(6.0)] * 2
    assert [gap.pm95 for gap in nearest_two] == [pytest.approx(pm95)] * 2
    to_mouth = _over(_AsMoved(), np.stack([BASE[:1] - 3, BASE[:1] - 3 + base_by]), np.zeros(1), ("screw:1",), mouth)  # type: ignore[arg-type]  # as above
    assert to_mouth[0].mm == pytest.approx(math.hypot(3.0, 20.0))


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_end_that_lies_farther_from_the_nut_is_named_for_the_hand(hand: str) -> None:
    """derived: by the base's own corners, and by which side bass is on for the hand"""
    job = sample() if hand == sample().hand else mirrored(sample())
    layout, plan = plan_of(job)
    front_left, front_right = plan.bases[0].corners[:2]
    end = "bass" if (front_left[0] > front_right[0]) == (job.bass == "left") else "treble"
    assert f"its {end} end lies" in said(layout, "separate.turned")
    assert separate_steps.results(job, plan)[-1][-1] == f"{end} end farther from the nut"
    assert separate_steps.results(job, plan)[1][0] == "The base’s place, corners"


def test_without_bases_nothing_is_drilled_for_them() -> None:
    job = sample()
    layout, _ = plan_of(job)
    assert separate_steps.holes(job, layout)
    assert separate_steps.holes(job, replace(layout, separate=None)) == []
    assert separate_steps.holes(replace(job, separate=None), layout) == []


def test_several_bases_are_told_as_several() -> None:
    job = replace(sample(), separate=one_a_string())
    _, plan = plan_of(job)
    assert [row[0] for row in separate_steps.results(job, plan)][1:] == ["The bases’ places, corners"]
