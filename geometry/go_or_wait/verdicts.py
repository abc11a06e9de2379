"""What may be done now and what must wait: glue, pin holes, slot, the saddle's fit, the finish.

Glued, the bridge still lets the slot be cut where it belongs, as long as it is not far off. A slot that is cut still
lets the saddle's ridge be filed, as far as its thickness goes. Holes through the top stay where they are. All wait for
readings that are accused, for a check of those that decide the saddle, and for a stop that concerns them; pin holes and
slot wait for the bridge that they go into.
"""

from collections.abc import Iterable, Sequence

import msgspec

from geometry.bridge.wood_left import WOOD
from geometry.go_or_wait.steps import Change, Step, Work
from geometry.job import Job, Saddle
from geometry.job.measured.proof import STAGES, Stage
from geometry.job.sides import SIDES
from geometry.layout import Layout, StringPlan
from geometry.proof import filing
from geometry.proof.proof_at_stage import Proved, latest, prove
from geometry.spacing import CENTS
from geometry.units import mm

GLUE_WITHIN = 2.0
"""The widest ± with which a bridge is glued whose slot is cut later, mm (common practice, no source: a slot can move so
far within a bridge)."""
BESIDE = 1.5
"""The widest ± across the neck with which a bridge is glued and pin holes are drilled, mm (common practice, no
source).
"""
UNHEARD = 2.0
"""Cents that a saddle may be off without filing: players fretting the same note differ by as much (R. M. Mottola, see
geometry/strings/trial_saddles)."""
HEARD = 5.0
"""Cents that it may be off once a trial saddle was heard, for then nothing tells it finer: 3.9 that one ear leaves 19
times in 20 (1.96 of the standard deviations of 2 that Mottola found), and 3, which are 1.1 mm on 650 mm, of where trial
saddle and sheet lie (derived: √(3.9² + 3²))."""

TOLD_CENTS = 0.05
"""Cents are told to tenths."""

ALL: tuple[Work, ...] = ("glue", "pins", "slot", "fit", "clear", "stand", "crown", "screws", "through")
NOT_BY_SHEET: tuple[Work, ...] = ("stand", "fit", "crown")
"""What is slid or filed by the strings; all else is marked from a sheet that is laid to the board's end."""
CONCERNS: dict[str, tuple[Work, ...]] = {
    "metal": ("glue", "pins", "slot", "clear"),
    "plate": ("glue", "pins", "clear"),
    "brace.pin": ("glue", "pins", "clear"),
    "brace": ("pins", "slot"),
    "bridge": ("glue", "pins", "clear", "stand"),
    "floating": ("stand",),
    "tail": ("stand",),
    "old": ("glue", "clear"),
    "scar": ("glue", "clear"),
    "slot": ("slot", "fit", "crown"),
    "post": (),
    "posts": (),
    "headstock": (),
    "markers": (),
    **dict.fromkeys(("nut.edge", "nut.wall", "nut.through", "nut.low"), ()),
    "board.radius": ("fit",),
}
"""What a stop keeps from being done, by its code or the first part of that; one that is not listed concerns
everything. What pin holes meet holds the glue back too: they follow the bridge.
"""


def verdicts(job: Job, layout: Layout) -> tuple[Step, ...]:
    """One verdict for each operation, in the order of the work; nothing where saddle or bridge have no place."""
    if layout.floating is not None:
        from geometry.go_or_wait.of_floating import floating_verdicts  # few jobs have one

        return floating_verdicts(job, layout)
    if layout.separate is not None:
        from geometry.go_or_wait import for_separate  # few jobs need it: the others need not wait for it

        return for_separate.verdicts(job, layout)
    if layout.saddle is None or layout.bridge is None or job.bridge is None:
        return ()
    slot = None if job.bridge.slot_front is not None else held_back(job, layout, _slot(job, layout, "slot"))
    glue = proved(job, held_back(job, layout, _glue(job, layout)))
    steps = [msgspec.structs.replace(glue, what="clear"), glue]
    if glue.go:
        steps[0] = held_back(job, layout, steps[0])
    if layout.bridge.pins:
        steps.append(_after(glue, held_back(job, layout, _aside(layout, _pins(layout, slot)))))
    if slot is not None:
        slot = _after(glue, slot)
        steps.append(slot)
    steps.append(held_back(job, layout, fit(job, layout, slot or glue)))
    return tuple(steps)


def _after(glue: Step, step: Step) -> Step:
    """What could go by itself waits for the bridge that it goes into."""
    return msgspec.structs.replace(step, go=False, why="after") if step.go and not glue.go else step


