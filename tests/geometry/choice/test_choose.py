"""The places that are each best at something, against a fine grid over the whole range."""

from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.choice.choose import AGAIN, CLEAREST, TRUE, Aim, ChosenPlace, _gains, aims, choose
from geometry.choice.merits_of_poses import weigh
from geometry.choice.poses import find_base
from geometry.choice.poses_tried import all_over
from geometry.job import Brace, Choosing, Job, Moved, NotAJob, Point, Reading, Weights
from geometry.layout import Layout, OldPlan, Ray
from geometry.survey import survey
from geometry.units import mm
from geometry.work_out import lay_out
from tests.in_one import in_one

SAMPLES = Path(__file__).parents[3] / "sample_jobs"
THREE = ("leaning-neck", "small-four", "turned-left")
FINE = (21, 15, 15)
"""A grid of about a seventh of the search's steps."""
SLACK = {
    "true to the strings": 0.02,
    "best by your weights": 0.02,
    "hides the most scar": 1.0,
    "uses the most old holes": 0.0,
    CLEAREST: 0.02,
    "squarest to the seam": 0.02,
    "evenest margins": 0.02,
}
"""So much (cents, cost, mm², holes, mm, degrees, mm) the search may stand behind the best of the fine grid: under what
a rule can read (derived: 1 mm² of scar is 0.01 mm over a footprint's front)."""


def found(job: Job) -> tuple[Layout, tuple[ChosenPlace, ...]]:
    surveyed = survey(job)
    layout = lay_out(job, surveyed)
    return layout, choose(job, surveyed, layout)


def sample(name: str) -> Job:
    return job_file.read(SAMPLES / f"{name}.job.json")


@cache
def found_of(name: str) -> tuple[Layout, tuple[ChosenPlace, ...]]:
    """What is found of a sample as it is: once for all tests."""
    return found(sample(name))


@pytest.mark.parametrize("name", THREE)
def test_no_pose_of_a_fine_grid_is_better_at_anything(name: str) -> None:
    job = sample(name)
    layout, places = found_of(name)
    base = find_base(job, survey(job))
    assert base is not None
    assert layout.neck is not None
    seam = layout.neck.seam or Ray(at=(0.0, 0.0), direction=(1.0, 0.0))
    worth = weigh(base, layout.old, seam, all_over(base, job.choice, FINE))
    for aim in aims(job.choice, layout.old, seam=layout.neck.seam is not None):
        allowed = aim.allowed(worth)
        best = float(aim.cost(worth)[allowed].min())
        if aim.name == AGAIN and best == 0:
            assert all(AGAIN not in place.best_at for place in places)  # no place uses any: nobody is best at it
            continue
        found_for = [place for place in places if aim.name in place.best_at]
        if not found_for:
            assert aim.name == CLEAREST  # nothing is gained over the first place
            continue
        (place,) = found_for
        assert _own(place, aim.name) <= best + SLACK[aim.name], aim.name


def _own(place: ChosenPlace, aim: str) -> float:
    own: dict[str, float] = {
        "true to the strings": max(map(abs, place.cents)),
        "best by your weights": place.cost,
        "hides the most scar": place.scar or 0.0,
        "uses the most old holes": -float(place.again or 0),
        CLEAREST: -(place.room or 0.0),
        "squarest to the seam": abs(place.askew),
        "evenest margins": place.uneven,
    }
    return own[aim]


@pytest.mark.parametrize("name", THREE)
def test_each_places_numbers_are_those_of_a_layout_with_the_bridge_there(name: str) -> None:
    job = sample(name)
    _, places = found_of(name)
    for place in places:
        assert job.bridge is not None
        there = replace(job, bridge=replace(job.bridge, moved=place.moved))
        layout = lay_out(there, survey(there))
        assert layout.saddle is not None
        left, right = layout.saddle.left_over_cents
        assert place.cents == pytest.approx((left, right) if job.bass == "left" else (right, left), abs=0.01)
        scar = sum(_area(ring) for ring in layout.old.scar)
        assert place.scar == pytest.approx(scar, abs=2.0)  # pieces under half a mm² are not drawn


def _area(ring: tuple[tuple[float, float], ...]) -> float:
    """The shoelace formula."""
    x, y = np.array(ring).T
    return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2


