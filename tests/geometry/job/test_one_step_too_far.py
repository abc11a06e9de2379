"""What fields of a job do to each other: the last that is taken, and the first that is refused."""

import pytest

from geometry.job import Job, NotAJob, Point, Reading
from geometry.job.job import WIDTHS
from tests.geometry.job.one_step import STEPS
from tests.in_one import in_one


@in_one("name", STEPS)
def test_the_last_is_taken_and_the_next_refused(name: str) -> None:
    taken, refused = STEPS[name]
    assert taken() is not None
    with pytest.raises(NotAJob):
        refused()


@in_one("pair", WIDTHS)
@in_one("way", [-0.1, 0.1])
def test_widths_of_a_board(pair: frozenset[str], way: float) -> None:
    """At the least and the greatest of each, and a tenth of a mm beyond."""
    _, least, most = WIDTHS[pair]
    limit = least if way < 0 else most

    def read(value: float, *, struck: bool = False) -> Job:
        reading = Reading(id="r", kind="distance", of=tuple(sorted(pair)), value=value, struck=struck)
        return Job(points={name: Point() for name in pair}, readings=(reading,))

    assert read(limit).readings[0].value == limit
    assert read(limit + way, struck=True).readings
    with pytest.raises(NotAJob):
        read(limit + way)


def test_the_widths_themselves() -> None:
    """No instrument goes beyond (common practice, no source)."""
    named = {says: (least, most) for says, least, most in WIDTHS.values()}
    assert named == {
        "the nut, edge to edge,": (15.0, 130.0),
        "the board’s end, edge to edge,": (20.0, 160.0),
        "nut to board end": (100.0, 1000.0),
        "nut to fret 12": (80.0, 700.0),
    }
    assert len(WIDTHS) == 10