def proved(job: Job, glue: Step) -> Step:
    """A bridge that is clamped where it does not belong, by the distances read, is not glued there, nor is a base that
    is marked so screwed down; one that is not good says so, however few are read.
    """
    if not glue.go:
        return glue
    typed: list[Stage] = [stage for stage in STAGES if latest(job, stage).readings]
    by_stage = {stage: prove(job, stage, wished=()) for stage in typed}
    unread = all(one is not None and one.copied for one in by_stage.values())
    glue = msgspec.structs.replace(glue, unread=unread)
    if typed != ["clamped"]:
        return glue
    found = by_stage["clamped"]
    if found is None or not _not_good(found):
        return glue
    asked = prove(job, "clamped")  # each has a wider band where it is one of all that are asked
    if asked is None or not _not_good(asked):
        return glue
    return msgspec.structs.replace(glue, go=False, why="proof", changed=asked.changed > 0)


def _not_good(found: Proved) -> bool:
    return found.wrong or (found.cause is None and any(row.good == "not good" for row in found.rows))


def _aside(layout: Layout, step: Step) -> Step:
    """The step, kept back where a gross error across the neck would not show."""
    bridge = layout.bridge
    assert bridge is not None
    return step if bridge.across_checked else msgspec.structs.replace(step, go=False, why="aside")


def held_back(job: Job, layout: Layout, step: Step) -> Step:
    """The step with what keeps it back before its ± does: a stop, accused readings, readings that nothing checks."""
    saddle = layout.saddle
    assert saddle is not None
    slot_is_cut = job.bridge is not None and job.bridge.slot_front is not None
    stop = next(
        (f.text for f in layout.findings if f.grade == "stop" and step.what in concerned(f.code, slot_is_cut)), ""
    )
    if stop:
        return msgspec.structs.replace(step, go=False, why="stop", stop=stop)
    by_sheet = step.what not in NOT_BY_SHEET
    waits_for = dict.fromkeys((*saddle.waits_for, *(saddle.by_sheet.waits_for if by_sheet else ())))
    if waits_for:
        change = Change(what="again", again=tuple(waits_for))
        return msgspec.structs.replace(step, go=False, why="accused", change=change)
    if not (saddle.checked and (saddle.by_sheet.checked or not by_sheet)) and step.why != "after":
        return msgspec.structs.replace(step, go=False, why="unchecked")
    return step


def concerned(code: str, slot_is_cut: bool) -> tuple[Work, ...]:
    """The operations that a stop of this code keeps back. A bridge that comes with its slot is not glued with a slot
    that is amiss.
    """
    found = CONCERNS.get(code, CONCERNS.get(code.split(".")[0], ALL))
    return (*found, "glue", "clear") if slot_is_cut and "slot" in found else found


def _glue(job: Job, layout: Layout) -> Step:
    """A bridge whose slot is cut puts the saddle where it is glued: there the saddle's ± counts. Across the neck it is
    known as well as its pin holes are to be. Every ± is that with which the sheet puts it there.
    """
    bridge = layout.bridge
    assert bridge is not None
    assert job.bridge is not None
    pms = bridge.front_pm95
    across = max((pm for _, pm in bridge.corners_pm95), default=0.0)
    loose = judged("glue", pms, (GLUE_WITHIN, GLUE_WITHIN), None)
    if job.bridge.slot_front is not None:
        tight = _slot(job, layout, "glue")
        loose = loose if tight.go and not loose.go else tight
    if loose.go and across > BESIDE:
        return Step(what="glue", go=False, pm95=across, limit=BESIDE, why="wide", across=True)
    return _aside(layout, loose)


def _slot(job: Job, layout: Layout, what: Work) -> Step:
    """As wide as the ridge under every string takes up by filing, or as nobody hears."""
    saddle, given = layout.saddle, job.saddle or Saddle()
    assert saddle is not None
    thickness, fileable = mm(given.thickness), filing.takes_up(given)
    strings = asking(layout)
    least = min(strings, key=lambda one: filing.room(thickness, one.peak).both, default=None)
    if least is not None:
        fileable = filing.room(thickness, least.peak).both
    pms, cents95 = saddle.by_sheet.pm95, saddle.tune95
    left, right = (
        max(fileable, unheard(strings) * pm / cents if cents else 0.0) for pm, cents in zip(pms, cents95, strict=True)
    )
    step = judged(what, pms, (left, right), cents95)
    one = least is not None and fileable < filing.takes_up(given)
    names = (least.name,) if one and least is not None else ()
    return msgspec.structs.replace(step, strings=names, takes_up=fileable, spread=_spread(strings, given))


