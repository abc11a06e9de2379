"""The job sheet: the written record of a job to work from, with a small picture, boxes to tick and lines to fill in."""

from collections.abc import Callable
from typing import NamedTuple

import msgspec

from export import cautions
from export.drawing.flatten import Box
from export.drawing.marks import Drawing, Line, Mark, Text
from export.drawing.shrinking import shrunk
from export.paper.flow import SMALL, Column, Flow
from export.paper.furniture import day, marks_box
from export.paper_sizes import Paper, paper_named
from export.plan import Overlay, PlanView, compose
from export.records import Sheet, Stamp, printable_area
from export.templates import job_tables
from geometry import go_or_wait, words
from geometry.job import Job
from geometry.layout import Layout
from geometry.proof import Proved, prove

FOOT = 8.0
"""What is kept for the foot of a page, mm."""
SETTINGS = (
    (4.5, 44.0, True),
    (4.2, 38.0, True),
    (4.0, 30.0, True),
    (4.0, 30.0, False),
    (3.8, 26.0, False),
    (3.8, 22.0, False),
    (3.6, 16.0, False),
)
"""Ever tighter ways to set it, the first that ends on two pages is taken, or else the roomiest: a row's height and the
picture's, mm, and whether tables keep to one page."""
TIGHT, LOOSE = 3.2, 4.5
"""How near to each other the rows of readings may stand, so that they end on the second page where they can, mm."""


