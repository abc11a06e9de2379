"""Where the search for the points' places starts, attempt after attempt, and which choices it leaves open: of the
sample jobs as they are read, and with some of their readings struck out.
"""

from typing import Any

import pytest

from geometry.job import Job
from geometry.survey.adjust.network import network_of
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.survey.rows.which_side import turns
from geometry.survey.start.rough_places import ProvisionalPlaces, provisional_places, search_input
from geometry.units import mm
from tests.pinned import jobs, kept

ATTEMPTS = 3
THINNED = (0, 2, 3, 5)
"""Of every so many readings one is struck out; 0: none is."""


def thinned(name: str, every: int) -> Job:
    """A sample job with each so-manieth reading struck out."""
    count = len(jobs.plain(name)["readings"]) if every else 0
    struck: list[tuple[jobs.Path, Any]] = [(("readings", at, "struck"), True) for at in range(1, count, max(every, 1))]
    return jobs.made(jobs.change(jobs.plain(name), *struck))


def rough(job: Job, usual: bool) -> dict[str, complex]:
    near = {name: point.near for name, point in job.points.items() if point.usual == usual}
    return {name: complex(mm(at[0]), mm(at[1])) for name, at in near.items() if at is not None}


@pytest.mark.parametrize("every", THINNED)
@pytest.mark.parametrize("name", jobs.NAMES)
def test_start_places(name: str, every: int) -> None:
    job = thinned(name, every)
    net = network_of(rows_of(job))
    what = search_input(net.rows, net.points, turns(job, net.points, net.rows), rough(job, False), rough(job, True))
    found = dict[str, Any]()
    for attempt in range(ATTEMPTS):
        placed = provisional_places(what, attempt=attempt)
        found |= {f"attempt {attempt}, {line}": at for line, at in lines(placed).items()}
    first = provisional_places(what)
    for choice in first.open[:2]:
        turned = provisional_places(what, frozenset((choice.point,)))
        moved = {point: z for point, z in turned.at.items() if abs(z - first.at[point]) > 1e-3}
        found |= {f"{choice.point} turned over, {point}": [z.real, z.imag] for point, z in moved.items()}
    assert kept.differences_of(f"starts/{name}", f"every {every}", rounded(found), 1e-4) == []


def lines(placed: ProvisionalPlaces) -> dict[str, Any]:
    """Places, those that stand on a guess, and open choices with both their places."""
    choices = {
        f"open {choice.point}": [choice.here.real, choice.here.imag, choice.there.real, choice.there.imag]
        for choice in placed.open
    }
    places = {point: [z.real, z.imag] for point, z in placed.at.items()}
    return places | choices | {"soft": sorted(placed.soft)}


def rounded(found: dict[str, Any]) -> dict[str, Any]:
    return {line: [round(at, 4) if isinstance(at, float) else at for at in numbers] for line, numbers in found.items()}
