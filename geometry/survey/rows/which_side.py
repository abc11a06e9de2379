"""Which side of which line a point lies on, and what lies ahead of what: said by the person, or by the points' names.

A **turn** is three points A, B, P. It says that P lies to the left of the line from A to B, or to its right, or ahead
of A as one looks to B. What the person said outranks the readings; what names and habits say only breaks a tie.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from geometry.job import Job
from geometry.survey.rows.row import Row

STATIONS = {"nut": 0, "fret12": 1, "end": 2}
"""Points named `<station>.left` and `.right`, in their order from the nut to the tail."""
BEYOND = {
    **dict.fromkeys(("seam", "old", "pin", "metal", "trial"), 2),
    **dict.fromkeys(("head", "headslot", "post", "screw", "thread"), -1),
}
"""The last station that points of a family surely lie tailward of; every other family lies tailward of the nut."""


class Turn(NamedTuple):
    """Points A, B, P; `sign` +1 where P is to the left (or ahead), −1 to the right; `said` by the person."""

    a: str
    b: str
    p: str
    sign: int
    said: bool = False
    ahead: bool = False

    def agrees(self, placed: Mapping[str, complex]) -> bool:
        """Whether these places turn the way it says; all three must be placed."""
        ab, ap = placed[self.b] - placed[self.a], placed[self.p] - placed[self.a]
        if self.ahead:
            return (ab.real * ap.real + ab.imag * ap.imag) * self.sign >= 0
        return (ab.real * ap.imag - ab.imag * ap.real) * self.sign >= 0


def turns(job: Job, points: Iterable[str], rows: Sequence[Row] = ()) -> tuple[Turn, ...]:
    """All turns among these points: side hints, order along the neck by name, and the habit that a straightedge laid
    from A through B has the point that lies in line with them ahead of A.
    """
    present = dict.fromkeys(points)
    said = [
        Turn(*hint.of, name, 1 if hint.is_ == "left" else -1, said=True)
        for name, point in job.points.items()
        for hint in point.side
        if name in present and name not in hint.of and all(other in present for other in hint.of)
    ]
    in_line = [
        Turn(row.points[2], row.points[3], row.points[0], 1, ahead=True)
        for row in rows
        if row.form == "laid" and row.value == 0 and row.lean.imag and row.points[1] == row.points[2]
    ]
    return (*said, *_by_names(tuple(present)), *in_line)


@lru_cache(maxsize=64)
def _by_names(points: tuple[str, ...]) -> tuple[Turn, ...]:
    """What the points' names say of their order along the neck."""
    stations = ((f"{station}.left", f"{station}.right", place) for station, place in STATIONS.items())
    return tuple(
        turn
        for left, right, place in stations
        if left in points and right in points
        for name in points
        for turn in _along_the_neck(left, right, place, name)
    )


def _along_the_neck(left: str, right: str, place: int, name: str) -> list[Turn]:
    if name in (left, right):
        return []
    family = name.split(".", 1)[0]
    own = STATIONS.get(family)
    if own is not None:
        return [Turn(left, right, name, 1 if own > place else -1)]
    return [Turn(left, right, name, 1)] if BEYOND.get(family, 0) >= place else []
