"""Wherever a place's ± stands with cents beside it, on the card, the job sheet and the work-out page, the
cents are those of that ±: 1731 cents for its share of the string's length (derived: 1200 log2 of a length, its slope).
"""

import re
from collections.abc import Callable, Iterator

import pytest
from msgspec.structs import replace

from app.cli import bench_page
from app.file import job_file, samples
from app.say.figures import key_figures
from export.templates.written import job_results
from geometry import go_or_wait
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job, Saddle
from geometry.job.bridges.how_held import how_held
from geometry.job.seating import Moved
from geometry.layout import Layout
from geometry.spacing import CENTS
from geometry.units import MM_PER, Unit, mm, parse, show_pm
from geometry.work_out import work_out

NAMES = [path.name.removesuffix(".job.json") for path in sorted(samples.paths())]
PM = r"(under )?±([\d/. ]+?)(?: (?:mm|in))?"
STEP: dict[Unit, float] = {"mm": 0.1, "cm": 0.1, "in": MM_PER["in"] / 64}
"""A ± is rounded up to such a step."""


def as_it_is(job: Job) -> Job:
    return job


def in_inches(job: Job) -> Job:
    return replace(job, unit="in")


def moved(job: Job) -> Job:
    """The bridge moved by hand, or a floating one on longer feet."""
    if job.bridge is not None:
        return replace(job, bridge=replace(job.bridge, moved=Moved(along=2.0, across=1.0, turn=0.5)))
    if job.floating is not None:
        return replace(job, floating=replace(job.floating, length=mm(job.floating.length) + 60.0))
    return job


def thin(job: Job) -> Job:
    return replace(job, saddle=replace(job.saddle or Saddle(), thickness=1.5))


CHANGES: tuple[Callable[[Job], Job], ...] = (as_it_is, in_inches, moved, thin)


def told(job: Job, layout: Layout) -> Iterator[tuple[str, str]]:
    """All that is said with a ± and its cents, and where."""
    steps = told_of(job, layout).steps
    for line in (*go_or_wait.said(job, steps), *go_or_wait.in_short(job, steps)):
        yield "go or wait", line
    for name, _, pm95, says in job_results.results(job, layout):
        yield f"job sheet, {name}", f"±{pm95} {job.unit}, {says}"
    yield "work-out", " ".join(bench_page.page(job, layout).split())


def pairs(job: Job, layout: Layout) -> Iterator[tuple[str, float, float]]:
    for where, says in told(job, layout):
        for found in re.finditer(rf"{PM}(?: \(| · |, from[^;]*; )([\d.]+) cents", says):
            if not found[1]:
                yield where, mm(parse(f"{found[2]} {job.unit}")), float(found[3])


@pytest.mark.parametrize("change", CHANGES)
@pytest.mark.parametrize("name", NAMES)
def test_the_cents_are_those_of_the_plus_or_minus_beside_them(name: str, change: Callable[[Job], Job]) -> None:
    """And what would narrow a ± by less than is told is not told."""
    path = samples.find(name)
    assert path is not None
    job = change(job_file.read(path))
    layout = work_out(job)
    lengths = [string.length for string in layout.strings]
    found = list(pairs(job, layout))
    stopped = all(step.why in ("stop", "after") for step in go_or_wait.verdicts(job, layout))
    everywhere = {"work-out"} | (set() if stopped else {"go or wait"})
    assert {where.partition(",")[0] for where, *_ in found} >= everywhere
    for line in go_or_wait.said(job, told_of(job, layout).steps):
        narrower = re.search(rf"known to {PM}.*brings the ± down to ([\d./ ]+) ", line)
        assert narrower is None or narrower[2] != narrower[3], line
    for where, pm95, cents in found:
        most = CENTS * pm95 / (min(lengths) - 10.0) + 0.05  # the nominal place lies up to 10 mm before the break
        least = CENTS * (pm95 - STEP[job.unit]) / max(lengths) - 0.05
        assert least <= cents <= most, (where, pm95, cents)


@pytest.mark.parametrize("name", NAMES)
def test_the_strip_tells_the_distances_own_plus_or_minus_and_the_cents_that_go_or_wait_tells(name: str) -> None:
    """Along an edge it is known otherwise than the saddle's place at the outer string, whose cents they are."""
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    figures = key_figures.key_figures(job, layout)[:2]
    for figure in figures:
        hand = figure.title.rsplit(", ", 1)[1].removesuffix(" edge")
        check = next(one for one in layout.checks if one.code == f"{how_held(job).check}.{hand}")
        assert figure.rest.startswith(f"±{show_pm(check.pm95, job.unit)} {job.unit}")
    for step in go_or_wait.verdicts(job, layout):
        if step.what in ("slot", "stand") and step.cents is not None and step.side is not None:
            hand = job.bass_or_treble(step.side)
            rest = next(one.rest for one in figures if one.title.endswith(f"{hand} edge"))
            assert f" · string {step.cents:.1f} cents" in rest
