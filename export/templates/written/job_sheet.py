"""The job sheet: the written record of a job to work from, with a small picture, boxes to tick and lines to fill in.

What the hands need is set on two pages where it can be; what is only looked at, figures and kept placements, follows.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import NamedTuple

import msgspec

from export import cautions
from export.drawing.flatten import Box
from export.drawing.marks import Text
from export.drawing.room.clear_words import words_clear
from export.drawing.shrinking import shrunk
from export.paper.flow import ROW, SMALL, Column, Flow, Item, filling
from export.paper.furniture import marks_box
from export.plan import Overlay, PlanView, compose
from export.records import Sheet, Stamp
from export.templates.written import job_results, job_tables, old_work_told, solid_tables, work_steps
from export.templates.written.job_figures import figures, least, rows_of_figures
from export.templates.written.readings_listed import readings_table
from export.templates.written.written_pages import numbered, put_head, written_ground
from geometry import go_or_wait
from geometry.findings import ASKS_NOTHING, Finding
from geometry.go_or_wait.told_once import told_of
from geometry.job import Held, Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout
from geometry.old_work import move_told
from geometry.placed import kept_placements, kept_told
from geometry.proof import dated, prove

SETTINGS = (
    ((4.5, 44.0, True), (4.2, 38.0, True), (4.0, 32.0, True), (3.8, 28.0, True), (3.6, 24.0, True)),
    ((4.0, 33.0, False), (3.8, 28.0, False), (3.6, 25.0, False), (3.5, 24.0, False)),
)
"""Ever tighter ways to set it, of which the first that ends on two pages is taken: a row's height and the picture's,
mm, and whether tables keep to one page."""
STRINGS = "Strings"
"""The title of the strings' table."""
NOTHING: Mapping[str, str] = {}


