"""A whole job as its mirror image, of the other hand: readings, points with their hints, bridge and strings."""

from typing import Any

from msgspec.structs import replace

from geometry.job import Job, Point, Reading, Separate
from geometry.units import mm
from tests.campaign.invented.mirroring import MIRROR, other_side
from tests.geometry.any_job.test_mirrored import mirrored_bridge, mirrored_frets, mirrored_nut, mirrored_strings
from tests.geometry.floating.odd_standing import mirrored_floating, mirrored_tail


def mirrored(job: Job) -> Job:
    """Every left a right."""
    changed: dict[str, Any] = {
        "points": {other_side(name): _point(point) for name, point in job.points.items()},
        "readings": tuple(_reading(reading) for reading in job.readings),
        "strings": mirrored_strings(job.strings),
        "nut": mirrored_nut(job.nut),
        "bridge": mirrored_bridge(job.bridge),
        "frets": mirrored_frets(job.frets),
        "floating": mirrored_floating(job.floating),
        "tail": mirrored_tail(job.tail),
        "separate": _separate(job.separate),
        "hand": MIRROR[job.hand],
    }
    return replace(job, **changed)


def _separate(separate: Separate | None) -> Separate | None:
    """Screw holes on the other side of the base's middle."""
    if separate is None:
        return None
    return replace(separate, screws=tuple((behind, -mm(across)) for behind, across in separate.screws))


def _point(point: Point) -> Point:
    near = None if point.near is None else (point.near[0], -float(point.near[1]))
    side = tuple(replace(one, of=tuple(map(other_side, one.of)), is_=MIRROR[one.is_]) for one in point.side)
    return replace(point, near=near, side=side)


def _reading(reading: Reading) -> Reading:
    return replace(
        reading,
        of=tuple(map(other_side, reading.of[::-1] if reading.kind == "across" else reading.of)),
        from_=tuple(map(other_side, reading.from_)),
        side=None if reading.side is None else MIRROR[reading.side],
        on=None if reading.on is None else MIRROR.get(reading.on, reading.on),
        laid=None if reading.laid is None else " ".join(MIRROR.get(word, word) for word in reading.laid.split()),
    )
