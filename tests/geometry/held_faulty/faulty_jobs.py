"""Jobs that are faulty in several ways at once, where judging has most to do: each is quickly worked out, and they were
chosen among thousands of invented ones for the code that each goes through and none before it.

A job is told by its name. One that a hand read of an invented instrument: the campaign's case with a number, then
`thinned` (a third of the readings is left out), `another 7.5` (one more value is so many mm too large). One that is
changed: the job's name and several of its changes, as `changed_jobs.py` calls them, or numbers made so many times as
large, `bridge.width × 2.5`, as a slip of the unit or of the decimal point does. `frets read along left`: no others
are; along the centre line those of the right path, along nothing none. Of such jobs it is held too what to read next.
`nut.height := 7`: a value that no change gives, as a file holds it.
"""

import json
import re
import zlib
from collections.abc import Iterator
from functools import reduce
from pathlib import Path
from typing import Any

import msgspec
from msgspec.structs import replace

from geometry.advice import advise
from geometry.job import Job, NotAJob, Reading
from geometry.survey import survey
from geometry.units import mm
from geometry.work_out import lay_out
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of
from tests.geometry.held.changed_jobs import Change, Plain, changed, changes, made, plain
from tests.geometry.held.changed_sums import REFUSED
from tests.geometry.held.sums import Sums, sums, whole

FILE = Path(__file__).with_name("faulty.txt")
SEED = 29
TOGETHER, TIMES, BECOMES, ALONG = " & ", " × ", " := ", "frets read along "
_READ = re.compile(r"(?P<case>.*?) (?P<number>\d+)(?P<thinned>, thinned)?(, another (?P<another>[-.\d]+))?")


def faulty(name: str) -> Job:
    """The job of this name; raises what its file would be refused with."""
    return _read(name) if ": " not in name else _changed(name)


def _changed(name: str) -> Job:
    job, _, told = name.partition(": ")
    return made(reduce(lambda what, one: changed(what, *_change(job, what, one)), told.split(TOGETHER), plain(job)))


def _change(job: str, what: Plain, told: str) -> Change:
    """A change by its name; of a number to what it is times as much."""
    if told.startswith(ALONG):
        return ("readings",), list(_read_along(what["readings"], told.removeprefix(ALONG)))
    path, _, value = told.partition(BECOMES)
    if value:
        return _steps(path), json.loads(value)
    path, _, times = told.partition(TIMES)
    if not times:
        return changes()[f"{job}: {told}"][1]
    number: Any = what
    for step in _steps(path):
        number = number[step]
    return _steps(path), round(number * float(times), 6)


def _steps(path: str) -> tuple[str | int, ...]:
    return tuple(int(step) if step.isdigit() else step for step in path.split("."))


def _read_along(readings: list[Plain], path: str) -> Iterator[Plain]:
    """Of readings of frets those along one path."""
    for reading in readings:
        if reading["kind"] != "fret" or reading.get("on") == path:
            yield reading
        elif (path, reading.get("on")) == ("centre", "right"):
            yield reading | {"on": "centre"}


def _read(name: str) -> Job:
    found = _READ.fullmatch(name)
    assert found is not None
    case = next(case for case in CASES if case.name == found["case"])
    job = trial_of(case, SEED, int(found["number"])).job
    readings = job.readings
    if found["thinned"]:
        readings = tuple(reading for reading in readings if _by_chance(name, reading) % 3)
    if found["another"]:
        lengths = [one for one in readings if one.kind in ("distance", "fret") and one.taken]
        chosen = min(lengths, key=lambda one: _by_chance(name, one))
        slipped = replace(chosen, value=round(mm(chosen.parts[0]) + float(found["another"]), 3))
        readings = tuple(slipped if one is chosen else one for one in readings)
    return replace(job, readings=readings)


def _by_chance(name: str, reading: Reading) -> int:
    return zlib.crc32(f"{name} {reading.id}".encode())


def sums_of(name: str) -> Sums:
    """The sums of all blocks of such a job, and of what would be without the readings that are accused."""
    try:
        job = faulty(name)
    except (msgspec.ValidationError, NotAJob):
        return REFUSED
    found = survey(job)
    otherwise = [(one.ids, one.change.tolist(), (one.more**2).sum(axis=1).tolist()) for one in found.alternatives]
    layout = lay_out(job, found)
    more = {"next": whole(advise(job, layout, found))} if ALONG in name else {}
    return sums(job, layout) | {"otherwise": whole(otherwise)} | more
