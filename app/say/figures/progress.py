"""How far each step of the work has come: empty, under way, done, resting on estimates, or to be looked at again."""

from typing import Literal

from app.say.figures.unchecked import well_checked
from app.say.figures.verdicts_now import verdicts_now
from geometry.findings import ASKED, Finding, is_unsure
from geometry.job import Hardware, Job, Nut
from geometry.layout import Layout

Progress = Literal["empty", "under way", "done", "estimated or unchecked", "look again", "stop"]
Step = Literal["Measure", "Old work", "Strings", "Bridge", "Headstock", "Sheets"]
_GRAVE: tuple[Progress, ...] = ("done", "estimated or unchecked", "look again", "stop")
"""From what is well to what forbids the work."""
WRONG: tuple[Progress, ...] = ("look again", "stop")
"""What a step is signed with however little of it was given; what is still to be given is no fault."""
OF_THE_BOARD = ("board.turns", "edge.bends", "edge.hollow")
"""What the readings say of the board that asks for a choice, or for another look at an edge."""


UNLOOKED = ("board.unlooked", "margin.unchecked")
"""What is still to be looked at, or read once more, while all that was read agrees."""
OF_NUT_AND_FACE = ("board.radius", "board.arch", *(f"nut.{name}" for name in Nut.__struct_fields__))
"""The fields of the nut and of the board's face, which stand on the Strings card."""
OLD_WORK = ("old.", "scar", "metal.", "brace.", "plate.")
"""What findings on old work are called."""
HARDWARE = ("headstock.", "post.", "posts.", "markers.")
"""What findings on headstock, tuners and markers are called."""


OTHER_KINDS = ("floating", "separate", "tail")
"""What findings on bridges that are not glued are called, wherever on the instrument they point."""


def steps(job: Job, layout: Layout | None, tools: tuple[Finding, ...] = ()) -> dict[Step, Progress]:
    """The sign behind each step. `tools`: what there is to say of cutter and kerf."""
    return {
        "Measure": _measure(job, layout),
        "Old work": _old_work(job, layout),
        "Strings": _strings(job, layout),
        "Bridge": _bridge(job, layout),
        "Headstock": _headstock(job, layout),
        "Sheets": _sheets(job, layout, tools),
    }


def _measure(job: Job, layout: Layout | None) -> Progress:
    if not any(r.taken for r in job.readings):
        return "empty"
    if layout is not None and (layout.survey.suspects or layout.survey.groups or layout.survey.verdict == "coarse"):
        return "look again"
    if layout is not None and any(f.code in OF_THE_BOARD and f.grade != "good" for f in layout.findings):
        return "look again"
    waiting = any(not r.taken and not r.struck for r in job.readings)
    settled = layout is not None and layout.frame == "neck" and well_checked(job, layout)
    if not settled or waiting:
        return "under way"
    unlooked = layout is not None and any(f.code in UNLOOKED for f in layout.findings)
    return "estimated or unchecked" if unlooked else "done"


def measure_waits(job: Job, layout: Layout | None) -> str:
    """What the Measure step still waits for while it is under way, and on which card that is; empty while it is not."""
    if layout is None or _measure(job, layout) != "under way":
        return ""
    left = sum(not r.taken and not r.struck for r in job.readings)
    if left:
        return f"{left} {'reading' if left == 1 else 'readings'} still to be taken"
    if layout.frame != "neck":
        return "the readings do not place the neck yet"
    if layout.saddle is None:
        return (
            "all are taken, but some are checked by no other; whether that matters is known once the cards Strings and "
            "Bridge say where the saddle lies"
        )
    return "all are taken, but a slip in one that decides where the saddle lies would not show: read that once more"


def _old_work(job: Job, layout: Layout | None) -> Progress:
    """Done when all that is known of it has a place; what shows or stops is to be looked at again."""
    found = [one for one in (layout.findings if layout else ()) if one.code.startswith(OLD_WORK)]
    worst = {one.grade for one in found if not is_unsure(one)}
    if worst & {"stop", "look"}:
        return "stop" if "stop" in worst else "look again"
    if job.old is None:
        return "empty"
    placed = layout is not None and layout.frame == "neck" and all(name in layout.points for name in job.old.points)
    return ("estimated or unchecked" if any(map(is_unsure, found)) else "done") if placed else "under way"


