"""Any block of separate saddles works out without an exception, and a mirrored instrument to the mirror image."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from geometry.job import Job, Separate
from geometry.work_out import lay_out, work_out
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.any_job.odd_jobs import PLACES, jobs
from tests.geometry.any_job.test_mirrored import asked
from tests.geometry.any_job.test_never_stops import EXTRAS, is_sound
from tests.geometry.made import surveyed
from tests.geometry.separate.odd_bases import blocks
from tests.geometry.separate.slanted_sample import one_a_string, plan_of, sample, with_block

SLOW = settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@SLOW
@given(jobs(), blocks())
def test_any_job_works_out(job: Job, block: Separate) -> None:
    made = replace(job, bridge=None, saddle=None, separate=replace(block, opening=()))
    is_sound(made, work_out(made))


@SLOW
@given(asked(), blocks(), st.data())
def test_any_block_works_out_on_a_surveyed_instrument(job: Job, block: Separate, data: st.DataObject) -> None:
    made = replace(job, bridge=None, saddle=None, separate=block)
    extras = {name: value for name, value in EXTRAS.items() if data.draw(st.integers(0, 7))}
    is_sound(made, lay_out(made, surveyed(PLACES, extras)))


@pytest.mark.parametrize(
    "job",
    [
        sample(),
        with_block(set="square", travel=4),
        with_block(set="saddle line"),
        replace(sample(), separate=one_a_string()),
        replace(sample(), unit="in"),
    ],
    ids=["most reach", "square", "saddle line", "one a string", "inches"],
)
def test_the_mirror_image_for_the_other_hand(job: Job) -> None:
    here, plan = plan_of(job)
    there, other = plan_of(mirrored(job))
    for one, two in zip(plan.saddles, other.saddles, strict=True):
        assert (one.string, one.reached) == (two.string, two.reached)
        assert (one.wanted[0], -one.wanted[1], one.ahead, one.behind, one.pm95) == pytest.approx(
            (*two.wanted, two.ahead, two.behind, two.pm95), abs=1e-6
        )
    for base, across in zip(plan.bases, other.bases, strict=True):
        assert base.turn == pytest.approx(-across.turn, abs=1e-9)
        fl, fr, br, bl = ((x, -y) for x, y in across.corners)
        for at, mirror in zip(base.corners, (fr, fl, bl, br), strict=True):
            assert at == pytest.approx(mirror, abs=1e-6)
        assert [(x, -y) for x, y in (hole.at for hole in across.screws)] == [
            pytest.approx(hole.at, abs=1e-6) for hole in base.screws
        ]
        assert base.screws_pm95 == tuple(pytest.approx(pm, abs=1e-6) for pm in across.screws_pm95)
    assert [h.name for h in plan.through] == [h.name for h in other.through]
    assert {c.code: c.distance for c in here.checks} == pytest.approx({c.code: c.distance for c in there.checks})
    assert sorted((f.code, f.text.replace("left", "right")) for f in here.findings) == sorted(
        (f.code, f.text.replace("left", "right")) for f in there.findings
    )


def test_a_layout_in_inches_is_the_same_layout() -> None:
    _, plan = plan_of(sample())
    _, inch = plan_of(replace(sample(), unit="in"))
    assert plan == inch


def test_a_base_typed_in_inches_is_the_same_base() -> None:
    _, plan = plan_of(with_block(travel=12.7, foremost=9.525, screws=((6.35, 25.4), (6.35, -25.4))))
    _, inch = plan_of(
        with_block(travel="1/2 in", foremost="3/8 in", screws=(("1/4 in", "1 in"), ("1/4 in", "-1 in")))
    )  # derived: 25.4 mm to the inch
    for at, same in zip(plan.corners, inch.corners, strict=True):
        assert at == pytest.approx(same)
    assert all(math.dist(a.at, b.at) < 1e-9 for a, b in zip(plan.bases[0].screws, inch.bases[0].screws, strict=True))


def test_the_block_saddle_counts_for_nothing() -> None:
    from geometry.job import Saddle

    wide = replace(sample(), saddle=Saddle(thickness=12, slot_length=12, straight=True))
    assert plan_of(wide)[0].findings == plan_of(sample())[0].findings
