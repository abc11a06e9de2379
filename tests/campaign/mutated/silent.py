"""What goes wrong without a word: right jobs with one slip of a person in each, and what the program says of it.

A slip is **silent** where it moves the saddle at either outer string by more than `MOVED`, from the nut along the
centre line, and no finding asks to look or stops that did not before. A slip in a reading that nothing checks counts as
said where the right job says that it is not checked.

python -m tests.campaign.mutated --count 2000 --seed 7
"""

import argparse
import random
import sys
import traceback
from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import msgspec
from msgspec.structs import replace

from app.desk.document.working_out import WorkingOut
from app.file import job_file
from geometry.job import Job, NotAJob
from geometry.layout import Layout, accused
from geometry.strings.usual_sets import SETS
from geometry.work_out import surveyed_alike
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of
from tests.campaign.mutated.mutations import LEFT_OUT, MUTATIONS
from tests.campaign.mutated.of_numbers import Mutated

MOVED = 2.0
"""mm. A saddle that lies so far from where it should is wrong for anybody's ear (our own aim)."""
JOBS = 90
"""So many invented jobs are slipped in, beside the samples."""
SAMPLES = ("leaning-neck", "small-four", "tie-bridge", "turned-left")
"""The sample jobs that are right."""
NOT_CHECKED = {"saddle.unchecked", "survey.unchecked", "frets.unchecked", "heights.unchecked", "margin.unchecked"}
BY_COUNT = {
    4: ("ukulele nylon 0.60-0.90", "baritone ukulele nylon 0.65-0.90", "tenor steel 10-32"),
    6: ("steel 12-54",),
}
"""The sets that an invented instrument of so many strings may have; the first is taken with which nothing stops."""
EXAMPLES = 6


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """One slip and what came of it: `refused`, `crashed`, by how far the saddle `moved` (mm), whether it was `said`."""

    kind: str
    index: int
    what: str
    moved: float = 0.0
    said: bool = False
    refused: bool = False
    crashed: str = ""

    @property
    def silent(self) -> bool:
        """Whether the saddle went wrong without a word."""
        return self.moved > MOVED and not self.said


class Right(NamedTuple):
    """A right job, its layout, and what works out it and all that has the same survey."""

    job: Job
    layout: Layout
    working_out: WorkingOut


@lru_cache(maxsize=JOBS + len(SAMPLES))
def right_job(number: int, seed: int) -> Right:
    """A right job by the longest list, or a sample; every second invented one has strings that are known, where a set
    fits its scale. In a right job nothing stops: where it does, for the invented strings lean oddly, the next is taken.
    """
    working_out = WorkingOut()
    if number < len(SAMPLES):
        job = job_file.read(Path(__file__).parents[3] / "sample_jobs" / f"{SAMPLES[number]}.job.json")
        return Right(job, working_out.work_out(job), working_out)
    job = trial_of(CASES[0], seed, 3 * number + 2).job
    for able in (*(_strung(job) if number % 2 else ()), job):
        layout = working_out.work_out(able)
        if not any(found.grade == "stop" for found in layout.findings):
            return Right(able, layout, working_out)
    return right_job(number + 1, seed)


def _strung(job: Job) -> Iterator[Job]:
    """The job with each of the usual sets that it may have."""
    strings = job.strings
    if strings is not None:
        for name in BY_COUNT.get(len(strings.list), ()):
            known = replace(strings, list=SETS[name].strings, compensation="worked out")
            yield replace(job, strings=known)


def from_nut(layout: Layout) -> tuple[float, float]:
    """From the nut's front to the saddle line along the centre line at the outer strings [left, right], mm."""
    if layout.saddle is None:
        raise AssertionError("no saddle")
    right, left = sorted((layout.strings[0], layout.strings[-1]), key=lambda string: string.nut_xy[1])
    (at_left, _), (at_right, _) = layout.saddle.at_strings
    return (
        at_left - left.nut_xy[0] - left.nut_compensation,
        at_right - right.nut_xy[0] - right.nut_compensation,
    )