def _strings(job: Job, layout: Layout | None) -> Progress:
    found = _worst(layout, "strings", "string", "frets.count", *OF_NUT_AND_FACE)
    if found is not None and found in WRONG:
        return found
    if job.strings is None or not job.strings.list:
        return "under way" if _asks(layout, "strings") else "empty"
    return "under way" if layout is None or not layout.strings else found or "done"


def _bridge(job: Job, layout: Layout | None) -> Progress:
    found = _worst(layout, "bridge", "saddle", "slot", "pin", "floating", "separate", "tail")
    if found is not None and found in WRONG:
        return found
    if job.saddle is None and job.bridge is None and job.held == "glue":
        return "under way" if _asks(layout, "bridge") else "empty"
    if layout is None or (layout.bridge is None and layout.separate is None):
        return "under way"
    return _graver(found or "done", _waits(job, layout))


def _waits(job: Job, layout: Layout | None) -> Progress:
    """Done while everything may be done to the wood that is asked for; else what it waits for."""
    waiting = [] if layout is None or layout.saddle is None else [s for s in verdicts_now(job, layout) if not s.go]
    if any(not step.unsure for step in waiting):
        return "look again"
    return "estimated or unchecked" if waiting else "done"


def _graver(one: Progress, other: Progress) -> Progress:
    return max(one, other, key=_GRAVE.index)


def _headstock(job: Job, layout: Layout | None) -> Progress:
    """Done when all that is wanted has a place, and the headstock an outline and all its holes; what stops the drill,
    or must be plugged first, is to be looked at.
    """
    worst = {finding.grade for finding in (layout.findings if layout else ()) if finding.code.startswith(HARDWARE)}
    if worst & {"stop", "look"}:
        return "stop" if "stop" in worst else "look again"
    if job.hardware == Hardware():
        return "empty"
    placed = layout is not None and all(name in layout.points for name in job.hardware.points)
    return "done" if placed and not _is_begun(job) else "under way"


def _is_begun(job: Job) -> bool:
    """Whether a headstock was taken up of which more is to come: its outline, or the other old post holes of its rows,
    for a string from the nut has one.
    """
    head = job.hardware.headstock
    if head is None:
        return False
    wanted = sum(string.starts_at is None for string in job.strings.list) if job.strings else 0
    return not head.outline or 0 < len(head.posts) < wanted


def _sheets(job: Job, layout: Layout | None, tools: tuple[Finding, ...]) -> Progress:
    if (job.bridge is None and job.held == "glue") or layout is None or layout.saddle is None:
        return "empty"
    worst = {finding.grade for finding in (*tools, *for_sheets(layout))}
    if worst & {"stop", "look"}:
        return "stop" if "stop" in worst else "look again"
    return _waits(job, layout)


def for_sheets(layout: Layout | None) -> list[Finding]:
    """What the sheets' step is signed with besides what waits: what stops the work, and readings to look at again."""
    doubted = ("survey.misread", "survey.one_of_these", "survey.swapped")
    return [f for f in (layout.findings if layout else ()) if f.grade == "stop" or f.code in doubted]


def _asks(layout: Layout | None, about: str) -> bool:
    """Whether it is asked for what was not given yet."""
    return layout is not None and any(f.code in ASKED and f.code.startswith(about) for f in layout.findings)


def _worst(layout: Layout | None, *about: str) -> Progress | None:
    """The worst that the findings say of these things."""
    found: list[Finding] = []
    for finding in layout.findings if layout else ():
        where = finding.where.removeprefix("field:").removeprefix("step:").replace(":", ".")
        of_kind = finding.code.partition(".")[0]
        if where in about or where.partition(".")[0] in about or (of_kind in OTHER_KINDS and of_kind in about):
            found.append(finding)
    if any(f.grade == "stop" for f in found):
        return "stop"
    if any(f.grade == "look" and f.code not in ASKED and not is_unsure(f) for f in found):
        return "look again"
    return "estimated or unchecked" if any(is_unsure(f) for f in found) else None
