"""The short form of the campaign of slips; the long one is `python -m tests.campaign.mutated`."""

from collections import Counter

from msgspec.structs import replace

from geometry.job import Job
from geometry.work_out import work_out
from tests.campaign.mutated.mutations import MUTATIONS
from tests.campaign.mutated.of_numbers import Mutated, slip_of
from tests.campaign.mutated.silent import MOVED, campaign, figure_line, from_nut, right_job, said, tried

COUNT, SEED = 300, 2026


def test_no_slip_moves_the_saddle_without_a_word() -> None:
    found = campaign(SEED, COUNT)
    assert [(told.kind, told.index, told.what) for told in found if told.silent or told.crashed] == []
    # the slips bite: of so many some are refused, and a good part moves the saddle
    assert sum(told.refused for told in found) > COUNT // 50
    assert sum(told.moved > MOVED for told in found) > COUNT // 20
    assert {told.kind for told in found} == set(MUTATIONS)
    assert figure_line(found).endswith("0 of these without a word; 0 ended in an exception")


def test_a_piece_gives_what_the_whole_gives() -> None:
    assert campaign(SEED, 12) == [*campaign(SEED, 5), *campaign(SEED, 7, first=5)]


def lower(job: Job, by: float) -> Job:
    """The job with all its typed compensation less, which is within all bounds and a person's own choice."""
    assert job.strings is not None
    typed = job.strings.compensation
    assert isinstance(typed, tuple)
    less = tuple(float(value) - by for value in typed if isinstance(value, (int, float)))
    return replace(job, strings=replace(job.strings, compensation=less))


def test_what_is_silent_is_seen() -> None:
    """All compensation 3 mm less moves the saddle by as much, and nothing can tell that it was not meant."""
    right = right_job(4, SEED)
    job = right.job
    told = tried("order reversed", 0, Mutated(lower(job, 3.0), "all less"), right)
    assert abs(told.moved - 3.0) < 0.05
    assert told.silent
    assert not tried("order reversed", 0, Mutated(lower(job, 1.0), "all less"), right).silent


def test_what_was_said_before_is_no_new_word() -> None:
    job, right, _ = right_job(4, SEED)
    assert Counter(found.grade for found in right.findings)["look"] > 0
    assert not said(right, right, "")
    assert said(right, work_out(lower(job, 12.0)), "")


def test_from_the_nut_is_along_the_centre_line() -> None:
    """A nut's compensation moves where the string starts, not where the nut stands."""
    job, right, _ = right_job(4, SEED)
    assert job.strings is not None
    moved = work_out(replace(job, strings=replace(job.strings, nut_compensation=1.0)))
    for here, there in zip(from_nut(moved), from_nut(right), strict=True):
        assert abs(here - there) < 1e-6


def test_a_number_slips_as_a_hand_slips() -> None:
    import random

    chance = random.Random(1)
    assert slip_of(12.0, "digits exchanged", chance) == 21.0
    assert slip_of("25 11/32 in", "unit slipped", chance) in ("25.34375 mm", "25.34375 cm", "25.344 mm", "25.344 cm")
    assert {slip_of(40.0, "point slipped", chance) for _ in range(20)} == {400.0, 4.0}
