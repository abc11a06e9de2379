"""The proof in words: what the distances say together of where the bridge is, and string by string."""

import math
from typing import assert_never

import msgspec

from geometry import words
from geometry.findings import Finding, Grade
from geometry.job import Job
from geometry.job.measured.proof import STAGES, Stage
from geometry.job.sides import SIDES
from geometry.placed.margins import LEAST
from geometry.proof.distances_told import distance_called, what_is_placed
from geometry.proof.proof_at_stage import ENOUGH, Proved, Row
from geometry.proof.where_it_stands import Pose, StringPlace
from geometry.saddle.thickness import OUTSIDE
from geometry.strings.trial_saddles import EAR_CENTS
from geometry.units import said as length
from geometry.units import said_angle, said_pm, said_under, shows

TAPE = 4.0
"""mm. A taped sheet hardly slips farther along the neck; one that is farther off was cut or laid wrong (common
practice, no source).
"""
TOLD = 0.0005
"""A sheet's error along or across is told from this part of the whole on, which rounds to 0.1 %."""
TOLD_CENTS = 0.05
"""What stays after filing is told from so many cents on, which round to a tenth."""
GLUED = "File the saddle string by string; where cents stay, fill the slot and cut it again."
"""What to do about a bridge that a wrong sheet has set, once it is glued."""
SAME_RULE = " with the rule that measured the instrument"
"""What a rule or tape that errs otherwise makes of the distances passes for a sheet of another size."""
COPIED = (
    "Each distance is typed just as it is shown here; a rule reads so less than once in a thousand times. Read them on "
    "the wood, not on the sheet, and type what the rule reads."
)
"""What is said of distances that were not read, though they are good."""
SCREWED = "Set each saddle by ear; where its travel ends first, plug the screw holes and drill them again."
"""The same of a base, once it is screwed down."""


def stage_called(job: Job, stage: Stage) -> str:
    """A stage in words."""
    return "before the holes are drilled" if job.separate is not None and stage == "clamped" else STAGES[stage]


def said(job: Job, proved: Proved) -> str:
    """What the distances say as a whole, in a sentence or two."""
    if proved.changed:
        return (
            "The layout was changed since these were read: now they are to read up to "
            f"{length(proved.changed, job.unit)} more or less. Lay its new sheet, and read all of them again."
        )
    if proved.cause is None:
        read = sum(row.good in ("good", "not good") for row in proved.rows)
        more = words.how_many(ENOUGH - read, "more distance" if read else "distance")
        return f"Read {more}, and they say where the {what_is_placed(job)} is."
    if proved.copied and not proved.wrong:
        return COPIED
    proved = _worth_telling(proved)
    several = proved.also or (proved.cause == "reading" and sum(bool(row.blamed) for row in proved.rows) > 1)
    return _either(job, proved) if several else _whole(job, proved)


def _worth_telling(proved: Proved) -> Proved:
    """The same without a sheet of another size as one of several causes, where that is less than its own ±."""
    if any(abs(size) > pm for size, pm in zip(proved.size, proved.size_pm, strict=True)):
        return proved
    left = [cause for cause in (proved.cause, *proved.also) if cause != "scale"]
    return msgspec.structs.replace(proved, cause=left[0], also=tuple(left[1:])) if left else proved


def _not_good(proved: Proved) -> str:
    """What is judged not to be good: a distance by itself, or only all of them together."""
    read = {row.good for row in proved.rows} & {"good", "not good"}
    return "Each distance is good by itself, but not all together" if read == {"good"} else "Not good"


def _either(job: Job, proved: Proved) -> str:
    """Several faults that may be to blame, what tells which, and what holds whichever it is."""
    blamed = [row for row in proved.rows if row.blamed]
    faults: list[str] = []
    tell: list[str] = []
    for cause in (proved.cause, *proved.also):
        match cause:
            case "slipped":
                faults.append(_slip(proved))
            case "scale":
                faults.append(f"the sheet was printed {_size(proved)}")
                tell.append("lay a rule on the sheet’s scales")
            case "swapped":
                faults.append("the sheet was turned over")
                tell.append("see which way up the sheet lay")
            case "reading":
                faults.extend(_misread(job, row) for row in blamed)
                tell.append(f"read {'it' if len(blamed) == 1 else 'these'} again")
            case "good" | "unclear" | None:
                pass
            case _:
                assert_never(cause)
    where = (
        f" Whichever it is, the {what_is_placed(job)} stands {_pose(job, proved, proved.pose)}."
        if proved.pose is not None
        else ""
    )
    wait = " File nothing before." if proved.stage == "built" and not proved.strings and job.separate is None else ""
    which = words.first_large(" and ".join(tell))
    either = f"{', '.join(faults[:-1])} or {faults[-1]}"
    return f"{_not_good(proved)}, and it may be that {either}. {which} to tell which.{where}{wait}"


