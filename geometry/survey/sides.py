"""Which side of which line a point lies on: what the person said of it, and what the points' names say by themselves.

A **turn** is three points and a sign: +1 where the third lies to the left of the line from the first to the second.
"""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from geometry.job import Job

STATIONS = {"nut": 0, "fret12": 1, "end": 2}
"""Points named `<station>.left` and `.right`, in their order from the nut to the tail."""
BEYOND = {"seam": 0, "edge": 0, "fret12": 0, "end": 0, "metal": 0, "body": -1, "old": 2, "pin": 2}
"""Points by the first part of their name: the last station that they surely lie tailward of."""


class Turn(NamedTuple):
    """Three points, +1 (third to the left of first → second) or −1, and whether the person said so."""

    a: str
    b: str
    p: str
    sign: int
    said: bool

    def agrees(self, placed: Mapping[str, complex]) -> bool:
        """Whether these places turn the way it says; all three must be placed."""
        ab, ap = placed[self.b] - placed[self.a], placed[self.p] - placed[self.a]
        return (ab.real * ap.imag - ab.imag * ap.real) * self.sign >= 0


def turns(job: Job, points: Iterable[str]) -> tuple[Turn, ...]:
    """All turns among these points: side hints of the job, and order along the neck by name."""
    present = set(points)
    found = [
        Turn(*hint.of, name, 1 if hint.is_ == "left" else -1, True)
        for name, point in job.points.items()
        for hint in point.side
        if name in present and set(hint.of) <= present and name not in hint.of
    ]
    for station, place in STATIONS.items():
        left, right = f"{station}.left", f"{station}.right"
        if left in present and right in present:
            for name in points:
                found += _along_the_neck(left, right, place, name)
    return tuple(found)


def _along_the_neck(left: str, right: str, place: int, name: str) -> list[Turn]:
    family = name.split(".", 1)[0]
    if name in (left, right):
        return []
    own = STATIONS.get(family)
    if own is not None:
        return [Turn(left, right, name, 1 if own > place else -1, False)]
    return [Turn(left, right, name, 1, False)] if BEYOND.get(family, -1) >= place else []
