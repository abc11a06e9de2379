"""Sizes of old holes, on both sides of each bound."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.bounds.odd_holes import of_headstock, of_top
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import HeadstockPlan, Hole, OldPlan
from geometry.layout.measured import Ray
from geometry.work_out import work_out

MIDDLE = Ray(at=(0.0, 0.0), direction=(1.0, 0.0))


def holes(kind: str, *wide: float) -> tuple[Hole, ...]:
    return tuple(Hole(name=f"{kind}.{n}", at=(0.0, 10.0 * n), diameter=size) for n, size in enumerate(wide, 1))


def head(posts: tuple[Hole, ...] = (), screws: tuple[Hole, ...] = ()) -> list[Finding]:
    plan = HeadstockPlan(outline=(), slots=(), middle=MIDDLE, old_posts=posts, old_screws=screws)
    return list(of_headstock(Job(), plan))


@pytest.mark.parametrize(("wide", "says"), [(4.4, True), (4.5, False), (13.0, False), (13.1, True)])
def test_post_holes_of_no_posts_size(wide: float, says: bool) -> None:
    found = head(holes("post", wide, wide))
    assert [one.code for one in found] == ["headstock.posts"] * says
    assert all(f"Old post hole 1 is {wide} mm wide; few are under 4.5 mm or over 13.0 mm" in one.text for one in found)


@pytest.mark.parametrize(("wide", "says"), [(0.7, True), (0.8, False), (5.0, False), (5.1, True)])
def test_screw_holes_of_no_screws_size(wide: float, says: bool) -> None:
    assert [one.code for one in head(screws=holes("screw", wide, wide))] == ["headstock.screws"] * says


@pytest.mark.parametrize(("wide", "says"), [(0.7, True), (0.8, False), (20.0, False), (20.1, True)])
def test_other_holes_in_a_top(wide: float, says: bool) -> None:
    """They need not be alike: a screw's stands beside a jack's."""
    assert [one.code for one in of_top(Job(), OldPlan(holes=holes("hole", wide, 3.0)))] == ["old.holes"] * says


@pytest.mark.parametrize(
    ("odd", "says"),
    # derived: 9 / 1.5 = 6 and 8 × 1.5 = 12 are the bounds; a radius for a diameter, or 3/32 for 3/64 in, is beyond both
    [(5.9, True), (6.1, False), (11.9, False), (12.1, True)],
)
def test_a_post_hole_unlike_the_others(odd: float, says: bool) -> None:
    others = (9.0, 9.0) if odd < 9 else (8.0, 8.0)
    found = head(holes("post", others[0], odd, others[1]))
    assert [(one.code, one.where) for one in found] == [("headstock.posts_unlike", "point:post.2")] * says


def test_of_two_pin_holes_both_are_named() -> None:
    (found,) = of_top(Job(), OldPlan(pins=holes("pin", 5.2, 10.4)))
    assert found.code == "old.pins_unlike"
    assert found.text.startswith("Old pin hole 1 is 5.2 mm wide, and old pin hole 2 10.4 mm: look at both")
    assert not list(of_top(Job(), OldPlan(pins=holes("pin", 5.2, 7.7))))


def test_what_was_assumed_between_two_is_not_told() -> None:
    one, other = holes("pin", 5.2, 10.4)
    assert not list(of_top(Job(), OldPlan(pins=(one, replace(other, assumed=True)))))


def test_a_radius_typed_for_one_post_is_said_on_the_screen() -> None:
    job = job_file.read(Path(__file__).parents[3] / "sample_jobs" / "slotted-neck-screw.job.json")
    assert job.hardware.headstock is not None
    posts = dict(job.hardware.headstock.posts)
    posts["post.2"] = replace(posts["post.2"], diameter=3.25)
    slipped = replace(job, hardware=replace(job.hardware, headstock=replace(job.hardware.headstock, posts=posts)))
    codes = [{one.code for one in work_out(one).findings} for one in (job, slipped)]
    assert "headstock.posts" in codes[1] - codes[0]
