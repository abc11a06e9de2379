"""The places that are each best at something, against a fine grid over the whole range."""

import math
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.choice.choose import AGAIN, ChosenPlace, aims, choose
from geometry.choice.poses import all_over, find_base
from geometry.choice.worth import weigh
from geometry.job import Brace, Choosing, Job, NotAJob, Point, Reading, Weights
from geometry.layout import Layout, Ray
from geometry.survey import survey
from geometry.units import mm
from geometry.work_out import lay_out

SAMPLES = Path(__file__).parents[3] / "sample_jobs"
THREE = ("leaning-neck", "small-four", "turned-left")
FINE = (31, 21, 21)
"""A grid of about a tenth of the search's steps."""
SLACK = {
    "true to the strings": 0.02,
    "best by your weights": 0.02,
    "hides the most scar": 1.0,
    "uses the most old holes": 0.0,
    "keeps clearest": 0.02,
    "squarest to the seam": 0.0002,
    "evenest margins": 0.02,
}
"""So much (cents, cost, mm², holes, mm, radians, mm) the search may stand behind the best of the fine grid: under what
a rule can read (derived: 1 mm² of scar is 0.01 mm over a footprint's front)."""


def found(job: Job) -> tuple[Layout, tuple[ChosenPlace, ...]]:
    surveyed = survey(job)
    layout = lay_out(job, surveyed)
    return layout, choose(job, surveyed, layout)


def sample(name: str) -> Job:
    return job_file.read(SAMPLES / f"{name}.job.json")


@pytest.mark.parametrize("name", THREE)
def test_no_pose_of_a_fine_grid_is_better_at_anything(name: str) -> None:
    job = sample(name)
    layout, places = found(job)
    base = find_base(job, survey(job))
    assert base is not None
    assert layout.neck is not None
    seam = layout.neck.seam or Ray(at=(0.0, 0.0), direction=(1.0, 0.0))
    worth = weigh(base, layout.old, seam, all_over(base, job.choice, FINE))
    for aim in aims(job.choice, layout.old, len(layout.old.pins)):
        allowed = aim.allowed(worth)
        best = float(aim.cost(worth)[allowed].min())
        if aim.name == AGAIN and best == 0:
            assert all(AGAIN not in place.best_at for place in places)  # no place uses any: nobody is best at it
            continue
        (place,) = (place for place in places if aim.name in place.best_at)
        assert _own(place, aim.name) <= best + SLACK[aim.name], aim.name


def _own(place: ChosenPlace, aim: str) -> float:
    own: dict[str, float] = {
        "true to the strings": max(map(abs, place.cents)),
        "best by your weights": place.cost,
        "hides the most scar": place.scar,
        "uses the most old holes": -float(place.again),
        "keeps clearest": -(place.room or 0.0),
        "squarest to the seam": math.radians(abs(place.askew)),
        "evenest margins": place.uneven,
    }
    return own[aim]


@pytest.mark.parametrize("name", THREE)
def test_each_places_numbers_are_those_of_a_layout_with_the_bridge_there(name: str) -> None:
    job = sample(name)
    _, places = found(job)
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
    (first, *_) = found(sample("leaning-neck"))[1]
    assert first.best_at[0] == "true to the strings"
    assert (first.moved.along, first.moved.across, first.moved.turn) == (0, 0, 0)
    assert first.cents == pytest.approx((0, 0), abs=1e-9)


def test_what_hides_more_scar_gives_up_no_more_cents_than_it_may() -> None:
    job = sample("leaning-neck")
    scars = []
    for cents in (0.0, 2.0, 6.0):
        choice = replace(job.choice, cents=cents, along=8, turn=2)
        _, places = found(replace(job, choice=choice))
        (place,) = (place for place in places if "hides the most scar" in place.best_at)
        assert max(map(abs, place.cents)) <= cents + 1e-6
        scars.append(place.scar)
    assert scars == sorted(scars, reverse=True)


def test_the_other_hand_mirrors_the_choice() -> None:
    job = sample("small-four")
    mirrored = _mirrored(job)
    for one, other in zip(found(job)[1], found(mirrored)[1], strict=True):
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
    layout, _ = found(job)
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
    (clear,) = (place for place in places if "keeps clearest" in place.best_at)
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
    assert found(sample("small-four"))[1] == found(sample("small-four"))[1]


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
