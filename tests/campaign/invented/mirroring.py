"""The mirrored instrument, of the other hand: every left a right."""

from typing import Any

from msgspec.structs import replace

from geometry.job import Job

MIRROR = {"left": "right", "right": "left"}


def mirrored(job: Job) -> Job:
    """The job of the mirrored instrument, of the other hand: every left a right, the readings in their order."""
    if job.strings is None or not isinstance(job.strings.shift, float):
        raise AssertionError("a trial’s strings have a shift in mm")
    points = {
        other_side(name): replace(point, near=None if point.near is None else (point.near[0], _turned(point.near[1])))
        for name, point in job.points.items()
    }
    readings = tuple(
        replace(
            reading,
            of=tuple(other_side(name) for name in reading.of),
            from_=tuple(other_side(name) for name in reading.from_),
            side=None if reading.side is None else MIRROR[reading.side],
            on=None if reading.on is None else MIRROR[reading.on],
            laid=None if reading.laid is None else " ".join(MIRROR.get(word, word) for word in reading.laid.split()),
        )
        for reading in job.readings
    )
    return replace(
        job,
        hand=MIRROR[job.hand],
        points=points,
        readings=readings,
        strings=replace(job.strings, shift=-job.strings.shift),
    )


def other_side(name: str) -> str:
    return ".".join(MIRROR.get(part, part) for part in name.split("."))


def _turned(y: Any) -> float:
    return -float(y)