def _slip(proved: Proved) -> str:
    """What moved the sheet."""
    far = proved.pose is not None and abs(proved.pose.along) > TAPE
    return "the sheet was cut or laid along another line" if far else "the tape slipped"


def _size(proved: Proved) -> str:
    """How much too small or too large a sheet was printed, or each way by itself where that is more than its ±."""
    along, across = proved.size
    if along == across:
        return _percent(along, ("small", "large"))
    ways = ((along, ("short", "long"), "along the neck"), (across, ("narrow", "wide"), "across the neck"))
    both = list(zip(ways, proved.size_pm, strict=True))
    told = [way for way, pm in both if abs(way[0]) > pm] or ways
    return " and ".join(
        f"{_percent(part, less_or_more)} {way}" for part, less_or_more, way in told if abs(part) >= TOLD
    )


def _percent(part: float, less_more: tuple[str, str]) -> str:
    return f"{abs(100 * part):.1f} % too {less_more[part > 0]}"


def _misread(job: Job, row: Row) -> str:
    """A distance that may be misread, and how."""
    more = "more" if row.off > 0 else "less"
    return f"{distance_called(row.reading, job.hand)} was misread ({length(abs(row.off), job.unit)} {more})"


def _whole(job: Job, proved: Proved) -> str:
    built = proved.stage == "built"
    again = "Allow for it when the saddle is filed" if built else "Lay the sheet again"
    if job.separate is not None and built:
        again = "Allow for it when the saddles are set"
    where = f"The {what_is_placed(job)} stands {_pose(job, proved, proved.pose)}." if proved.pose is not None else ""
    bad = f"{_not_good(proved)}: "
    late = GLUED if job.separate is None else SCREWED
    match proved.cause:
        case "good":
            return _good(job, proved, where)
        case "slipped":
            return f"{bad}likeliest {_slip(proved)}. {where} {again}."
        case "scale":
            todo = late if built else _printed_again(proved)
            return f"{bad}likeliest the sheet was printed {_size(proved)}. {todo}"
        case "swapped":
            todo = late if built else "Lay it again with its words up."
            return f"{bad}likeliest the sheet was turned over, bass for treble. {todo}"
        case "reading":
            row = next(row for row in proved.rows if row.blamed)
            more = "more" if row.off > 0 else "less"
            return (
                f"{bad}likeliest {distance_called(row.reading, job.hand)} was misread; it reads "
                f"{length(abs(row.off), job.unit)} {more} than it should, and the others agree. Read it again."
            )
        case "unclear" | None:
            return (
                f"{bad}more than one thing is wrong. Read all distances again{SAME_RULE}; lay a rule on the "
                "sheet’s scales."
            )
        case _:
            assert_never(proved.cause)


def _printed_again(proved: Proved) -> str:
    """What to do about a sheet of another size: one that errs alike both ways was fitted to the paper."""
    along, across = proved.size
    ways, how = ("", "at 100 %") if along == across else (", both ways", "with that printer’s correction")
    return f"Lay a rule on its scales{ways}. If they are off, print it again {how}; if not, read again{SAME_RULE}."


def _good(job: Job, proved: Proved, where: str) -> str:
    """Nothing is to blame; how much of its margin the string nearest an edge of the board keeps."""
    left, good = proved.margin, f"Good: the {what_is_placed(job)} is where it belongs. {where}"
    if left is None:
        return good
    hand = job.bass_or_treble(left.side)
    keeps = f"At {left.place if left.place == 'fret 12' else f'the {left.place}'} the outer {hand} string"
    much, usual = said_pm(left.pm95, job.unit, abs(left.mm)), length(LEAST, job.unit)
    if left.short:
        only = said_under(left.mm, LEAST, job.unit, left.pm95)
        runs = f"keeps only {only} to the board’s edge" if left.mm > 0 else f"would lie {much} beyond the board’s edge"
        mend = "Notch the saddle nearer the middle for it"
        if proved.stage == "clamped":
            other = "bass" if hand == "treble" else "treble"
            mend = f"Move the {what_is_placed(job)} {length(left.nearer, job.unit)} to the {other} side, and read again"
        elif job.separate is not None:
            mend = "Set its saddle nearer the middle"
        return f"Not good across. {where} {keeps} {runs}; {usual} is usual. {mend}."
    if left.may_be_short:
        thread = "stretch a thread along it and look"
        return (
            f"Good along the neck; across, these distances don’t tell enough. {where} {keeps} keeps {much} to the "
            f"board’s edge, and {usual} is usual: {thread}{' before the glue' if _to_glue(job, proved) else ''}."
        )
    return f"{good} {keeps} keeps {much} to the board’s edge."