def test_what_is_true_to_the_strings_stays_where_it_is() -> None:
    (first, *_) = found_of("leaning-neck")[1]
    assert first.best_at[0] == "true to the strings"
    assert (first.moved.along, first.moved.across, first.moved.turn) == (0, 0, 0)
    assert first.cents == pytest.approx((0, 0), abs=1e-9)


def test_what_hides_more_scar_gives_up_no_more_cents_than_it_may() -> None:
    job = sample("leaning-neck")
    scars: list[float] = []
    for cents in (0.0, 2.0, 6.0):
        choice = replace(job.choice, cents=cents, along=8, turn=2)
        _, places = found(replace(job, choice=choice))
        (place,) = (place for place in places if "hides the most scar" in place.best_at)
        assert max(map(abs, place.cents)) <= cents + 1e-6
        assert place.scar is not None
        scars.append(place.scar)
    assert scars == sorted(scars, reverse=True)


def test_the_other_hand_mirrors_the_choice() -> None:
    job = sample("small-four")
    mirrored = _mirrored(job)
    for one, other in zip(found_of("small-four")[1], found(mirrored)[1], strict=True):
        assert one.best_at == other.best_at
        assert mm(one.moved.along) == pytest.approx(mm(other.moved.along), abs=2e-3)
        assert mm(one.moved.across) == pytest.approx(-mm(other.moved.across), abs=2e-3)
        assert one.moved.turn == pytest.approx(-other.moved.turn, abs=2e-3)
        assert one.cents == pytest.approx(other.cents, abs=0.02)
        assert one.scar == pytest.approx(other.scar, abs=0.5)


def _mirrored(job: Job) -> Job:
    """The same instrument in a mirror, for the other hand."""
    swap = {"left": "right", "right": "left"}

    def other(name: str) -> str:
        return ".".join(swap.get(part, part) for part in name.split("."))

    readings = tuple(
        replace(
            reading,
            of=tuple(reversed(named)) if reading.kind == "across" else named,
            from_=tuple(map(other, reading.from_)),
            side=swap.get(reading.side or "", reading.side),
            on=swap.get(reading.on or "", reading.on),
            value=(reading.parts[0], -mm(reading.parts[1])) if reading.kind == "at" else reading.value,
        )
        for reading in job.readings
        for named in (tuple(map(other, reading.of)),)
    )
    return replace(
        job,
        hand=swap[job.hand],
        points={other(name): Point() for name in job.points},
        readings=readings,
    )


def test_a_brace_in_the_way_is_kept_clear_of() -> None:
    # derived: a brace that runs along under the slot is cleared by moving along; how far is the range's to say
    job = sample("leaning-neck")
    layout, _ = found_of("leaning-neck")
    assert layout.bridge is not None
    x = max(hole.at[0] for hole in layout.bridge.pins)
    beam = {"b.1": Point(), "b.2": Point()}
    readings = tuple(
        Reading(id=name, kind="at", of=(name,), value=at)
        for name, at in (("b.1", (x + 6, 60.0)), ("b.2", (x + 6, -60.0)))
    )
    corners = tuple(
        Reading(id=f"at {name}", kind="at", of=(name,), value=(layout.points[name].x, layout.points[name].y))
        for name in ("nut.left", "nut.right", "end.left", "end.right")
    )
    assert job.old is not None
    old = replace(job.old, braces={"main": Brace(of=("b.1", "b.2"), width=6.0)})
    braced = replace(job, points=job.points | beam, readings=(*job.readings, *corners, *readings), old=old)
    braced = replace(braced, choice=Choosing(along=4, across=0, turn=0, cents=20))
    _, places = found(braced)
    (first, *_) = places
    (clear,) = (place for place in places if CLEAREST in place.best_at)
    assert first.room is not None
    assert clear.room is not None
    assert clear.room > first.room + 0.5


def test_it_stops_when_it_is_told_to() -> None:
    job = sample("leaning-neck")
    surveyed = survey(job)
    asked: list[int] = []

    def cancelled() -> bool:
        asked.append(1)
        return len(asked) > 3

    assert choose(job, surveyed, lay_out(job, surveyed), cancelled) == ()
    assert len(asked) < 8  # a whole run asks more than thirty times


def test_without_a_bridge_there_is_nothing_to_choose() -> None:
    job = replace(sample("leaning-neck"), bridge=None)
    assert found(job)[1] == ()


def test_the_same_job_gives_the_same_places() -> None:
    assert found(sample("small-four"))[1] == found_of("small-four")[1]


