"""A floating bridge is spoken of in its own words: none that belong to a glued one with pins stands anywhere in what is
printed, shown or found of a job with such a bridge.
"""

import datetime
import re
from collections.abc import Iterator

import pytest
from msgspec.structs import replace

from app.cli import bench_page
from app.edit.bridge import kept_places
from app.file import job_file, samples
from app.say.figures import key_figures
from app.say.plan import plan_in_words
from export.drawing.marks import Text
from export.errors import ExportError
from export.paper.lay_sheets import Stamp
from export.plan import USUAL_OVERLAYS, PlanView, compose
from export.templates import TEMPLATES, sheets
from geometry import go_or_wait
from geometry.advice import advise
from geometry.go_or_wait.told_once import told_of
from geometry.job import Heard, Job, Reading, Saddle, Tail
from geometry.layout import Layout
from geometry.work_out import work_out

OTHERS = re.compile(
    r"\b(glue\w*|unglued|pins?|pin holes?|plates?|slots?|footprints?|clamp\w*|dowels?|ledge|wings?|scars?|belly|rout\w*"
    r"|seated|reamed?|saddles?)\b",
    re.IGNORECASE,
)
"""Words that belong to glued bridges with pins, to the plates under them, or to bridges with a saddle: where the
strings break on a bridge that only stands is its crown."""
OF_THE_NUT = ("nut-slots",)
"""A nut has slots under any bridge."""
NOT_FOR_IT = (
    "bridge",
    "clearing",
    "plate",
    "headstock",
    "headstock-back",
    "post-jig",
    "side-markers",
    "face-markers",
    "saddle-bases",
    "saddle-bases-back",
    "saddle-blank",
)
"""Templates that this job does not have: they say why, of another kind of bridge or of hardware."""


def belongs_to_others(text: str) -> list[str]:
    """What of a text speaks of another kind of bridge; a strap pin is this one's own."""
    return OTHERS.findall(re.sub(r"strap[ -]pin", "", text, flags=re.IGNORECASE))


def sample() -> Job:
    path = samples.find("floating-five")
    assert path is not None
    return job_file.read(path)


def variants() -> Iterator[tuple[str, Job]]:
    """The sample, and it with what calls other sentences up."""
    job = sample()
    assert job.floating is not None
    assert job.strings is not None
    assert job.tail is not None
    yield "as it is", job
    yield "left-handed", replace(job, hand="left")
    yield "inches", replace(job, unit="in")
    yield "one piece", replace(job, floating=replace(job.floating, feet=()))
    yield "straight", replace(job, saddle=Saddle(straight=True, thickness=1.0))
    yield "thin and short", replace(job, saddle=Saddle(thickness=1.0, slot_length=30))
    yield "thick", replace(job, saddle=Saddle(thickness=9.0))
    yield "too high", replace(job, floating=replace(job.floating, height=30))
    yield "too long", replace(job, floating=replace(job.floating, length=290))
    yield "shallow tail", replace(job, tail=replace(job.tail, under=1))
    yield "steep tail", replace(job, tail=replace(job.tail, under=40, spread=10))
    yield "tail typed", replace(without(job, "tail."), tail=Tail(behind=60, spread=10, pin=True))
    yield "tail unknown", replace(without(job, "tail."), tail=Tail())
    yield "feet unread", replace(job, readings=tuple(unread(job, "foot.")))
    yield "turned", replace(job, readings=tuple(shifted(job, "foot.left", 9.0)))
    yield "on the board", replace(job, frets=replace(job.frets, nominal="octave"), readings=tuple(scaled(job)))
    yield "misread", replace(job, readings=tuple(shifted(job, "end.left", 9.0)))
    unknown = tuple(replace(string, pitch=None) for string in job.strings.list)
    yield "pitches unknown", replace(job, strings=replace(job.strings, list=unknown))
    heard = tuple(Heard(string=string.name, cents=5, trial="today", against="open") for string in job.strings.list)
    yield "heard", replace(job, strings=replace(job.strings, heard=heard))
    lost = replace(without(job, "foot."), strings=replace(job.strings, heard=heard))
    yield "heard, feet unread", lost
    yield "kept", replace(kept_places.keep(job, work_out(job), "2026-03-14"), floating=replace(job.floating, length=90))
    yield "no strings", replace(job, strings=None)
    yield "few readings", replace(job, readings=job.readings[:5])
    yield "no readings", replace(job, readings=())