def _to_glue(job: Job, proved: Proved) -> bool:
    return proved.stage == "clamped" and job.separate is None


def _pose(job: Job, proved: Proved, pose: Pose) -> str:
    far, aside = "along the neck", "across it"
    if shows(pose.along, job.unit):
        far = f"too {'far from' if pose.along > 0 else 'near to'} the nut"
    if shows(pose.across, job.unit):
        aside = f"to the {job.bass_or_treble('left' if pose.across > 0 else 'right')} side"
    return (
        f"{said_pm(pose.along_pm95, job.unit, abs(pose.along))} {far}, "
        f"{said_pm(pose.across_pm95, job.unit, abs(pose.across))} {aside}, and turned by "
        f"{said_angle(abs(pose.turn), pose.turn_pm95)}{_ends_apart(job, proved.long, pose)}"
    )


def _ends_apart(job: Job, long: float, pose: Pose) -> str:
    """Which end the turn takes farther from the nut than the other, and by how much."""
    apart, pm95 = (long * math.sin(math.radians(abs(turn))) for turn in (pose.turn, pose.turn_pm95))
    if not shows(apart, job.unit):
        return f", which is ±{said_pm(pm95, job.unit)} from end to end"
    ends = [job.bass_or_treble(side) for side in SIDES]
    near, far = ends if pose.turn > 0 else reversed(ends)
    return f", which takes its {far} end {said_pm(pm95, job.unit, apart)} farther from the nut than its {near} end"


def string_words(job: Job, string: StringPlace, stage: Stage = "built") -> str:
    """One string in words: what it is off by, and what filing does about it, or would if the bridge were glued so. What
    is less than its own ± or than an ear can be sure of asks for none.
    """
    sign = "flat" if string.cents > 0 else "sharp"
    off = f"{abs(string.cents):.1f} ±{string.cents95:.1f} cents {sign}"
    least = max(string.cents95, EAR_CENTS)
    glued = "glued so, " if stage == "clamped" else ""
    if abs(string.file) < OUTSIDE and max(abs(string.cents), abs(string.left_cents)) > least:
        return f"{off}; {glued}its ridge cannot go farther"
    if abs(string.file) < OUTSIDE or abs(string.cents) <= least:
        return f"{off}; {glued}nothing to file" if glued else f"{off}; leave the ridge"
    way = "back" if string.file > 0 else "forward"
    stays = f", {abs(string.left_cents):.1f} cents stay" if abs(string.left_cents) >= TOLD_CENTS else ""
    return f"{off}; {glued}file the ridge {length(abs(string.file), job.unit)} {way}{stays}"


def dated(job: Job, proved: Proved | None) -> str:
    """What the distances of a stage say, with the day they were read, for a record; empty while too few are read."""
    if proved is None or proved.cause is None:
        return ""
    when = f", {proved.when}" if proved.when else ""
    return f"Read {stage_called(job, proved.stage)}{when}. {said(job, proved)}"


def as_finding(job: Job, proved: Proved) -> Finding:
    """What the distances say as a whole, as a finding."""
    left, unread = proved.margin, proved.copied and not proved.wrong
    unsure = not proved.wrong and left is not None and left.may_be_short
    grade: Grade = "look" if proved.wrong or unsure or unread else "good"
    sort = (
        "copied"
        if unread
        else "unsure"
        if unsure
        else "margin"
        if proved.wrong and proved.cause == "good"
        else proved.cause or "begun"
    )
    stage = words.first_large(stage_called(job, proved.stage))
    return Finding(grade=grade, code=f"proof.{sort}", text=f"{stage}. {said(job, proved)}", where="field:proof")
