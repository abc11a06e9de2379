"""What stands in words beside the bases of separate saddles: each saddle's reach, how holes are drilled, what is read
before they are, and what may be done now.
"""

from msgspec.structs import replace

from export.drills import either, nearest_names
from export.hole_table import Table
from export.templates.saddle_place import proof_table
from export.templates.written.unglued.separate_steps import CENTRED
from geometry import go_or_wait
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job
from geometry.layout import Layout, SeparatePlan
from geometry.units import mm, said, show, show_pm
from geometry.words import string

OUTER = "Front and back: the outer corners of the two outer bases."
"""What the places of several bases' proof are."""
LEANS = 0.0175
"""How far a drill comes out aside for each mm of wood where it leans by a degree: its tangent."""


def saddles_table(job: Job, layout: Layout, plan: SeparatePlan) -> Table:
    """Each string's reach, from treble to bass; below it what may be done now and what must wait."""
    rows = tuple(
        (
            f"{'! ' if one.reached != 'reached' else ''}{string(one.string)}",
            show(one.ahead, job.unit),
            show(one.behind, job.unit),
            f"±{show_pm(one.pm95, job.unit)}",
        )
        for one in plan.saddles
    )
    short = any(one.reached != "reached" for one in plan.saddles)
    now = go_or_wait.in_short(job, told_of(job, layout).steps)
    return Table(
        title=f"Travel left at the wanted place, {job.unit}",
        head=("", "ahead", "behind", "±"),
        rows=rows,
        sides="seee",
        below=(*((("!: not all of its ± is within reach.", True),) if short else ()), *((line, True) for line in now)),
    )


def before_drilling(job: Job, layout: Layout) -> tuple[Table, ...]:
    """What a rule must read to the marks before any hole is drilled, with room to write; where no proof has a place,
    the plain distances with their ±.
    """
    proved = proof_table(job, layout, "Read before you drill")
    if proved and job.separate is not None and job.separate.bases != "one":
        return tuple(replace(table, below=(*table.below, (OUTER, False))) for table in proved)
    if proved:
        return proved
    rows = tuple(
        (f"{check.from_} to {check.to}", f"{show(check.distance, job.unit)} ±{show_pm(check.pm95, job.unit)}", "______")
        for check in layout.checks
        if ".screw." in check.code
    )
    head = ("", "as placed", "on wood")
    return (Table(title=f"Read before you drill, {job.unit}", head=head, rows=rows, sides="see"),) if rows else ()


def drill_notes(job: Job, plan: SeparatePlan, *, back: bool) -> tuple[str, ...]:
    """How the holes are drilled, from the face or from the back."""
    separate = job.separate
    through = separate.through if separate is not None else None
    if separate is None:
        return ()
    along, across = _worst(plan, back=back)
    unit = job.unit
    places = f"Places are good to ±{show_pm(along, unit)} {unit} along and ±{show_pm(across, unit)} {unit} across."
    if not back:
        lines = ["Prick every middle through the paper, take the sheet off and read the distances before you drill."]
        if through is not None:
            lines.append(
                "Drill through from the face, square, through a guide hole in a block, the back on scrap wood."
            )
        return (*lines, places)
    lines = []
    if separate.body is not None:
        out = said(LEANS * mm(separate.body), job.unit)
        lines.append(f"A drill that leans by one degree comes out {out} aside through this body.")
    if through is not None and through.ferrule is not None:
        deep, wide = said(mm(through.ferrule_deep), job.unit), mm(through.ferrule)
        drills = either(nearest_names(wide), job.unit)
        lines.append(f"Ferrules: {drills} from the back, {deep} deep to a stop, with {CENTRED}.")
    return (*lines, places)


def _worst(plan: SeparatePlan, *, back: bool) -> tuple[float, float]:
    """The ± of the places, the worst of them, along and across."""
    pms = plan.through_pm95 if back else [pm for base in plan.bases for pm in (*base.screws_pm95, *base.corners_pm95)]
    return max(pm for pm, _ in pms), max(pm for _, pm in pms)
