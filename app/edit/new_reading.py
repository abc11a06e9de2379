"""What must be asked to add a reading of each kind: its points in the order a person names them, in plain words."""

from typing import NamedTuple

from app.edit import edits
from geometry.job import Job, Reading
from geometry.job.readings import SHAPES, Kind


class Asked(NamedTuple):
    """A kind in words, and what each of its points is; the straightedge's two come first."""

    says: str
    points: tuple[str, ...]


STRAIGHTEDGE = ("The straightedge starts at", "and runs through")
ASKED: dict[Kind, Asked] = {
    "distance": Asked("Distance between two points", ("From", "To")),
    "along": Asked("Along a straightedge, to a point", (*STRAIGHTEDGE, "Read where it is square to")),
    "off": Asked("Off a straightedge, to a point", (*STRAIGHTEDGE, "Read the square distance to")),
    "across": Asked("A gap, square to a straightedge", (*STRAIGHTEDGE, "From the right one", "To the left one")),
    "meets": Asked("Along a straightedge, to a line across", (*STRAIGHTEDGE, "The line runs through", "and through")),
    "inline": Asked("A point that lies on a straightedge", (*STRAIGHTEDGE, "The point on it")),
    "rims": Asked("A hole, by its near and far rim", ("From", "The hole")),
    "fret": Asked("From the nut to a fret", ()),
    "height": Asked("A height", ()),
    "same": Asked("Two distances that are the same", ("From", "To", "Same as from", "to")),
    "square": Asked("Two lines square to each other", ("First line from", "to", "Second line from", "to")),
    "at": Asked("A place read off a sheet, x and y", ("The point",)),
}
PLACES = (("fret 1", "string over fret 1"), ("fret 12", "string over fret 12"), ("board end", "board over the top"))
PLACES_AT = (
    *PLACES,
    ("bridge", "string over the top at the bridge"),
    ("saddle", "straightedge on the frets over the top, at the saddle's place"),
)
USUAL = ("nut.left", "nut.right", "end.left", "end.right", "fret12.left", "fret12.right", "seam.1", "seam.2")
MORE = ("trial.1.left", "trial.1.right", "old.1", "old.2", "old.3", "old.4", "pin.1", "pin.6", "metal.1", "body.1")


def names(job: Job) -> list[str]:
    """Points to choose from: the job's own, then the usual ones that are not in it yet."""
    return [*job.points, *(name for name in (*USUAL, *MORE) if name not in job.points)]


def make(kind: Kind, points: tuple[str, ...], **fields: object) -> Reading:
    """A reading of a kind from its points in the order they are asked; its id is given when it is added."""
    laid = SHAPES[kind].laid_from
    from_, of = points[:laid], points[laid:]
    if kind == "across":
        of = of[::-1]
    return Reading(id="new", kind=kind, of=of, from_=from_, **fields)  # type: ignore[arg-type]  # the card names the fields


def add(job: Job, reading: Reading, after: str | None) -> tuple[Job, str]:
    """The job with the reading in it, and the id it got."""
    name = edits.next_id(job)
    return edits.add_reading(job, edits.replace(reading, id=name), after=after), name