def pages(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    """All pages, portrait. Raises `ExportError` where the paper is too small."""
    inside = written_ground(stamp)
    box = _plan_box(job, layout)
    said = _said(job, layout, stamp)
    plots = rows_of_figures(job, layout, inside.width)
    after = least(plots)
    flow, place = _set_out(lambda setting: _flowed(job, stamp, inside, box, said, setting, after), after)
    if box is not None:
        _picture(flow, job, layout, box, place)
    figures(flow, job, layout, plots, sum(ROW * (len(rows) + 3.5) for _, rows, _ in said.kept))
    _beside_kept(flow, said.kept)
    return numbered(flow, job, stamp, "job-sheet")


Setting = tuple[float, float, bool]
Place = tuple[int, float, float, float]
"""Where the picture stands: its page, its lower edge on it, its scale, and the room for words over and under it, mm."""


def _set_out(flowed: Callable[[Setting], tuple[Flow, Place]], after: float = 0.0) -> tuple[Flow, Place]:
    """The roomiest of `SETTINGS` that ends on two pages, with whole tables if it can be, and then with as large a
    picture as these leave room for; what needs three pages fills them from the top. `after`: the room that is wanted
    behind it, mm.
    """
    flowed = cache(flowed)
    roomiest = flowed(SETTINGS[0][0])
    if len(roomiest[0].pages) <= 2:
        return roomiest
    whole = _first_on_two(SETTINGS[0][1:], flowed)
    if whole is not None:
        row = whole[0].row
        return _first_on_two([(row, picture, True) for _, picture, _ in SETTINGS[0]], flowed) or whole
    return _first_on_two(SETTINGS[1], flowed) or _on_three(flowed, after)


def _on_three(flowed: Callable[[Setting], tuple[Flow, Place]], after: float) -> tuple[Flow, Place]:
    """The roomiest row of the tighter settings that leaves the room that is wanted `after` on no more pages than the
    tightest needs, with whole tables where these need no more pages and leave it too; and whole lists, if a picture a
    little smaller leaves them room.
    """

    def all_pages(flow: Flow) -> int:
        return len(flow.pages) + (flow.room < after)

    def lacks(one: tuple[tuple[Flow, Place], bool]) -> tuple[int, bool, bool, int]:
        (flow, _), parted = one
        return len(flow.pages), flow.room < after, parted, flow.lists_parted

    best, fewest = None, all_pages(flowed(SETTINGS[1][-1])[0])
    for row, _, _ in SETTINGS[1]:
        settings = [(row, picture, whole) for whole in (True, False) for _, picture, _ in SETTINGS[1][:2]]
        tried = [(flowed(setting), not setting[2]) for setting in settings]
        best = min(tried if best is None else (best, *tried), key=lacks)
        if best[0][0].room >= after and all_pages(best[0][0]) <= fewest:
            break
    assert best is not None
    return best[0]


def _first_on_two(
    settings: Sequence[Setting], flowed: Callable[[Setting], tuple[Flow, Place]]
) -> tuple[Flow, Place] | None:
    """The first of ever tighter settings that ends on two pages, found by halving."""
    best: tuple[Flow, Place] | None = None
    low, high = 0, len(settings) - 1
    while low <= high:
        middle = (low + high) // 2
        tried = flowed(settings[middle])
        if len(tried[0].pages) <= 2:
            best, high = tried, middle - 1
        else:
            low = middle + 1
    return best


_Beside = tuple[str, Sequence[Sequence[str]], tuple[str, ...]]
"""A kept placement beside the present one: a title, the table's rows, what is said below."""


_Table = tuple[str, tuple[Column, ...], job_tables.Rows]


class _Said(NamedTuple):
    """What stands on the sheet, however it is set out: the findings, what the move does, the tables with
    anything in them (title, columns, rows), what is said below some of them by their title, each kept placement beside
    this one, go or wait and why for each operation, the steps, the readings.
    """

    found: tuple[Finding, ...]
    old_work: tuple[str, ...]
    tables: tuple[_Table, ...]
    below: Mapping[str, str]
    kept: tuple[_Beside, ...]
    now: tuple[tuple[str, str], ...]
    steps: tuple[str, ...]
    readings: job_tables.Rows


def _said(job: Job, layout: Layout, stamp: Stamp) -> _Said:
    found = [
        finding
        for grade in ("stop", "look")
        for finding in layout.findings
        if finding.grade == grade and not move_told.tells(finding)
    ]
    told = told_of(job, layout)
    clamped = told.clamped
    built = prove(job, "built", told.surveyed) if any(one.stage == "built" for one in job.proof) else None
    proof = job_tables.proof_rows(job, clamped)
    before = f"Check before {how_held(job).before}"
    several = job.separate is not None and job.separate.bases != "one"
    rest = "Screw holes, and strings beside the board" if several else "Strings beside the board"
    known = rest if proof else before
    tables = (
        ("Results", job_results.RESULTS, job_results.results(job, layout)),
        (before, job_tables.PROOF, proof),
        (known, job_tables.CHECKS, job_tables.checks(job, layout, proved=bool(proof))),
        (STRINGS, job_tables.STRINGS, job_tables.strings(job, layout)),
        (f"Saddle, {job.unit}", *solid_tables.filled(solid_tables.SADDLE, solid_tables.saddle(job, layout))),
        (f"Crown, {job.unit}", *solid_tables.filled(solid_tables.CROWN, solid_tables.crown(job, layout))),
        (f"Nut, {job.unit}", *solid_tables.filled(solid_tables.NUT, solid_tables.nut(job, layout))),
        ("Choice of saddle", job_tables.CHOICE, job_tables.saddle_choice(job, layout)),
        ("Plugs and drills", job_tables.HOLES, job_tables.holes(job, layout)),
    )
    return _Said(
        old_work=old_work_told.paragraphs(job, layout),
        found=tuple(sorted(found, key=lambda one: (one.grade != "stop", not one.large))),
        tables=tuple(table for table in tables if table[2]),
        below={STRINGS: _heights_told(job), before: " ".join(filter(None, (dated(job, clamped), dated(job, built))))},
        kept=tuple(
            (kept_told.title(job, kept), rows, tuple(kept_told.below(job, beside)))
            for kept in job.kept
            if (beside := kept_placements.compare(job, layout, kept)) is not None
            for rows in (kept_told.rows(job, beside),)
            if any(row[-1] != kept_told.SAME for row in rows)
        ),
        now=tuple(zip(map(go_or_wait.in_a_word, told.steps), go_or_wait.said(job, told.steps), strict=True)),
        steps=work_steps.steps(
            job, layout, stamp.templates, stamp.fingerprint, [step.what for step in told.steps if not step.go]
        ),
        readings=job_tables.readings(job, layout),
    )


def _heights_told(job: Job) -> str:
    """From what the heights of strings that start at a fret are taken; "" where none does."""
    if job.strings is None or not any(string.first for string in job.strings.list):
        return ""
    from geometry.placed.small_nuts import height_told  # few jobs have one

    said = (height_told(job.strings, at) for at in range(len(job.strings.list)))
    return " ".join(one for one in said if one)


def _flowed(
    job: Job, stamp: Stamp, inside: Box, box: Box | None, said: _Said, setting: Setting, after: float
) -> tuple[Flow, Place]:
    """The whole job sheet, set out in one of the ways of `SETTINGS`, and where there is room for its picture; `after`:
    the room that is wanted behind it, mm.
    """
    row, picture, whole = setting
    flow = Flow(inside, row)
    put_head(flow, job, stamp, "Job sheet")
    if job.note:
        flow.words(job.note, 2.1)
    flow.y -= 1.0
    place = _room(flow, box, picture) if box is not None else (0, 0.0, 1.0, 0.0)
    if said.now:
        flow.heading("Go or wait")
        flow.named(said.now)
    _first_of_all(flow, job.held, said.found)
    _old_work(flow, said.old_work)
    _results(flow, said.tables, said.below, whole=whole)
    flow.listed("The work, in order", [Item(text) for text in said.steps])
    readings_table(flow, said.readings, job_tables.off_by(job), after)
    return flow, place


LABEL_MOVES = 4.0
"""How far a word of the small plan is moved off a line at most, mm."""
FOR_WORDS = 4.0
"""The room for words over the small plan, and under it, where it is low, mm."""
OVERLAYS: frozenset[Overlay] = frozenset(("seam", "old bridge", "labels", "placements"))


def _plan_box(job: Job, layout: Layout) -> Box | None:
    """How large the plan is, words left aside, instrument mm; None where there is no plan yet."""
    if layout.neck is None:
        return None
    drawing = compose(job, layout, PlanView(scale=0.21, overlays=OVERLAYS))
    return marks_box([mark for mark in drawing.marks if not isinstance(mark.shape, Text)])


def _room(flow: Flow, box: Box, high: float) -> Place:
    """Leave room for the plan, as wide as the page or `high` mm high, with words over and under one that is low."""
    scale = min((flow.ground.width - 16.0) / box.width, high / box.height)
    for_words = min(FOR_WORDS, (high - box.height * scale) / 2)
    flow.need(box.height * scale + 2 * for_words + 4.0)
    flow.y -= box.height * scale + for_words + 2.0
    place = len(flow.pages) - 1, flow.y, scale, for_words
    flow.y -= for_words + 2.0
    return place


def _picture(flow: Flow, job: Job, layout: Layout, box: Box, place: Place) -> None:
    """The plan, small, in the room that was left for it."""
    page, low, scale, for_words = place
    side, over = (flow.ground.width / scale - box.width) / 2, for_words / scale
    window = Box(box.x0 - side, box.y0 - over, box.x1 + side, box.y1 + over)
    drawing = compose(job, layout, PlanView(scale=scale, window=window, overlays=OVERLAYS, on_paper=True))
    left = flow.ground.x0 + (flow.ground.width - box.width * scale) / 2
    thin = tuple(msgspec.structs.replace(mark, weight=0.6 * mark.weight) for mark in drawing.marks)
    laid = shrunk(thin, scale, (left - box.x0 * scale, low - box.y0 * scale))
    flow.pages[page] += words_clear(laid, LABEL_MOVES)


def _first_of_all(flow: Flow, held: Held, found: Sequence[Finding]) -> None:
    """What must be looked at before a bridge is moved, and what was found."""
    flow.listed("Before you move anything", [Item(text) for text in cautions.before(held)])
    if found:
        flow.listed("What was found", [_found(finding) for finding in found])


def _found(finding: Finding) -> Item:
    stop = finding.grade == "stop"
    ticked = not stop and finding.code not in ASKS_NOTHING
    return Item(f"STOP. {finding.text}" if stop else finding.text, ticked=ticked, bold=stop or finding.large)


def _old_work(flow: Flow, paragraphs: Sequence[str]) -> None:
    """What the move does to the old work."""
    if paragraphs:
        flow.heading("What the move does")
    for text in paragraphs:
        flow.words(text, SMALL)


def _results(flow: Flow, tables: Sequence[_Table], below: Mapping[str, str] = NOTHING, *, whole: bool) -> None:
    for title, columns, rows in tables:
        together = len(rows) if whole and len(rows) < 20 else min(len(rows), 3)
        flow.heading(title, follows=flow.row * (together + 1) + 0.5)
        flow.table(filling(columns, flow.ground.width), rows)
        if below.get(title):
            flow.y -= 1.0
            flow.words(below[title], SMALL)


def _beside_kept(flow: Flow, kept: Sequence[_Beside]) -> None:
    """How far this placement stands from each that is kept, but from those that it is."""
    columns = filling(job_tables.KEPT, flow.ground.width)
    for title, rows, below in kept:
        flow.heading(title, follows=ROW * 4)
        flow.table(columns, rows, pitch=ROW)
        for said in below:
            flow.y -= 1.0
            flow.words(said, SMALL)