def without(job: Job, start: str) -> Job:
    """The job without its points and readings of a name."""
    points = {name: point for name, point in job.points.items() if not name.startswith(start)}
    return replace(job, points=points, readings=tuple(r for r in job.readings if set(r.of) <= set(points)))


def unread(job: Job, start: str) -> Iterator[Reading]:
    for reading in job.readings:
        yield replace(reading, value=None) if reading.of and reading.of[0].startswith(start) else reading


def shifted(job: Job, name: str, by: float) -> Iterator[Reading]:
    for reading in job.readings:
        moved = reading.kind in ("along", "distance") and name in reading.of and isinstance(reading.value, (int, float))
        yield replace(reading, value=float(reading.value) + by) if moved else reading  # type: ignore[arg-type]


def scaled(job: Job) -> Iterator[Reading]:
    """Frets so near the nut that the bridge would stand on the board."""
    for reading in job.readings:
        yield replace(reading, value=0.6 * float(reading.value)) if reading.kind == "fret" else reading  # type: ignore[arg-type]


JOBS = dict(variants())


def printed(job: Job, layout: Layout) -> Iterator[tuple[str, str]]:
    """Every word on every template that the job can have."""
    for name in TEMPLATES:
        if name in (*OF_THE_NUT, *NOT_FOR_IT):
            continue
        stamp = Stamp(date=datetime.date(2026, 1, 2), fingerprint="0000-00", templates=(name,))
        try:
            for page in sheets(job, layout, stamp):
                yield name, " ".join(mark.shape.text for mark in page.drawing.marks if isinstance(mark.shape, Text))
        except ExportError as error:
            yield name, str(error)


def said(job: Job, layout: Layout) -> Iterator[tuple[str, str]]:
    """Everything that is said of a job."""
    for finding in layout.findings:
        yield finding.code, finding.text
    told = told_of(job, layout)
    steps = told.steps
    for text in (*go_or_wait.said(job, steps), *go_or_wait.in_short(job, steps), *go_or_wait.strip_words(steps)):
        yield "go or wait", text
    for figure in key_figures.key_figures(job, layout):
        yield "strip", f"{figure.title} {figure.short} {figure.value} {figure.rest}"
    for sentence in (one.sentence for one in plan_in_words.shown(job, layout, {})):
        yield "plan in words", sentence
    for one in advise(job, layout, told.surveyed).advice:
        yield "advice", repr(one)
    for scale in (0.2, 1.6, 6.0):
        drawing = compose(job, layout, PlanView(scale=scale, overlays=USUAL_OVERLAYS))
        yield "plan", " ".join(mark.shape.text for mark in drawing.marks if isinstance(mark.shape, Text))
    yield "bench page", bench_page.page(job, layout)


@pytest.mark.parametrize("which", JOBS)
def test_nothing_that_is_said_belongs_to_another_bridge(which: str) -> None:
    job = replace(JOBS[which], title="", note="")
    layout = work_out(job)
    wrong = [(where, words, text) for where, text in said(job, layout) if (words := belongs_to_others(text))]
    assert not wrong


@pytest.mark.parametrize(
    "which", ["as it is", "too long", "shallow tail", "heard", "kept", "tail unknown", "no strings"]
)
def test_nothing_that_is_printed_belongs_to_another_bridge(which: str) -> None:
    job = replace(JOBS[which], title="", note="")
    layout = work_out(job)
    wrong = [(name, words, text) for name, text in printed(job, layout) if (words := belongs_to_others(text))]
    assert not wrong


def test_a_glued_bridge_would_be_found_out() -> None:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    assert any(belongs_to_others(text) for _, text in said(job, layout))
    assert any(belongs_to_others(text) for _, text in printed(job, layout))
