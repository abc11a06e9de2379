"""Of a job whose saddles stand on a screwed base, not a word belongs to a glued bridge: wherever a sentence is read."""

import datetime
import re
from collections.abc import Iterator
from functools import cache

import pytest
from msgspec.structs import replace

from app.cli import bench_page
from app.say.figures.key_figures import key_figures
from app.say.plan import plan_in_words
from export.drawing.marks import Text
from export.paper.lay_sheets import Stamp
from export.plan import PlanView, compose
from export.templates import all_sheets
from export.templates.to_be_read_first import warnings_of
from geometry import go_or_wait, proof
from geometry.advice import advise
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job, Proof
from geometry.job.measured.proof import STAGES
from geometry.layout import Layout
from geometry.words import reading
from geometry.work_out import work_out
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.separate.slanted_sample import one_a_string, sample, with_block

FOREIGN = re.compile(
    r"\b(slots?|glue[ds]?|gluing|pins?|plates?|footprint|scar|wings?|belly|ridges?|braces?|ream(?:ed)?|"
    r"saddle’s thickness|soundhole)\b",
    re.IGNORECASE,
)
"""Words of a bridge that is glued to a top."""


@cache
def jobs() -> dict[str, Job]:
    """Jobs that meet most of the sentences there are."""
    job = sample()
    asked = proof.wished(job)
    read = tuple(replace(one, value=600.0 + 5 * i) for i, one in enumerate(asked))
    accused = tuple(replace(r, value=r.value + 3) if r.id == "r19" else r for r in job.readings)  # type: ignore[operator]
    loose = tuple(r for r in job.readings if r.kind != "height" and r.id not in ("r5", "r6"))
    return {
        "as it is": job,
        "short travel": with_block(set="square", travel=3),
        "a little short": with_block(set="square", travel=7),
        "no travel": with_block(travel=0),
        "one a string": replace(job, separate=one_a_string()),
        "nothing told": with_block(screws=(), body=None, thickness=None, opening=(), saddles=5, width=50),
        "holes together": with_block(screws=((30, 0), (4.5, 33)), foremost=38, length=64, saddles=8),
        "proof read wrong": replace(job, proof=(Proof(stage="clamped", readings=read),)),
        "a slip": replace(job, readings=accused),
        "few readings": replace(job, readings=loose),
        "in inches": replace(job, unit="in"),
        "left-handed": mirrored(job),
        "without strings": replace(job, strings=None),
        "without a trace of readings": replace(job, readings=()),
    }


def sentences(job: Job, layout: Layout) -> Iterator[str]:
    """Every sentence there is to read of a job."""
    yield from (finding.text for finding in layout.findings)
    steps = told_of(job, layout).steps
    yield from (*go_or_wait.said(job, steps), *go_or_wait.in_short(job, steps), *go_or_wait.strip_words(steps))
    for figure in key_figures(job, layout):
        yield f"{figure.title} {figure.value} {figure.rest}"
    yield bench_page.page(job, layout)
    yield from (one.sentence for one in plan_in_words.shown(job, layout, {}))
    yield from (reading(one.reading, job.hand) for one in advise(job, layout).advice)
    yield from warnings_of(job, layout)
    for stage in STAGES:
        proved = proof.prove(job, stage)
        if proved is not None:
            yield proof.as_finding(job, proved).text
            yield from (" ".join(proof.ends_called(row.reading, job.hand)) for row in proved.rows)
            yield from (proof.row_words(job, row) for row in proved.rows)
    for scale, close in ((0.3, False), (1.2, True)):
        view = PlanView(scale=scale, close_up=close)
        yield from (mark.shape.text for mark in compose(job, layout, view).marks if isinstance(mark.shape, Text))
    stamp = Stamp(
        date=datetime.date(2025, 3, 1),
        fingerprint="0000-00",
        templates=("saddle-bases", "saddle-bases-back", "nut-slots", "job-sheet"),
    )
    left_out: list[str] = []
    for page in all_sheets(job, layout, stamp, left_out.append):
        if page.template != "nut-slots":  # a nut has slots whatever holds the bridge
            yield " ".join(mark.shape.text for mark in page.drawing.marks if isinstance(mark.shape, Text))
    yield from (text for text in left_out if "nut" not in text)


@pytest.mark.parametrize("name", jobs())
def test_no_word_of_a_glued_bridge_is_said(name: str) -> None:
    job = jobs()[name]
    found = {(match.group(), text) for text in sentences(job, work_out(job)) for match in FOREIGN.finditer(text)}
    assert not found


def test_a_foreign_word_would_be_seen() -> None:
    assert FOREIGN.search("Dry clamp. Glue, clamp, check once more.")
    assert not FOREIGN.search("Drill the screw holes of the base; the saddles travel.")