def unheard(strings: Iterable[StringPlan]) -> float:
    """How many cents the strings may be off: more once each was heard."""
    return HEARD if all(string.compensation_from == "by ear" for string in strings) else UNHEARD


def asking(layout: Layout) -> Sequence[StringPlan]:
    """The strings whose ridges matter: all but drones, unless there are none but drones."""
    return [string for string in layout.strings if string.fretted] or layout.strings


def _spread(strings: Iterable[StringPlan], saddle: Saddle) -> float | None:
    """How far ridges stand from the saddle line at most, mm; None where the saddle's face holds one, which would stand
    farther off in a thicker saddle.
    """
    peaks = [one.peak for one in strings]
    if any(peak <= 0 or peak >= 1 for peak in peaks) and 0 < saddle.peak_at < 1:
        return None
    return max((abs(peak - saddle.peak_at) * mm(saddle.thickness) for peak in peaks), default=0.0)


def judged(
    what: Work, pms: tuple[float, float], limits: tuple[float, float], cents: tuple[float, float] | None
) -> Step:
    """By the side, left or right, that is farther beyond what is allowed, or nearer to it."""
    worse = 0 if pms[0] / limits[0] >= pms[1] / limits[1] else 1
    go = pms[worse] <= limits[worse]
    alike = abs(pms[0] - pms[1]) < 0.05 * max(pms)
    return Step(
        what=what,
        go=go,
        pm95=pms[worse],
        limit=limits[worse],
        why="" if go else "wide",
        side=None if alike else SIDES[worse],
        cents=cents[worse] if cents else None,
    )


def _pins(layout: Layout, slot: Step | None) -> Step:
    """Along the neck as the bridge, across it as little as a string may lie beside its hole; and no slot that may still
    move comes too near to them.
    """
    bridge = layout.bridge
    assert bridge is not None
    along, across = (max(pms) for pms in zip(*bridge.pins_pm95, strict=True)) if bridge.pins_pm95 else (0.0, 0.0)
    step = Step(what="pins", go=True, pm95=along, limit=GLUE_WITHIN)
    if across > BESIDE:
        return msgspec.structs.replace(step, go=False, why="wide", pm95=across, limit=BESIDE, across=True)
    if along > GLUE_WITHIN:
        return msgspec.structs.replace(step, go=False, why="wide")
    between = bridge.wood.get("between")
    if slot is not None and not slot.go and between is not None and between - slot.pm95 < WOOD["between"][0]:
        return msgspec.structs.replace(
            step, go=False, why="wood", wood=between, pm95=slot.pm95, limit=between - WOOD["between"][0]
        )
    return step


def fit(job: Job, layout: Layout, before: Step) -> Step:
    """The ridge is filed under each string once its place in the slot is known as well as filing takes up. Told is the
    string that comes nearest to what filing takes up, or of those that go beyond it the widest ±.
    """
    saddle = job.saddle or Saddle()
    thickness = mm(saddle.thickness)
    worst, over, unknown = None, 0.0, dict[str, StringPlan]()
    for string in asking(layout):
        limit = max(filing.room(thickness, string.peak).both, unheard((string,)) * string.length / CENTS)
        share = string.compensation_pm95 / limit
        if share > 1:
            unknown[string.name] = string
        if share >= over:
            over, worst = share, (string, limit)
    if worst is None:
        return Step(what="fit", go=before.go, pm95=before.pm95, limit=before.limit, why="" if before.go else "after")
    string, limit = worst
    told = unknown.values() or (string,)
    pm = max(one.compensation_pm95 for one in told)
    cents = _all_within(told, pm)
    step = Step(what="fit", go=not unknown, pm95=pm, limit=limit, why="wide" if unknown else "")
    step = msgspec.structs.replace(step, cents=cents, strings=tuple(unknown), spread=_spread(told, saddle))
    return step if before.go else msgspec.structs.replace(step, go=False, why="after")


def _all_within(strings: Iterable[StringPlan], pm95: float) -> float | None:
    """The cents of the string whose ± is told for several; None where a shorter one's narrower ± comes to more."""
    in_cents = [(one.compensation_pm95, one.compensation_pm95 * CENTS / one.length) for one in strings]
    widest = max(cents for pm, cents in in_cents if pm == pm95)
    return None if max(cents for _, cents in in_cents) > widest + TOLD_CENTS else widest