@pytest.mark.parametrize(
    ("weights", "says"),
    [
        ({"tune": 0.0, "margins": 0.0, "scar": 0.0, "holes": 0.0, "clearance": 0.0, "looks": 0.0}, "nothing counts"),
        ({"tune": -1.0}, "must lie between 0 and 1000"),
        ({"scar": float("nan")}, "not a number"),
    ],
)
def test_weights_that_weigh_nothing_are_refused(weights: dict[str, float], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        Weights(**weights)


def test_a_place_is_named_for_what_its_own_figures_show() -> None:
    # derived: old holes 0.6 mm beside where the new ones come are used again by 0.1 mm of move, not where they stand
    job = sample("leaning-neck")
    surveyed = survey(job)
    layout = lay_out(job, surveyed)
    assert layout.bridge is not None
    pins = tuple(replace(hole, at=(hole.at[0] + 0.6, hole.at[1])) for hole in layout.bridge.pins)
    aside = replace(layout, old=replace(layout.old, pins=pins, outline=()))
    for place in choose(job, surveyed, aside):
        assert (AGAIN in place.best_at) == (place.again == 6)


@in_one(
    ("name", "room", "again", "first", "named"),
    [
        # 3 mm of room are enough (common practice, no source); less must gain 0.02 mm over the first
        (CLEAREST, 3.0, 0, 3.0, True),
        (CLEAREST, 2.99, 0, 2.98, False),
        (CLEAREST, 2.5, 0, 2.47, True),
        (CLEAREST, 2.5, 0, 2.49, False),
        (CLEAREST, 1.0, 0, None, True),
        (AGAIN, 0.0, 1, 0.0, True),
        (AGAIN, 9.0, 0, 0.0, False),
        (TRUE, 0.0, 0, 0.0, True),
    ],
)
def test_room_that_is_not_gained_and_holes_that_are_not_used_have_no_name(
    name: str, room: float, again: int, first: float | None, named: bool
) -> None:
    def of(room: float | None) -> Any:
        return SimpleNamespace(room=np.array([room]), again=np.array([again]))

    found: Any = [] if first is None else [SimpleNamespace(worth=of(first))]
    assert _gains(Aim(name, lambda w: w.room, lambda w: w.wood), of(room), found) is named


def test_a_pose_on_the_old_holes_is_found_in_a_wide_range() -> None:
    # derived: the holes lie just where the bridge moved by so much has its own
    job = replace(sample("leaning-neck"), choice=Choosing(along=10, across=6, turn=2, cents=20))
    surveyed = survey(job)
    assert job.bridge is not None
    there = Moved(along=0.37, across=2.41, slot="goes along")
    moved = lay_out(replace(job, bridge=replace(job.bridge, moved=there)), surveyed)
    assert moved.bridge is not None
    layout = lay_out(job, surveyed)
    layout = replace(layout, old=replace(layout.old, pins=moved.bridge.pins, outline=()))
    assert max(place.again or 0 for place in choose(job, surveyed, layout)) == 6


def test_no_place_is_offered_whose_pins_cut_into_its_slot() -> None:
    job = replace(sample("leaning-neck"), choice=Choosing(along=3, across=2, turn=2))
    assert job.bridge is not None
    assert job.bridge.pins is not None
    pins = replace(job.bridge.pins, row="bridge", behind_slot=6.0)
    job = replace(job, bridge=replace(job.bridge, pins=pins))
    surveyed = survey(job)
    usual = lay_out(job, surveyed).bridge
    assert usual is not None
    for place in choose(job, surveyed, lay_out(job, surveyed)):
        assert job.bridge is not None
        there = lay_out(replace(job, bridge=replace(job.bridge, moved=place.moved)), surveyed).bridge
        assert there is not None
        assert there.wood["between"] >= min(1.5, usual.wood["between"]) - 0.01


def test_without_footprint_pins_or_seam_nothing_is_said_of_them() -> None:
    job = sample("leaning-neck")
    surveyed = survey(job)
    layout = lay_out(job, surveyed)
    assert layout.neck is not None
    bare = replace(layout, old=OldPlan(), neck=replace(layout.neck, seam=None))
    for place in choose(job, surveyed, bare):
        assert (place.scar, place.again, place.room) == (None, None, None)
        assert not {"hides the most scar", AGAIN, CLEAREST, "squarest to the seam"} & set(place.best_at)
