"""Which distances are read: against all sets one by one on a small job, and mirrored."""

from itertools import combinations

import numpy as np
import pytest

from geometry.job import Job
from geometry.placed.place_everything import place_everything
from geometry.proof.choosing_distances import LEAST, MOST, Weighed, candidates, choose, weigh
from geometry.proof.proof_at_stage import chosen, prove
from geometry.proof.proof_places import Places, find_places
from geometry.survey import survey
from tests.campaign.invented.mirroring import other_side
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.go_or_wait.test_what_if import sample

RATIO = 0.95
"""How near exchanging comes to the best of all sets, at least (tried on these jobs)."""


def places_of(job: Job) -> Places:
    found = find_places(job, place_everything(job, survey(job)))
    assert found is not None
    return found


def weighed(job: Job, keep: int = 0) -> Weighed:
    places = places_of(job)
    pairs = candidates(job, places)
    return weigh(job, places, pairs[:: max(len(pairs) // keep, 1)][:keep] if keep else pairs)


@pytest.mark.parametrize("name", ["leaning-neck", "small-four", "turned-left"])
def test_against_all_sets_of_a_small_job(name: str) -> None:
    """derived: of 13 distances there are 1716 sets of six; each is weighed by itself"""
    few = weighed(sample(name), 13)
    taken = choose(few)
    best = float(few.worst(np.array(list(combinations(range(len(few.spans.pairs)), len(taken))))).max())
    assert float(few.worst(np.array([taken]))[0]) >= RATIO * best


@pytest.mark.parametrize("size", [LEAST, LEAST + 1, MOST])
def test_what_a_set_shows_by_its_definition(size: int) -> None:
    """derived: one standard deviation of each unknown from the inverse of the normal matrix, taken set by set"""
    few = weighed(sample("leaning-neck"), 13)
    rows = list(range(0, 13, 2))[:size]
    a = np.column_stack((few.spans.moves, few.spans.scale))[rows]
    cov = few.cov[np.ix_(rows, rows)]
    sds = np.sqrt(np.diag(np.linalg.inv(a.T @ np.linalg.inv(cov) @ a)))
    reveals = np.array([1.0, 1.0, np.radians(0.5), 0.01]) / sds
    assert float(few.worst(np.array([rows]))[0]) <= reveals.min() * (1 + 1e-4)


@pytest.mark.parametrize("name", ["leaning-neck", "small-four", "tie-bridge", "turned-left"])
def test_four_to_six_and_each_once(name: str) -> None:
    job = sample(name)
    read = chosen(job, place_everything(job, survey(job)))
    assert LEAST <= len(read) <= MOST
    assert len({frozenset(one.of) for one in read}) == len(read)


@pytest.mark.parametrize("name", ["leaning-neck", "turned-left"])
def test_the_mirrored_job_reads_the_mirrored_distances(name: str) -> None:
    job = sample(name)
    one, other = prove(job, "clamped"), prove(mirrored(job), "clamped")
    assert one is not None
    assert other is not None
    mine = {tuple(map(other_side, row.reading.of)): (row.wanted, row.band) for row in one.rows}
    theirs = {row.reading.of: (row.wanted, row.band) for row in other.rows}
    assert set(mine) == set(theirs)
    for pair, found in mine.items():
        assert theirs[pair] == pytest.approx(found, abs=1e-6)


def test_no_bridge_nothing_to_read() -> None:
    from msgspec.structs import replace

    job = replace(sample("leaning-neck"), bridge=None)
    assert chosen(job, place_everything(job, survey(job))) == ()
    assert prove(job, "clamped") is None


@pytest.mark.parametrize("count", [LEAST - 1, LEAST])
def test_of_few_candidates_all_are_read(count: int) -> None:
    few = weighed(sample("leaning-neck"), count)
    assert choose(few) == tuple(range(count))