def said(right: Layout, slipped: Layout, reading: str) -> bool:
    """Whether the slipped job's layout warns of anything that the right one's does not."""
    before = {(found.code, found.grade) for found in right.findings if found.grade != "good"}
    grades = {code for code, grade in before if grade == "stop"}
    for found in slipped.findings:
        if found.grade != "good" and (found.code, found.grade) not in before and found.code not in grades:
            return True
    if accused(slipped.survey) - accused(right.survey):
        return True
    unchecked = any(fit.id == reading and fit.w is None for fit in right.readings)
    return unchecked and not NOT_CHECKED.isdisjoint(code for code, _ in before)


def one(seed: int, index: int) -> Told | None:
    """One slip; None where the kind that was drawn has nothing to change in the job that was drawn."""
    chance = random.Random(f"{seed} {index}")
    kinds = list(MUTATIONS)
    kind = kinds[index % len(kinds)]
    right = right_job(chance.randrange(len(SAMPLES) + JOBS), seed)
    try:
        mutated = MUTATIONS[kind](right.job, chance)
    except NotAJob as error:
        return Told(kind=kind, index=index, what=str(error), refused=True)
    return None if mutated is None else tried(kind, index, mutated, right)


def tried(kind: str, index: int, mutated: Mutated, right: Right) -> Told:
    """What comes of one slipped job."""
    try:
        slipped = _worked_out(mutated.job, right)
    except Exception:  # noqa: BLE001  # whatever it is, the campaign goes on and tells it
        return Told(kind=kind, index=index, what=mutated.what, crashed=traceback.format_exc(limit=-2))
    if slipped.saddle is None or right.layout.saddle is None:
        return Told(kind=kind, index=index, what=mutated.what, said=True)
    moved = max(abs(a - b) for a, b in zip(from_nut(slipped), from_nut(right.layout), strict=True))
    spoken = said(right.layout, slipped, mutated.reading)
    return Told(kind=kind, index=index, what=mutated.what, moved=moved, said=spoken)


def _worked_out(job: Job, right: Right) -> Layout:
    """The layout of a slipped job, whose survey is the right one's where nothing slipped that it stands on."""
    return (right.working_out if surveyed_alike(job, right.job) else WorkingOut()).work_out(job)


def campaign(seed: int, count: int, first: int = 0) -> list[Told]:
    """So many slips; the same seed gives the same ones, in pieces or at once."""
    return [told for index in range(first, first + count) if (told := one(seed, index)) is not None]


def figure_line(found: Sequence[Told]) -> str:
    """What came out, in one line."""
    moved = sum(told.moved > MOVED for told in found)
    return (
        f"{len(found)} slips: {sum(told.refused for told in found)} refused, {moved} moved the saddle by more than "
        f"{MOVED:g} mm, {sum(told.silent for told in found)} of these without a word; "
        f"{sum(bool(told.crashed) for told in found)} ended in an exception"
    )


def table(found: Sequence[Told]) -> list[str]:
    """Each kind's counts, and examples of what was silent."""
    lines = [f"{'kind':28}{'tried':>7}{'refused':>9}{'moved':>7}{'silent':>8}"]
    for kind in MUTATIONS:
        mine = [told for told in found if told.kind == kind]
        counts = (len(mine), sum(t.refused for t in mine), sum(t.moved > MOVED for t in mine))
        lines.append(f"{kind:28}{counts[0]:7}{counts[1]:9}{counts[2]:7}{sum(t.silent for t in mine):8}")
        silent = sorted((t for t in mine if t.silent), key=lambda t: -t.moved)
        lines += [f"    #{t.index} {t.moved:.1f} mm: {t.what}" for t in silent[:EXAMPLES]]
        lines += [f"    #{t.index} {t.what}\n{t.crashed}" for t in mine if t.crashed][:EXAMPLES]
    return lines


def main(words: Sequence[str] | None = None) -> int:
    """The command line."""
    parser = argparse.ArgumentParser(prog="python -m tests.campaign.mutated", description=__doc__)
    parser.add_argument("--count", type=int, default=2000, help="slips")
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--first", type=int, default=0, help="begin at this one, to run in pieces")
    given = parser.parse_args(words)
    found = campaign(given.seed, given.count, given.first)
    left_out = [f"not tried: {what}, {why}" for what, why in LEFT_OUT.items()]
    sys.stdout.write("\n".join([*table(found), *left_out, figure_line(found)]) + "\n")
    return 0
