"""The work, in order, however the bridge is held; that on a glued one stands here."""

from collections.abc import Collection, Mapping

from export import cautions, plugs_and_drills
from export.drills import either, nearest_names
from export.templates import registration
from export.templates.glued.bridge import BRIDGE, CLEARING
from export.templates.glued.dowels import dowels
from export.templates.numbered_holes import pin_drill
from export.templates.written import first_step, old_work_told, solid_tables
from export.templates.written.unglued import separate_steps
from export.templates.written.unglued import standing_steps as standing
from geometry import words
from geometry.go_or_wait.steps import Work
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import Unit, show

IN_STEP: Mapping[cautions.Step | cautions.BaseStep, Work] = {
    "clear": "clear",
    "dowels": "glue",  # which hold the bridge where it is glued
    "glue": "glue",
    "pin holes": "pins",
    "rout": "slot",
    "crown": "crown",
    "base drill": "screws",
    "base through": "through",
    "base back": "through",
}
"""What is done to the wood in a step, as Go or wait calls it."""


def steps(
    job: Job, layout: Layout, printed: Collection[str], file: str = "", waits: Collection[Work] = ()
) -> tuple[str, ...]:
    """The work, in order, each step that can hurt with its cautions; `printed`: the templates at hand, by name; `file`:
    the job's fingerprint; `waits`: what may not be done yet.
    """
    work = tuple(
        (step, _not_yet(says) if _waits(step, waits) else says) for step, says in _work(job, layout, printed, waits)
    )
    first = first_step.said((step for step, _ in work), job.held, printed, file)
    return cautions.told((("scales", first), *work), job.held)


def _waits(step: cautions.Step | cautions.BaseStep, waits: Collection[Work]) -> bool:
    """Whether what is done in a step may not be done yet; where a slot was cut before, it waits as the glue does."""
    return IN_STEP.get(step) in waits or (step == "rout" and "glue" in waits)


def _not_yet(says: str) -> str:
    return f"Not yet: {words.first_small(says)}"


def _work(job: Job, layout: Layout, printed: Collection[str], waits: Collection[Work]) -> cautions.Work:
    """What is done, in order, once the sheets are known to be good."""
    if job.floating is not None:
        return standing.work(job, layout)
    if job.separate is not None:
        return separate_steps.work(job, layout)
    holes = ", pin holes" if layout.bridge and layout.bridge.pins else ""
    olds = old_work_told.plugs_said(job, layout)
    plugs = f", plug {olds}" if olds else ""
    full = "full-length " if "full-length" in printed and "placement" not in printed else ""
    edges = registration.edges_said(job, layout, against="nut" if full else "board end")
    return (
        ("clean", f"Clean the footprint{plugs}.")
        if job.is_bridge_off
        else ("take off", f"Take the old bridge off, clean the footprint{plugs}."),
        ("tape", f"Tape the {full}placement template as it says; check both edge distances{edges}."),
        ("mark", f"Mark through the paper: outline, slot ends{holes}. Take the template off and measure again."),
        ("clear", f"Score and clear the finish within the line on “{CLEARING}”, never into the wood."),
        *_tie_holes(job, layout),
        ("dowels", f"Fit the bridge’s underside to the top; drill for the dowels by the template “{BRIDGE}”.")
        if dowels(layout, job.unit)
        else ("fit", "Fit the bridge’s underside to the top."),
        ("dry clamp", "Dry clamp. Fill in the check distances above."),
        ("glue", "Glue, clamp, check once more while it can still be moved."),
        *_drilled(job, layout),
        ("rout", _rout(layout, fit_later="fit" in waits and not _waits("rout", waits))),
        *solid_tables.steps(layout, fit_later="fit" in waits),
        *standing.strap_pin(job, layout),
        *(("headstock", says) for says in plugs_and_drills.steps(job, layout)),
        ("string up", "String up; listen at fret 12."),
    )


def _rout(layout: Layout, *, fit_later: bool) -> str:
    """Slot and saddle, by what the saddle is made of; whether the saddle waits though the slot does not."""
    then = ". Not yet: fit" if fit_later else "; fit"
    saddle = layout.saddle
    count = len(saddle.slots) if saddle is not None else 1
    if count > 1:
        return f"Rout the {count} slots after the glue has set, each on its own slant{then} each piece of the saddle."
    file = " and file its steps" if saddle is not None and saddle.steps and layout.saddle_blank is None else ""
    return f"Rout the slot after the glue has set if it was not cut{then} the saddle{file}."


def _tie_holes(job: Job, layout: Layout) -> tuple[tuple[cautions.Step, str], ...]:
    """The holes through a tie block, while the bridge lies free."""
    tie = layout.bridge.tie if layout.bridge is not None else None
    if tie is None:
        return ()
    size = tie.holes[0].diameter
    drill = either(nearest_names(size), job.unit)
    says = (
        f"Drill the {len(tie.holes)} tie holes through the block by the tie-block template, with {drill}, level and "
        f"along each string, {_length(tie.holes[0].up, job.unit)} over the bridge’s bottom."
    )
    if any(finding.code == "tie.ramp" for finding in layout.findings):
        says += " Ramp the wood behind the slot down to them."
    return (("tie holes", says),)


def _drilled(job: Job, layout: Layout) -> tuple[tuple[cautions.Step, str], ...]:
    """The pin holes: never at their full size, for pins are tapered."""
    pins = layout.bridge.pins if layout.bridge else ()
    sizes = sorted({round(pin.diameter, 2) for pin in pins})
    if not sizes:
        return ()
    drills = " and ".join(f"{_length(size, job.unit)}: {either(pin_drill(job, size), job.unit)}" for size in sizes)
    says = f"Drill the pin holes undersize, never to their full size (for {drills}), and ream each until its pin seats."
    return (("pin holes", says),)


def _length(value: float, unit: Unit) -> str:
    return f"{show(value, unit)} {unit}"
