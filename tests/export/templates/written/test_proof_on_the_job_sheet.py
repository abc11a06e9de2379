"""What the job sheet says of the distances of the proof."""

import re

import msgspec
import pytest

from export.paper.flow import fitted
from export.records import Stamp
from export.templates.written import job_tables
from geometry.job import Job
from geometry.proof import prove
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export.templates.written.test_job_sheet import job_sheet, leaning, words
from tests.geometry.proof.proof_read import read


def test_the_band_of_a_distance_of_the_proof_is_called_good_within(stamp: Stamp) -> None:
    job, layout = leaning()
    rows = job_tables.proof_rows(job, prove(job, "clamped"))
    assert rows
    assert all(row[3].startswith("±") for row in rows)
    said = words(job_sheet(job, layout, stamp))
    assert said.index("Check before the glue") < said.index("good within") < said.index("Strings beside the board")


def test_whether_a_distance_is_too_long_or_too_short_is_not_cut_off(job: Job) -> None:
    """derived: the widest that an inch job says: three figures, a fraction of 64ths, and how far off it is"""
    measured = job_tables.PROOF[-1]
    for said in ("24 57/64 not good: 15/64 in less", "633.75 not good: 12.5 mm more"):
        assert fitted(said, measured) == said
    assert sum(column.width for column in job_tables.PROOF) <= sum(column.width for column in job_tables.CHECKS)
    bands = [row for row in job_tables.proof_rows(job, prove(job, "clamped")) if row]
    assert all(fitted(cell, at) == cell for row in bands for cell, at in zip(row, job_tables.PROOF, strict=True))


@pytest.mark.parametrize(("off", "says"), [(0j, "Good: the bridge is where it belongs."), (3j, "Not good: likeliest")])
def test_it_repeats_where_the_proof_has_the_bridge(off: complex, says: str, stamp: Stamp) -> None:
    job = read(sample("leaning-neck"), off)
    said = " ".join(words(job_sheet(job, work_out(job), stamp)))
    assert f"Read before the glue, 2026-11-28. {says}" in said
    aside = "to the" if off else "across it"  # what shows as nought has no side
    assert re.search(rf"The bridge stands \d\.\d ±\d\.\d mm (too|along) .*, \d\.\d ±\d\.\d mm {aside}", said)


def test_it_repeats_what_was_read_as_built_too(stamp: Stamp) -> None:
    job = sample("leaning-neck")
    both = (*read(job).proof, *read(job, stage="built").proof)
    job = msgspec.structs.replace(job, proof=both)
    said = " ".join(words(job_sheet(job, work_out(job), stamp)))
    assert "Read before the glue, 2026-11-28. Good" in said
    assert "Read as built, 2026-11-28. Good" in said


def test_where_too_few_distances_are_read_it_says_nothing_of_the_place(stamp: Stamp) -> None:
    job = read(sample("leaning-neck"))
    (proof,) = job.proof
    job = msgspec.structs.replace(job, proof=(msgspec.structs.replace(proof, readings=proof.readings[:2]),))
    assert "Read before the glue" not in " ".join(words(job_sheet(job, work_out(job), stamp)))
