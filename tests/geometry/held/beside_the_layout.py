"""The sums of what is worked out of a job beside its layout: what to measure next, what may be done, the proof, places
that are each best at something, how a placement that was kept differs, what the move does to the old work, the ways to
make a saddle, how far things are from each other, and the measuring lists.
"""

from collections.abc import Callable
from itertools import combinations, product
from typing import Any, get_args

from msgspec.structs import replace

from geometry.advice import advise
from geometry.advice.measuring_lists import Name, measuring_list
from geometry.choice import choose
from geometry.go_or_wait import as_findings, in_short, strip_words, worked_out
from geometry.job import Held, Job, Kept, Moved
from geometry.job.job import Hand
from geometry.layout import LINES
from geometry.old_work import move_told
from geometry.old_work.footprint.covering import covering_of
from geometry.placed import kept_told
from geometry.placed.how_far import how_far
from geometry.placed.kept_placements import compare, places_of
from geometry.proof import as_finding, dated, ends_in_short, prove, row_words, said, string_words
from geometry.proof.moved import moved_by
from geometry.saddle import choice_of_saddle
from geometry.saddle.choice_of_saddle import card_rows, saddle_choices, worth_a_table
from geometry.work_out import lay_out
from tests.geometry.held.changed_jobs import FULLEST, NAMES, as_made, surveyed
from tests.geometry.held.sums import Sums, whole
from tests.geometry.proof.proof_read import read

MOVED = Moved(along=0.8, across=-0.4, turn=0.3)
SLOW = ("leaning-neck", "one-slip", FULLEST)
"""The jobs whose places to choose from are looked for, which takes longest."""
GLUED = ("five-pairs", "tie-bridge", "turned-left-old-slot", FULLEST)
"""Jobs whose proof is read, and that are compared with what was kept."""


def _advice(name: str) -> Any:
    job = as_made(name)
    return advise(job, lay_out(job, surveyed(name)), surveyed(name))


def _waits(name: str) -> Any:
    job, layout = as_made(name), lay_out(as_made(name), surveyed(name))
    steps = worked_out(job, layout)
    return steps, in_short(job, steps), strip_words(steps), as_findings(job, layout, steps)


def _proof(job: Job, name: str) -> Any:
    proved = prove(job, "clamped", surveyed(name))
    if proved is None:
        return None
    rows = [(row_words(job, row), ends_in_short(row.reading, job.hand)) for row in proved.rows]
    strings = [string_words(job, string) for string in proved.strings]
    return proved, said(job, proved), rows, strings, dated(job, proved), as_finding(job, proved)


def _unread(name: str) -> Any:
    return _proof(as_made(name), name)


def _turned(name: str) -> Any:
    """Read without error from a bridge that is 1.2 mm back, 0.5 mm to the right and half a degree turned."""
    return _proof(read(as_made(name), 1.2 - 0.5j, 0.5), name)


def _misread(name: str) -> Any:
    """The first distance read 4 mm too long."""
    return _proof(read(as_made(name), misread=(0, 4.0)), name)


def _otherwise(name: str) -> Any:
    """Read of a sheet that was printed larger, longer or turned over, of a bridge that lies to a side, and of one that
    was built so; and what may be done then.
    """
    job, found = as_made(name), []
    for proved in (
        read(job, scale=1.012),
        read(job, scale=(1.012, 1.0)),
        read(job, over=True),
        read(job, 0.3 + 4.5j),
        read(job, 0.3 - 9.0j, 0.1),
        read(job, 0.9, stage="built"),
        read(job, misread=(1, -2.5), stage="built"),
    ):
        told = prove(proved, proved.proof[0].stage, surveyed(name))
        assert told is not None
        layout = lay_out(proved, surveyed(name))
        strings = [string_words(proved, string) for string in told.strings]
        found.append((told, said(proved, told), strings, as_finding(proved, told), worked_out(proved, layout)))
    return found


def _choice(name: str) -> Any:
    job = as_made(name)
    return choose(job, surveyed(name), lay_out(job, surveyed(name)))


def _kept(name: str) -> Any:
    """How the place differs from one that was kept before the bridge was moved."""
    job = as_made(name)
    places = places_of(job, lay_out(job, surveyed(name)))
    assert places is not None
    kept = Kept(
        name="before", when="2026-11-28", strings=job.strings, saddle=job.saddle, bridge=job.bridge, places=places
    )
    assert job.bridge is not None
    moved = replace(job, bridge=replace(job.bridge, moved=MOVED), kept=(kept,))
    found = compare(moved, lay_out(moved, surveyed(name)), kept)
    assert found is not None
    return found, kept_told.rows(moved, found), kept_told.below(moved, found)


def _move(name: str) -> Any:
    """What the move does to the old work, how far the bridge goes, and the outline that would hide the old one."""
    job, layout = as_made(name), lay_out(as_made(name), surveyed(name))
    cover = None if job.bridge is None else covering_of(job.bridge, layout)
    return move_told.told(job, layout), moved_by(job, surveyed(name)), cover


def _saddle(name: str) -> Any:
    """The ways to make the saddle beside each other."""
    job = as_made(name)
    found = saddle_choices(job, lay_out(job, surveyed(name)))
    return found, worth_a_table(found), choice_of_saddle.rows(job, found), card_rows(job, found)


def _far(name: str) -> Any:
    """How far a few points and lines are from each other."""
    job = as_made(name)
    points = [f"point:{point}" for point in list(job.points)[::9][:4]]
    return [how_far(job, a, b) for a, b in combinations((*points, *LINES), 2)]


PROVED = ("five-pairs", "tie-bridge", "slanted-separate")
"""Jobs whose proof is read in many other ways."""
MOVED_ON = ("bolted-left", "small-askew", "redrilled-left", "turned-left", *GLUED)
"""Jobs with old work, or that have none of it."""
PARTED = ("leaning-neck", "small-four", "turned-left", *GLUED)
"""Jobs of which the ways to make a saddle are beside each other."""
FAR = ("leaning-neck", "slanted-separate", "small-askew")
"""Jobs in which distances are taken."""
PARTS: dict[str, tuple[Callable[[str], Any], tuple[str, ...]]] = {
    "what to read next": (_advice, NAMES),
    "what waits": (_waits, GLUED),
    "proof": (_unread, NAMES),
    "proof of a bridge that is off": (_turned, GLUED),
    "proof with a misreading": (_misread, GLUED),
    "proof otherwise": (_otherwise, PROVED),
    "kept": (_kept, GLUED),
    "the move": (_move, MOVED_ON),
    "ways to make a saddle": (_saddle, PARTED),
    "how far": (_far, FAR),
    "choice": (_choice, SLOW),
}
"""Each part, and the jobs of which it is held."""
HANDS: tuple[Hand, ...] = ("right", "left")
HELD: tuple[Held, ...] = get_args(Held)
LISTS = {
    f"list {name}, {hand}, {n} strings": (name, hand, n) for name, hand, n in product(get_args(Name), HANDS, (4, 6))
}
ALL = (*(f"{name}; {part}" for part, (_, names) in PARTS.items() for name in names), *LISTS)


def part_of(name: str) -> Sums:
    """The sum of a part by its name."""
    if name in LISTS:
        called, hand, n = LISTS[name]
        asked = {held: measuring_list(called, hand, n, pins=n == 6, strings_on=n == 4, held=held) for held in HELD}
        return {held: whole(one) for held, one in asked.items()}
    job, _, part = name.partition("; ")
    return {"part": whole(PARTS[part][0](job))}
