"""The sums of what is worked out of a job beside its layout: what to measure next, the proof, places that are each best
at something, how a placement that was kept differs, and the measuring lists.
"""

from collections.abc import Callable
from itertools import product
from typing import Any, get_args

from msgspec.structs import replace

from geometry.advice import advise
from geometry.advice.measuring_lists import Name, measuring_list
from geometry.choice import choose
from geometry.go_or_wait import worked_out
from geometry.job import Job, Kept, Moved
from geometry.job.job import Hand
from geometry.placed.kept_placements import compare, places_of
from geometry.proof import prove, row_words, said
from geometry.work_out import lay_out
from tests.geometry.held.changed_jobs import FULLEST, NAMES, as_made, surveyed
from tests.geometry.held.sums import Sums, whole
from tests.geometry.proof.proof_read import read

MOVED = Moved(along=0.8, across=-0.4, turn=0.3)
SLOW = ("leaning-neck",)
"""The job whose places to choose from are looked for, which takes longest."""
GLUED = ("five-pairs", "tie-bridge", "turned-left-old-slot", FULLEST)
"""Jobs whose proof is read, and that are compared with what was kept."""


def _advice(name: str) -> Any:
    job = as_made(name)
    return advise(job, lay_out(job, surveyed(name)), surveyed(name))


def _waits(name: str) -> Any:
    job = as_made(name)
    return worked_out(job, lay_out(job, surveyed(name)))


def _proof(job: Job, name: str) -> Any:
    proved = prove(job, "clamped", surveyed(name))
    return None if proved is None else (proved, said(job, proved), [row_words(job, row) for row in proved.rows])


def _unread(name: str) -> Any:
    return _proof(as_made(name), name)


def _turned(name: str) -> Any:
    """Read without error from a bridge that is 1.2 mm back, 0.5 mm to the right and half a degree turned."""
    return _proof(read(as_made(name), 1.2 - 0.5j, 0.5), name)


def _misread(name: str) -> Any:
    """The first distance read 4 mm too long."""
    return _proof(read(as_made(name), misread=(0, 4.0)), name)


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
    return compare(moved, lay_out(moved, surveyed(name)), kept)


PARTS: dict[str, tuple[Callable[[str], Any], tuple[str, ...]]] = {
    "what to read next": (_advice, NAMES),
    "what waits": (_waits, GLUED),
    "proof": (_unread, NAMES),
    "proof of a bridge that is off": (_turned, GLUED),
    "proof with a misreading": (_misread, GLUED),
    "kept": (_kept, GLUED),
    "choice": (_choice, SLOW),
}
"""Each part, and the jobs of which it is held."""
HANDS: tuple[Hand, ...] = ("right", "left")
LISTS = {
    f"list {name}, {hand}, {n} strings": (name, hand, n) for name, hand, n in product(get_args(Name), HANDS, (4, 6))
}
ALL = (*(f"{name}; {part}" for part, (_, names) in PARTS.items() for name in names), *LISTS)


def part_of(name: str) -> Sums:
    """The sum of a part by its name."""
    if name in LISTS:
        called, hand, strings = LISTS[name]
        return {"list": whole(measuring_list(called, hand, strings, pins=strings == 6, strings_on=strings == 4))}
    job, _, part = name.partition("; ")
    return {"part": whole(PARTS[part][0](job))}
