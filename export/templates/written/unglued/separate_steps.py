"""The job sheet where each string has its own saddle on a base that is screwed down: the work in order, the results and
the drills.
"""

import math
from collections.abc import Iterator

from export import cautions, plugs_and_drills
from export.drills import either, nearest_inch, nearest_metric, nearest_names
from export.templates import registration
from export.templates.written import old_work_told
from export.templates.written.unglued.standing_steps import strap_pin
from geometry.job import Job, Separate
from geometry.layout import Layout, SeparatePlan
from geometry.units import mm, show, show_pm
from geometry.words import string

Rows = list[list[str]]


def work(job: Job, layout: Layout) -> cautions.Work:
    """What is done, in order, by the kind of its step."""
    separate = job.separate
    assert separate is not None
    olds = old_work_told.plugs_said(job, layout)
    plugs = f" Plug {olds}, and level the plugs when they are set." if olds else ""
    return (
        ("base off", f"Take the strings off, and the old base.{plugs}"),
        (
            "tape",
            "Tape the sheet of saddle bases as it says; check both edge distances"
            f"{registration.edges_said(job, layout, 'base')}.",
        ),
        (
            "mark",
            "Prick the base’s corners and the middles of all holes through the paper. Take the sheet off and read the "
            "distances above to the marks. Drill only when they are good.",
        ),
        (
            "base drill",
            f"Drill the screw holes ({_drill(job, mm(separate.screw))}) square, to a stop; try one in scrap first.",
        ),
        *_through(job, separate),
        (
            "base on",
            "Screw the base on, and set each saddle to its place: the table of its travel says how far from the end.",
        ),
        *strap_pin(job, layout),
        *(("headstock", says) for says in plugs_and_drills.steps(job, layout)),
        ("base strings", "String up. Set each saddle by ear until fret 12 agrees with the open string."),
    )


CENTRED = "a counterbore whose pilot fits the hole, or a plug in the hole for the bit’s point to centre in"
"""How a hole is widened without tearing or wandering (common practice, no source)."""


def _through(job: Job, separate: Separate) -> Iterator[tuple[cautions.BaseStep, str]]:
    through = separate.through
    if through is None:
        return
    yield (
        "base through",
        f"Drill through from the face ({_drill(job, mm(through.diameter))}), square, through a guide hole in a block, "
        "with scrap wood held against the back so that nothing breaks out there.",
    )
    if through.ferrule is not None:
        deep = f"{show(mm(through.ferrule_deep), job.unit)} {job.unit}"
        yield (
            "base back",
            "Turn the body over and lay the back’s sheet on the two outer holes: every other hole must lie under its "
            f"cross. Widen them from the back for the ferrules ({_drill(job, mm(through.ferrule))}), {deep} deep to a "
            f"stop, with {CENTRED}. Press the ferrules in.",
        )


def _drill(job: Job, diameter: float) -> str:
    return either(nearest_names(diameter), job.unit)


def results(job: Job, plan: SeparatePlan) -> Rows:
    """How the base is set, how well its place is known, and the least reach."""
    least, unit = plan.least, job.unit
    end = "ahead" if least.ahead <= least.behind else "behind"
    cents = least.costs(least.pm95)
    says = f"{string(least.string)}, {end}" + ("" if cents is None else f"; {cents:.1f} cents at {least.octave}")
    rows = [["Least reach of a saddle", f"{show(least.least, unit)} {unit}", _pm(least.pm95, job), says]]
    corners = [pm for base in plan.bases for pm in base.corners_pm95]
    along, across = (max(pms) for pms in zip(*corners, strict=True))
    checked = "" if plan.across_checked else ", not checked"
    name = "The base’s place, corners" if len(plan.bases) == 1 else "The bases’ places, corners"
    rows.append([name, "", _pm(along, job), f"along the neck; ±{_pm(across, job)} {unit} across it{checked}"])
    if len(plan.bases) == 1:
        turn = math.degrees(plan.bases[0].turn)
        farther = "bass" if (turn < 0) == (job.bass == "left") else "treble"
        says = "square to the neck" if abs(turn) < 0.05 else f"{farther} end farther from the nut"
        rows.append(["The base out of square by", f"{abs(turn):.1f}°", "", says])
    return rows


def holes(job: Job, layout: Layout) -> Rows:
    """What is drilled for bases and strings, in the order of the work."""
    plan, separate = layout.separate, job.separate
    if plan is None or separate is None:
        return []
    rows = []
    screws = [pm for base in plan.bases for pm in base.screws_pm95]
    if screws:
        rows.append(_row(job, "Base’s screws, pilot holes", len(screws), mm(separate.screw), _place(job, screws)))
    if separate.through is not None:
        body = separate.body
        through = "right through" if body is None else f"right through {show(mm(body), job.unit)} {job.unit}"
        says = f"{through}, {_place(job, plan.through_pm95)}"
        rows.append(_row(job, "Strings through the body", len(plan.through), mm(separate.through.diameter), says))
        if separate.through.ferrule is not None:
            deep = f"from the back, {show(mm(separate.through.ferrule_deep), job.unit)} {job.unit} deep"
            rows.append(_row(job, "Ferrules", len(plan.through), mm(separate.through.ferrule), deep))
    return rows


def _row(job: Job, what: str, count: int, wide: float, says: str) -> list[str]:
    metric, inch = nearest_metric(wide), nearest_inch(wide)
    size = f"{show(wide, job.unit)} {job.unit}"
    return [what, str(count), size, metric.name, f"{inch.name} ({inch.diameter:.2f} mm)", says]


def _place(job: Job, pms: tuple[tuple[float, float], ...] | list[tuple[float, float]]) -> str:
    along, across = (_pm(max(one), job) for one in zip(*pms, strict=True))
    return f"placed to ±{along} {job.unit} along, ±{across} {job.unit} across"


def _pm(value: float, job: Job) -> str:
    return show_pm(value, job.unit)
