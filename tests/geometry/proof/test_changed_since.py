"""Distances that were good until the layout was changed: that is told, and not that the bridge is clamped wrongly."""

import pytest
from msgspec.structs import replace

from app.edit.bridge import proof_entries
from app.file import job_file
from geometry.go_or_wait import told, verdicts
from geometry.job import Job, Proof
from geometry.proof import prove
from geometry.proof.proof_at_stage import Proved
from geometry.proof.proof_told import said
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.geometry.proof.proof_read import read


def remembered(job: Job) -> Job:
    """The job with what each distance is to be now kept beside it, as when it is typed."""
    (proof,) = job.proof
    return replace(job, proof=(replace(proof, wanted={row.reading.id: row.wanted for row in proved(job).rows}),))


def proved(job: Job) -> Proved:
    found = prove(job, "clamped")
    assert found is not None
    return found


def moved(job: Job, far: float) -> Job:
    """The same with its strings, and so its bridge, so far (mm) to one side."""
    assert job.strings is not None
    return replace(job, strings=replace(job.strings, shift=far))


def glue(job: Job) -> str:
    (step,) = (one for one in verdicts(job, work_out(job)) if one.what == "glue")
    return told(job, step)


@pytest.fixture(scope="module")
def good() -> Job:
    return remembered(read(sample("leaning-neck")))


def test_a_layout_that_was_changed_is_told_and_no_clamp_is_blamed(good: Job) -> None:
    assert not proved(good).wrong
    later = moved(good, 2.0)
    found = proved(later)
    most = max(abs(row.wanted - good.proof[0].wanted[row.reading.id]) for row in found.rows)
    assert found.wrong
    assert found.changed == pytest.approx(most, abs=1e-9)
    # derived: no distance changes by more than its end on the bridge moves, and one across the bridge by nothing
    assert 0.5 < most <= 2.0 + 1e-6
    assert said(later, found).startswith("The layout was changed since these were read: now they are to read up to ")
    assert found.strings == ()
    assert "the layout was changed since its distances were read; lay the new sheet" in glue(later)


def test_a_bridge_that_slipped_is_blamed_though_what_was_wanted_is_known() -> None:
    slipped = remembered(read(sample("leaning-neck"), off=4.0))
    assert proved(slipped).wrong
    assert proved(slipped).changed == 0
    assert "clamped where it does not belong" in glue(slipped)
    assert proved(moved(slipped, 2.0)).changed == 0  # nor when the layout moved besides


def test_of_distances_whose_place_was_not_kept_nothing_is_said_of_a_change(good: Job) -> None:
    older = replace(good, proof=(replace(good.proof[0], wanted={}),))
    assert proved(moved(older, 2.0)).changed == 0
    assert "clamped where it does not belong" in glue(moved(older, 2.0))


def test_what_is_typed_keeps_what_it_was_to_be_and_forgets_it_when_it_goes() -> None:
    job = sample("leaning-neck")
    first, second = (row for row in proved(job).rows[:2])
    job = proof_entries.put(job, "clamped", first.reading, 330.0, "2026-11-28", 330.12345)
    job = proof_entries.put(job, "clamped", second.reading, 340.0, "2026-11-28")
    assert job.proof[0].wanted == {first.reading.id: 330.123}
    assert job_file.decode(job_file.encode(job)) == job
    job = proof_entries.put(job, "clamped", first.reading, None, "2026-11-28")
    assert job.proof == (Proof(stage="clamped", when="2026-11-28", readings=(replace(second.reading, value=340.0),)),)
