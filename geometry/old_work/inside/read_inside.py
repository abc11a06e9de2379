"""What lies under the top can only be read from inside: whether the readings say so, and whether they are tied to the
outside.

Two points are **tied** that are read from both sides, for they go through the wood: two of them settle how the
inside lies to the outside.
"""

from collections.abc import Iterable, Iterator

from geometry import words
from geometry.findings import Finding, look
from geometry.job import Job, Reading

TIES = 2
"""So many points read from both sides hold a mirrored figure in its place (derived: two shifts and a turn)."""


def findings(job: Job) -> Iterator[Finding]:
    """Points of plate and braces that nobody says were read inside, and an inside that hangs on nothing."""
    unsaid = not_said(job)
    if unsaid:
        called = [words.called(name, job.hand) for name in unsaid]
        lie, their = ("lie", "their") if len(called) > 1 else ("lies", "its")
        yield look(
            "old.from_inside",
            f"{words.first_large(words.several(called))} {lie} under the top, but {their} readings do not say that "
            "they were read from inside, where a sheet and a gap come mirrored. Say so on the Old work card.",
            "field:old.inside",
            count=float(len(unsaid)),
        )
    seen, outside = (_points(r for r in job.readings if r.taken and r.inside is on) for on in (True, False))
    if seen - outside and len(seen & outside) < TIES:
        yield look(
            "old.untied",
            "Nothing ties the inside to the outside yet: read two old pin holes from both sides.",
            "step:measure",
            tied=float(len(seen & outside)),
        )


def not_said(job: Job) -> tuple[str, ...]:
    """The points of plate and braces that were read, but by no reading that says it was taken inside."""
    read = [reading for reading in job.readings if reading.taken]
    inside = _points(reading for reading in read if reading.inside)
    under = job.old.inside if job.old is not None else ()
    return tuple(name for name in under if name in _points(read) and name not in inside)


def _points(readings: Iterable[Reading]) -> set[str]:
    return {name for reading in readings for name in (*reading.of, *reading.from_)}