def pages(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    """All pages, portrait. Raises `ExportError` where the paper is too small."""
    paper = paper_named(stamp.paper)
    paper = Paper(paper.name, paper.width, min(paper.height, paper.width * 1.42))
    ground = printable_area(paper, stamp.margin, stamp.correction)
    inside = Box(ground.x0, ground.y0 + FOOT, ground.x1, ground.y1)
    box = _plan_box(job, layout)
    told = _Told(go_or_wait.said(job, go_or_wait.worked_out(job, layout)), prove(job, "clamped"))
    flow, place = _set_out(lambda setting: _flowed(job, layout, stamp, told, inside, box, setting))
    if box is not None:
        _picture(flow, job, layout, box, place)
    count = len(flow.pages)
    sheets = []
    for number, marks in enumerate(flow.pages, 1):
        below = foot(ground, job, stamp, f"page {number} of {count}")
        sheets.append(
            Sheet(
                name=f"job-sheet {number}",
                template="job-sheet",
                drawing=Drawing(title=f"Job sheet {number}", marks=(*marks, *below)),
                paper=paper,
                margin=stamp.margin,
                correction=stamp.correction,
            )
        )
    return tuple(sheets)


Setting = tuple[float, float, bool]
Place = tuple[int, float, float]
"""Where the picture stands: its page, its lower edge on it, and its scale."""


class _Told(NamedTuple):
    """What is worked out once for all ways to set the sheet: what may be done now, and the proof before the glue."""

    now: tuple[str, ...]
    proved: Proved | None


def _set_out(flowed: Callable[[Setting], tuple[Flow, Place]]) -> tuple[Flow, Place]:
    """The roomiest of `SETTINGS` that ends on two pages, found by halving; what needs three is set with room."""
    best = flowed(SETTINGS[0])
    if len(best[0].pages) <= 2:
        return best
    low, high = 1, len(SETTINGS) - 1
    while low <= high:
        middle = (low + high) // 2
        tried = flowed(SETTINGS[middle])
        if len(tried[0].pages) <= 2:
            best, high = tried, middle - 1
        else:
            low = middle + 1
    return best


def _flowed(
    job: Job, layout: Layout, stamp: Stamp, told: _Told, inside: Box, box: Box | None, setting: Setting
) -> tuple[Flow, Place]:
    """The whole job sheet, set out in one of the ways of `SETTINGS`, and where there is room for its picture."""
    row, picture, whole = setting
    flow = Flow(inside, row)
    _head(flow, job, stamp)
    place = _room(flow, box, picture) if box is not None else (0, 0.0, 1.0)
    if told.now:
        flow.heading("Go or wait")
        flow.words(" ".join(told.now), bold=True)
    _first_of_all(flow, layout)
    _results(flow, job, layout, told.proved, whole=whole)
    _steps(flow, job, layout)
    _readings(flow, job, layout)
    return flow, place


def _head(flow: Flow, job: Job, stamp: Stamp) -> None:
    flow.y -= 6.0
    flow.put((flow.ground.x0, flow.y), "Job sheet", 5.2, bold=True)
    flow.put((flow.ground.x1, flow.y), f"{day(stamp.date)} · file {stamp.fingerprint}", 2.3, side="e")
    flow.y -= 2.0
    flow.words(job.title or "Untitled job", 3.1)
    flow.words(words.job_line(job), 2.3)
    if job.note:
        flow.y -= 1.0
        flow.words(job.note, 2.1)
    flow.y -= 2.0


OVERLAYS: frozenset[Overlay] = frozenset(("seam", "old bridge", "labels"))


def _plan_box(job: Job, layout: Layout) -> Box | None:
    """How large the plan is, words left aside, instrument mm; None where there is no plan yet."""
    if layout.neck is None:
        return None
    drawing = compose(job, layout, PlanView(scale=0.21, overlays=OVERLAYS))
    return marks_box([mark for mark in drawing.marks if not isinstance(mark.shape, Text)])


def _room(flow: Flow, box: Box, high: float) -> Place:
    """Leave room for the plan, as wide as the page or `high` mm high."""
    scale = min((flow.ground.width - 16.0) / box.width, high / box.height)
    flow.need(box.height * scale + 4.0)
    flow.y -= box.height * scale + 2.0
    place = len(flow.pages) - 1, flow.y, scale
    flow.y -= 2.0
    return place


def _picture(flow: Flow, job: Job, layout: Layout, box: Box, place: Place) -> None:
    """The plan, small, in the room that was left for it."""
    page, low, scale = place
    side = (flow.ground.width / scale - box.width) / 2
    window = Box(box.x0 - side, box.y0, box.x1 + side, box.y1)
    drawing = compose(job, layout, PlanView(scale=scale, window=window, overlays=OVERLAYS))
    left = flow.ground.x0 + (flow.ground.width - box.width * scale) / 2
    thin = tuple(msgspec.structs.replace(mark, weight=0.6 * mark.weight) for mark in drawing.marks)
    flow.pages[page] += shrunk(thin, scale, (left - box.x0 * scale, low - box.y0 * scale))


def _first_of_all(flow: Flow, layout: Layout) -> None:
    """What must be looked at before a bridge is moved, and what was found."""
    flow.heading("Before you move anything")
    for text in cautions.BEFORE:
        flow.item(text, ticked=True)
    found = [finding for grade in ("stop", "look") for finding in layout.findings if finding.grade == grade]
    if found:
        flow.heading("What was found")
        for finding in sorted(found, key=lambda one: (one.grade != "stop", not one.large)):
            stop = finding.grade == "stop"
            flow.item(f"STOP. {finding.text}" if stop else finding.text, ticked=not stop, bold=stop or finding.large)


def _results(flow: Flow, job: Job, layout: Layout, proved: Proved | None, *, whole: bool) -> None:
    width = flow.ground.width
    for title, columns, rows in (
        ("Results", job_tables.RESULTS, job_tables.results(job, layout)),
        ("Check before the glue", job_tables.CHECKS, job_tables.checks(job, layout, proved)),
        ("Strings", job_tables.STRINGS, job_tables.strings(job, layout)),
        ("Holes", job_tables.HOLES, job_tables.holes(job, layout)),
    ):
        if rows:
            together = len(rows) if whole and len(rows) < 20 else min(len(rows), 3)
            flow.heading(title, follows=flow.row * (together + 1) + 0.5)
            share = width / sum(column.width for column in columns)
            flow.table([column._replace(width=column.width * share) for column in columns], rows)


def _steps(flow: Flow, job: Job, layout: Layout) -> None:
    flow.heading("The work, in order")
    for text in job_tables.steps(job, layout):
        flow.item(text, ticked=True)


def _readings(flow: Flow, job: Job, layout: Layout) -> None:
    """All readings in two tables side by side, each page's left one filled first."""
    rows = job_tables.readings(job, layout)
    if not rows:
        return
    flow.heading("Readings", follows=flow.row * 5)
    half = flow.ground.width / 2
    share = (half - 2.0) / sum(column.width for column in job_tables.READINGS)
    columns: list[Column] = [column._replace(width=column.width * share) for column in job_tables.READINGS]
    room = flow.room - flow.row - FOOT
    pitch = min(max(room / -(-len(rows) // 2), TIGHT), LOOSE)
    size = min(SMALL, 0.53 * pitch)
    while rows:
        fits = max(1, int((flow.room - flow.row - 2.0) / pitch))
        count = min(fits, -(-len(rows) // 2))
        top = flow.y
        flow.table(columns, rows[:count], None, size, pitch)
        low = flow.y
        if rows[count : 2 * count]:
            flow.y = top
            flow.table(columns, rows[count : 2 * count], flow.ground.x0 + half + 2.0, size, pitch)
        rows = rows[2 * count :]
        flow.y = low
        if rows:
            flow.need(flow.ground.height)
    flow.y -= 1.0
    flow.words(job_tables.OFF_BY, SMALL)


def foot(ground: Box, job: Job, stamp: Stamp, page: str) -> list[Mark]:
    """The line at a page's foot: the job, its fingerprint, and which page it is."""
    y = ground.y0
    left = Text((ground.x0, y + 1.2), f"{job.title or 'Untitled job'} · file {stamp.fingerprint}", 2.0)
    right = Text((ground.x1, y + 1.2), page, 2.0, 0.0, "eb")
    line = Line((ground.x0, y + 5.4), (ground.x1, y + 5.4))
    return [Mark(shape=line, purpose="dimension"), *(Mark(shape=text, purpose="note") for text in (left, right))]
