"""Bounds of the board: how many frets, how it widens, where and how square it ends."""

import math
from collections.abc import Iterator

from geometry import words
from geometry.findings import Finding
from geometry.job import Frets, Job, Reading
from geometry.layout import FretPlan, Neck
from geometry.units import said

FEWEST, MOST = 12, 27
"""Few instruments have fewer frets, or more (common practice, no source)."""
NARROWS, WIDENS = 0.5, 25.0
"""mm. No board is narrower at its end than at the nut by more than the first, and few are wider by more than the
second (common practice, no source)."""
ASKEW = 5.0
"""Degrees. Few boards are cut farther from square at their end, but where frets are slanted (common practice, no
source)."""
PAST_END = 5.0
"""mm. A fret that was read lies no farther past the board's end (common practice, no source)."""


def board_findings(job: Job, neck: Neck) -> tuple[Finding, ...]:
    """A board that narrows, or widens as none does, and an end that is cut far from square."""
    return (*_widths(job, neck), *_askew(job, neck))


def _askew(job: Job, neck: Neck) -> Iterator[Finding]:
    """Readings that share a slip at one corner agree with each other, and only cut the board's end askew."""
    if neck.end is None or job.frets.slanted:
        return
    (left_x, left_y), (right_x, right_y) = neck.end
    farther = left_x - right_x
    degrees = math.degrees(math.atan2(abs(farther), left_y - right_y))
    if not ASKEW < degrees < 90:
        return
    side = "left" if farther > 0 else "right"
    yield Finding(
        grade="look",
        code="board.askew",
        text=f"The board’s end is {degrees:.1f}° out of square, {said(abs(farther), job.unit)} farther at the "
        f"{job.bass_or_treble(side)} corner, and few are by more than {ASKEW:g}°: read each length to either corner "
        "again. The bridge is set from there.",
        values={"mm": farther, "degrees": degrees},
        where=f"point:end.{side}",
    )


def _widths(job: Job, neck: Neck) -> tuple[Finding, ...]:
    """A board that narrows, or widens as none does."""
    if neck.end is None:
        return ()
    nut, end = (abs(complex(*a) - complex(*b)) for a, b in (neck.nut, neck.end))
    if end < nut - NARROWS:
        how = "narrower at its end than at the nut"
    elif end > nut + WIDENS:
        how = f"wider by {said(end - nut, job.unit)} at its end than at the nut"
    else:
        return ()
    return (
        Finding(
            grade="look",
            code="board.widens",
            text=f"The board is {how} ({said(nut, job.unit)} and {said(end, job.unit)}), which is rare: look "
            "at both widths, their unit and their decimal point.",
            values={"nut": nut, "end": end},
            where="point:end.left",
        ),
    )


def fret_findings(job: Job, neck: Neck, frets: FretPlan) -> tuple[Finding, ...]:
    """A count of frets that is too small or too large, and frets that were read where there is no board."""
    read_past = tuple(_past_end(job, neck, frets))
    return (*_count(job), *_heard_beyond(job), *(read_past or _counted_past_end(job, neck, frets)))


def _highest(job: Job) -> Reading | None:
    """The first reading of the highest fret that was read."""
    read = (reading for reading in job.readings if reading.kind == "fret" and reading.taken)
    return max(read, key=lambda reading: reading.fret or 0, default=None)


def _count(job: Job) -> Iterator[Finding]:
    reading, count = _highest(job), job.frets.count
    highest = (reading.fret or 0) if reading else 0
    if reading and highest > count:
        text = (
            f"Fret {highest} was read, {words.reading_called(job, reading)}, and the job says {count} "
            "frets: look which is right."
        )
    elif count < FEWEST:
        text = f"The job says {count} frets, and few instruments have fewer than {FEWEST}: look at the number."
    elif count > MOST:
        text = f"The job says {count} frets, and few instruments have more than {MOST}: look at the number."
    else:
        return
    values = {"count": float(count), "read": float(highest)}
    yield Finding(grade="look", code="frets.count", text=text, values=values, where="field:frets.count")


def _heard_beyond(job: Job) -> Iterator[Finding]:
    """What was heard at a fret that the board does not have: it counts for nothing."""
    for heard in job.strings.heard if job.strings is not None else ():
        if heard.fret > job.frets.count:
            yield Finding(
                grade="look",
                code="frets.heard",
                text=f"{words.first_large(words.string(heard.string))} was heard at fret {heard.fret}, and the job "
                f"says {job.frets.count} frets, so that it is left out: look which is right.",
                values={"count": float(job.frets.count), "heard": float(heard.fret)},
                where="field:frets.count",
            )


def _past_end(job: Job, neck: Neck, frets: FretPlan) -> Iterator[Finding]:
    reading = _highest(job)
    line = next((line for line in frets.lines if reading and line.fret == reading.fret), None)
    if neck.end is None or line is None or reading is None:
        return
    past = (line.left[0] + line.right[0] - neck.end[0][0] - neck.end[1][0]) / 2
    if past > PAST_END:
        yield Finding(
            grade="stop",
            code="frets.past_end",
            text=f"Fret {reading.fret} would lie {said(past, job.unit)} past the board’s end, by "
            f"{words.reading_called(job, reading)}: look at the board’s length and at the frets, their "
            "unit and their decimal point.",
            values={"mm": past},
            where=f"reading:{reading.id}",
        )


def _counted_past_end(job: Job, neck: Neck, frets: FretPlan) -> Iterator[Finding]:
    """A count of which the last frets would lie past both corners of the board's end, however it is cut."""
    last, past = on_board(neck, frets)
    if past > PAST_END:
        where = f"the last would lie {said(past, job.unit)} past the board’s end; {last} lie on the board"
        if job.frets.count == Frets().count:  # as good as never typed
            code, text = "frets.count_usual", f"{job.frets.count} frets are assumed, and {where}: type how many it has."
        else:
            code = "frets.counted_past_end"
            text = f"The number of frets is {job.frets.count}, and {where}: look at it, or at the board’s length."
        values = {"count": float(job.frets.count), "on_board": float(last), "mm": past}
        yield Finding(grade="look", code=code, text=text, values=values, where="field:frets.count")


def on_board(neck: Neck, frets: FretPlan) -> tuple[int, float]:
    """How many frets lie on the board, and how far the last one counted lies past both corners of its end, mm."""
    if neck.end is None or not frets.lines:
        return len(frets.lines), 0.0
    past = {line.fret: min(line.left[0] - neck.end[0][0], line.right[0] - neck.end[1][0]) for line in frets.lines}
    return max((fret for fret, by in past.items() if by <= 0), default=0), past[max(past)]
