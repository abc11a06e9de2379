"""Distances that were copied from what they should read are not taken for a proof; those that were read are."""

import math

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.go_or_wait import told, verdicts
from geometry.job import Job, Proof, Reading
from geometry.job.measured.proof import Stage
from geometry.proof import Proved, as_finding, prove, wished
from geometry.proof.fitting import FALSELY, beyond
from geometry.proof.proof_at_stage import Row
from geometry.proof.proof_told import COPIED
from geometry.proof.too_near import copied
from geometry.survey import survey
from geometry.units import as_shown
from geometry.work_out import work_out
from tests.export.templates.written.test_before_after import words_of
from tests.geometry.go_or_wait.test_what_if import sample

END, SLOT = "end.left", "bridge.slot.right"


def good(count: int, band: float, *, off: float = 0.0, unit: str = "mm") -> Proved:
    """Distances that should read 200.03 mm and more, all typed as shown but the first, which is `off` from that."""
    made = []
    for i in range(count):
        wanted = 200.03 + 10 * i
        value = as_shown(wanted, unit) + (off if i == 0 else 0.0)  # type: ignore[arg-type]  # a unit
        reading = Reading(id=f"p{i}", kind="distance", of=(END, SLOT), value=value)
        made.append(Row(reading=reading, wanted=wanted, band=band, good="good", off=value - wanted))
    return Proved(stage="clamped", when="", rows=tuple(made), cause="good")


def test_all_typed_as_shown_are_copied_and_one_tenth_elsewhere_is_not() -> None:
    """derived: with 0.3 mm standard deviation a tenth is hit with erf(0.05 / 0.3 / √2) = 0.13: five, 0.00004"""
    band = 0.3 * beyond(FALSELY / 2 / 5)
    assert copied(good(5, band), "mm")
    assert not copied(good(5, band, off=0.1), "mm")
    assert not copied(replace(good(5, band), cause="slipped"), "mm")
    assert not copied(replace(good(5, band), rows=()), "mm")


@pytest.mark.parametrize(("sd", "is_copied"), [(0.30, False), (0.33, True)])
def test_so_near_by_chance_once_in_a_thousand(sd: float, is_copied: bool) -> None:
    """derived: of four, each must be hit with (0.001 / 4)^(1/4) = 0.126 at most: erf(0.05 / s / √2), s = 0.316 mm"""
    assert math.erf(0.05 / 0.316 / math.sqrt(2)) ** 4 == pytest.approx(0.001 / 4, rel=0.02)
    assert copied(good(4, sd * beyond(FALSELY / 2 / 4)), "mm") is is_copied


def test_in_64ths_a_rule_reads_so() -> None:
    """derived: half a 64th is 0.198 mm; with 0.35 mm standard deviation six are hit with 0.43^6 = 0.006"""
    assert not copied(good(6, 0.35 * beyond(FALSELY / 2 / 6), unit="in"), "in")


def typed(job: Job, values: list[float], stage: Stage = "clamped") -> Job:
    asked = wished(job)
    taken = tuple(replace(reading, value=value) for reading, value in zip(asked, values, strict=True))
    return replace(job, proof=(*job.proof, Proof(stage=stage, readings=taken)))


def as_it_should_be(job: Job, stage: Stage = "clamped", more: float = 0.0) -> Job:
    """The job with each distance typed as it is shown, the last so much longer."""
    blank = prove(job, stage)
    assert blank is not None
    shown = [as_shown(row.wanted, "mm") for row in blank.rows]
    return typed(job, [*shown[:-1], shown[-1] + more], stage)


def test_a_copied_proof_is_to_be_looked_at() -> None:
    job = sample("leaning-neck")
    found = prove(as_it_should_be(job), "clamped")
    assert found is not None
    assert found.cause == "good"
    finding = as_finding(job, found)
    assert (finding.grade, finding.code) == ("look", "proof.copied")
    assert finding.text.endswith(COPIED)


@pytest.mark.parametrize("stage", ["clamped", "built"])
@pytest.mark.parametrize(("more", "read"), [(0.0, False), (0.1, True)])
def test_a_copied_proof_is_as_if_none_were_read(stage: Stage, more: float, read: bool) -> None:
    """No string is told, the glue still asks for the distances, and the owner's page is that of a job without any."""
    job = sample("five-pairs")
    proved = as_it_should_be(job, stage, more)
    found, layout = prove(proved, stage), work_out(proved)
    assert found is not None
    assert found.copied is not read
    assert bool(found.strings) is read
    glue = next(step for step in verdicts(proved, layout) if step.what == "glue")
    assert glue.go
    assert ("First read the distances to check" in told(proved, glue)) is not read
    words = words_of(proved)
    assert (words != words_of(job)) is read
    assert ("As built" in words) is (read and stage == "built")


def test_too_little_margin_is_told_before_that_it_was_copied() -> None:
    """A proof that holds the glue back for a string too near the edge says so, however its distances were typed."""
    job = sample("leaning-neck")
    found = prove(as_it_should_be(job), "clamped")
    assert found is not None
    assert found.copied
    assert found.margin is not None
    short = replace(found, margin=replace(found.margin, mm=1.0, was=3.4))
    finding = as_finding(job, short)
    assert short.wrong
    assert finding.code == "proof.margin"
    assert "Not good across" in finding.text
    assert COPIED not in finding.text


def test_a_rule_that_reads_is_believed() -> None:
    """Of 200 proofs read to half a mm with 0.15 mm standard deviation, none is called copied (seed 32)."""
    job = sample("leaning-neck")
    surveyed, asked, random = survey(job), wished(job), np.random.default_rng(32)
    blank = prove(job, "clamped", surveyed, asked)
    assert blank is not None
    for _ in range(200):
        values = [round(2 * (row.wanted + random.normal(0, 0.15))) / 2 for row in blank.rows]
        off = [
            replace(row, reading=replace(row.reading, value=value), good="good")
            for row, value in zip(blank.rows, values, strict=True)
        ]
        assert not copied(replace(blank, cause="good", rows=tuple(off)), "mm")
