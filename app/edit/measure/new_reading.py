"""Adding a reading: what there is to choose from, and the reading that is made of what was chosen."""

from collections.abc import Sequence

from app.edit import edits, tools_at_hand
from app.edit.old_work.old_kinds import KINDS, new_names, to_enter
from app.say.how_to import TAKING
from geometry import words
from geometry.advice.measuring_lists import measuring_list
from geometry.job import Job, Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import SHAPES, Kind

PLACES = (("fret 1", "string over fret 1"), ("fret 12", "string over fret 12"), ("board end", "board over the top"))
PLACES_AT = (
    *PLACES,
    ("bridge", "string over the top at the bridge"),
    ("saddle", "straightedge on the frets over the top, at the saddle’s place"),
)
USUAL = ("nut.left", "nut.right", "end.left", "end.right", "fret12.left", "fret12.right", "seam.1", "seam.2")
MORE = ("trial.1.left", "trial.1.right", "pin.1", "pin.6", "body.1")


def names(job: Job) -> list[str]:
    """Points to choose from: the job's own, then the usual ones that are not in it yet."""
    old_work = [name for kind in KINDS for name in new_names(job, kind, to_enter(job, kind))]
    return list(dict.fromkeys((*job.points, *USUAL, *MORE, *old_work)))


def make(kind: Kind, points: tuple[str, ...], **fields: object) -> Reading:
    """A reading of a kind from its points in the order they are asked; its id is given when it is added."""
    laid = SHAPES[kind].laid_from
    from_, of = points[:laid], points[laid:]
    if TAKING[kind].backwards:
        of = of[::-1]
    return Reading(id="new", kind=kind, of=of, from_=from_, **fields)  # type: ignore[arg-type]  # the card names the fields


def second(reading: Reading) -> Reading:
    """The same reading a second time, still to be measured, its rule laid anew; its id is given when it is added."""
    return edits.replace(reading, id="new", value=None, laid=None, struck=False, why="", note="")


def twice(points: tuple[str, ...], hand: Hand) -> str:
    """Why no reading goes between these points: the one that is chosen twice; nothing where all differ."""
    same = next((name for name in points if points.count(name) > 1), None)
    return "" if same is None else f"{words.quoted(words.point_headed(same, hand))} is chosen twice; choose another"


def add(job: Job, reading: Reading, after: str | None) -> tuple[Job, str]:
    """The job with the reading in it, read with what the others are read with, and the id it got. What is read once
    more stands behind what was read of it before.
    """
    alike = [one.id for one in job.readings if _thing(one) == _thing(reading)]
    after = alike[-1] if alike else after
    name, shape = edits.next_id(job), SHAPES[reading.kind]
    told = reading.with_ is not None or reading.within is not None or reading.sigma is not None
    tool = reading.with_ if told or shape.degrees or not shape.values else tools_at_hand.usual_in(job)
    return edits.add_reading(job, edits.replace(reading, id=name, with_=tool), after=after), name


def _thing(reading: Reading) -> tuple[object, ...]:
    """What a reading is of: another of the same is taken of the same thing."""
    return reading.kind, reading.of, reading.from_, reading.fret, reading.on, reading.at, reading.inside


def ask_of(job: Job, points: Sequence[str]) -> tuple[Job, str]:
    """The job with what the usual measuring list asks of these points, still to be answered, and the first of it by its
    id; nothing is asked twice.
    """
    listed = measuring_list("neck and bridge", job.hand, len(job.strings.list) if job.strings else 6, job.unit).readings
    there = {(r.kind, r.of, r.from_): r.id for r in job.readings if not r.struck}
    first = ""
    for reading in listed:
        if not reading.asked or len(reading.of) != 1 or reading.of[0] not in points:
            continue
        name = there.get((reading.kind, reading.of, reading.from_), "")
        if not name:
            job, name = add(job, edits.replace(reading, with_=None), None)
        first = first or name
    return job, first
