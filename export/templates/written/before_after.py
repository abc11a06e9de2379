"""The page for the owner, before and after: what was measured, how far the bridge was moved, how well it is in tune,
and both drawings.
"""

import msgspec

from export.drawing.flatten import Box
from export.drawing.marks import Text
from export.drawing.shrinking import shrunk
from export.errors import ExportError
from export.paper.flow import SMALL, Column, Flow, Item, filling
from export.paper.furniture import marks_box
from export.plan import Overlay, PlanView, compose
from export.records import Sheet, Stamp
from export.templates.to_be_read_first import stops_of
from export.templates.written import job_results
from export.templates.written.job_tables import Rows
from export.templates.written.moved_told import moved, turned
from export.templates.written.unglued.standing_results import ALONG, moved_rows
from export.templates.written.written_pages import numbered, put_head, written_ground
from geometry import proof, words
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job
from geometry.job.measured.proof import STAGES
from geometry.layout import HardwarePlan, Layout, OldPlan, SaddlePlan, StringPlan
from geometry.proof import Proved
from geometry.proof.moved import moved_by
from geometry.strings.octave import octave_called
from geometry.survey import Surveyed
from geometry.units import FRACTION_SIGNS, said

WAYS = ((52.0, 4.5), (45.0, 4.5), (39.0, 4.5), (33.0, 4.5), (33.0, 4.0))
"""How high each drawing is at most, and a table's rows, mm: each way is taken only where it saves a page."""
TUNE = (
    Column("string", 20, "s", bold=True),
    Column("in tune to", 62),
    Column("as it is", 108),
)
MOVED = (Column("", 58), Column("", 42, "s", bold=True), Column("", 94))
FRONT = "Its front’s middle"
PROOF = (Column("from", 52), Column("to", 58), Column("should be", 34, "e"), Column("read", 44))


def pages(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    """All pages, portrait. Raises `ExportError` where there is no bridge yet."""
    if layout.neck is None or layout.bridge is None or layout.saddle is None:
        raise ExportError("Before and after cannot be shown yet: it needs the neck, the strings and a bridge")
    inside = written_ground(stamp)
    surveyed = told_of(job, layout).surveyed
    read = [stage for stage in STAGES if proof.latest(job, stage).readings]
    found = [proof.prove(job, stage, surveyed) for stage in read]
    proofs = [one for one in found if one is not None and not one.copied]
    moved = _moved(job, layout, surveyed)
    best: Flow | None = None
    for high, row in WAYS:
        if best is None or len(best.pages) > 1:
            flow = _set_out(job, layout, stamp, Flow(inside, row), proofs, moved, high)
            best = flow if best is None or len(flow.pages) < len(best.pages) else best
    assert best is not None
    return numbered(best, job, stamp, "before-and-after")


def _set_out(
    job: Job, layout: Layout, stamp: Stamp, flow: Flow, proofs: list[Proved], moved: Rows, high: float
) -> Flow:
    """All of it, the drawings so high."""
    put_head(flow, job, stamp, "Before and after")
    if stops := stops_of(layout):
        flow.listed("", [Item(f"STOP. {reason}", ticked=False, bold=True) for reason in stops])
    built = next((one for one in proofs if one.stage == "built" and one.strings), None)
    _drawings(flow, job, layout, built, high)
    _table(flow, "Measured", job_results.RESULTS, _measured(job, layout))
    _table(flow, "Moved by", MOVED, moved)
    _table(flow, "In tune to", TUNE, _tune(job, layout, built))
    for one in proofs:
        _proof(flow, job, one)
    return flow


def _drawings(flow: Flow, job: Job, layout: Layout, built: Proved | None, high: float) -> None:
    """The instrument with the old bridge alone, and with the new one alone, to one scale."""
    was = msgspec.structs.replace(layout, bridge=None, saddle=None, strings=(), margins=None, checks=(), findings=())
    was = msgspec.structs.replace(was, tail=None, hardware=_as_found(layout.hardware))
    now = msgspec.structs.replace(layout, old=OldPlan())
    seam: tuple[Overlay, ...] = ("seam", "labels")
    after = "As built" if built is not None else "As it is to be"
    for title, seen, overlays in (("As it was", was, (*seam, "old bridge")), (after, now, seam)):
        _drawing(flow, job, seen, title, frozenset(overlays), high)


def _as_found(hardware: HardwarePlan) -> HardwarePlan:
    """The headstock as it was read, with nothing that is to come: no posts, plates, plugs, markers or other holes."""
    head = hardware.headstock
    if head is not None:
        sides = tuple(msgspec.structs.replace(side, bores=(), screws=()) for side in head.sides)
        head = msgspec.structs.replace(head, posts=(), plates=(), screws=(), plugs=(), fittings=(), sides=sides)
    return HardwarePlan(headstock=head)


def _drawing(flow: Flow, job: Job, layout: Layout, title: str, overlays: frozenset[Overlay], high: float) -> None:
    whole = compose(job, layout, PlanView(scale=0.21, overlays=overlays))
    box = marks_box([mark for mark in whole.marks if not isinstance(mark.shape, Text)])
    scale = min((flow.ground.width - 16.0) / box.width, high / box.height)
    side = (flow.ground.width / scale - box.width) / 2
    window = Box(box.x0 - side, box.y0, box.x1 + side, box.y1)
    drawing = compose(job, layout, PlanView(scale=scale, window=window, overlays=overlays, on_paper=True))
    flow.heading(title, follows=box.height * scale + 4.0)
    flow.y -= box.height * scale
    thin = tuple(msgspec.structs.replace(mark, weight=0.6 * mark.weight) for mark in drawing.marks)
    flow.pages[-1] += shrunk(thin, scale, (flow.ground.x0 - window.x0 * scale, flow.y - window.y0 * scale))
    flow.y -= 2.0


def _table(flow: Flow, title: str, columns: tuple[Column, ...], rows: list[list[str]]) -> None:
    if not rows:
        return
    flow.heading(title, follows=flow.row * min(len(rows) + 1, 4))
    flow.table(filling(columns, flow.ground.width), rows)


def _measured(job: Job, layout: Layout) -> list[list[str]]:
    """How much was read and how it agrees, then what it comes to."""
    count = sum(reading.taken for reading in job.readings)
    seen = count - sum(not fit.checked for fit in layout.readings)
    said = layout.survey.why.sentence
    if layout.survey.verdict == "clean":
        said += f"; {'all' if seen == count else seen or 'none'} checked by others"
    return [["Readings", str(count), "", said], *job_results.results(job, layout)]


def _moved(job: Job, layout: Layout, surveyed: Surveyed) -> list[list[str]]:
    if layout.floating is not None:
        return moved_rows(job, layout.floating)
    found = moved_by(job, surveyed)
    if found is None:
        return []
    bass_or_treble = (f"to the {job.bass_or_treble('left')} side", f"to the {job.bass_or_treble('right')} side")
    rows = [
        moved(f"{FRONT}, along the neck", found.along, found.along_pm95, job.unit, ALONG),
        moved(f"{FRONT}, across", found.across, found.across_pm95, job.unit, bass_or_treble),
        turned(found.turn, found.turn_pm95),
    ]
    widths = layout.old.scar_widths
    if widths:
        rows.append(["Left uncovered", said(max(widths.values()), job.unit), "at most, of the old footprint"])
    return rows


def _tune(job: Job, layout: Layout, built: Proved | None) -> list[list[str]]:
    """Each string at its octave: as built where that was read, else as it is worked out to be."""
    assert layout.saddle is not None
    listed = {string.name: string for string in job.strings.list} if job.strings is not None else {}
    by_name = {string.name: string for string in built.strings} if built is not None else {}
    rows = []
    for string in layout.strings:
        found, where = by_name.get(string.name), octave_called(job, listed[string.name])
        if found is None:
            wide = _cents95(layout.saddle, string)
            rows.append([string.name, f"±{wide:.1f} cents at {where}", _known_by(job, string)])
        else:
            stays = f"{abs(found.left_cents):.1f} ±{found.cents95:.1f} cents at {where}"
            rows.append([string.name, stays, proof.string_words(job, found)])
    return rows


def _known_by(job: Job, string: StringPlan) -> str:
    """What the promise of a string's tune rests on."""
    if job.floating is None:
        return "as worked out; not read as built yet"
    return "as heard" if string.compensation_from == "by ear" else "as worked out; not heard on its bridge yet"


def _cents95(saddle: SaddlePlan, string: StringPlan) -> float:
    """The saddle's ± in cents where a string crosses it: between those at the outer strings, and at the octave of a
    shorter one more by as much as it is shorter.
    """
    (x, y), (_, left), (_, right) = string.break_point, *saddle.at_strings
    share = (y - right) / (left - right) if left != right else 0.5
    wide = saddle.tune95[0] * share + saddle.tune95[1] * (1 - share)
    return wide * x / string.length if string.starts_at else wide


def _proof(flow: Flow, job: Job, proved: Proved) -> None:
    """What was read at a stage, and what it says; nothing where nothing was read."""
    rows = [
        [*proof.ends_called(row.reading, job.hand), proof.band_words(job, row), _read(job, row)]
        for row in proved.rows
        if row.good in ("good", "not good")
    ]
    if not rows:
        return
    when = f", {proved.when}" if proved.when else ""
    _table(flow, f"Read {STAGES[proved.stage]}{when}", PROOF, rows)
    flow.y -= 1.0
    flow.words(proof.said(job, proved), SMALL + 0.15)


def _read(job: Job, row: proof.Row) -> str:
    """What was read, in the unit that it was typed in."""
    value = words.value(row.reading, job.unit)
    bare = value[-1].isdigit() or value[-1] in FRACTION_SIGNS
    return f"{value}{f' {job.unit}' if bare else ''}, {proof.row_words(job, row)}"
