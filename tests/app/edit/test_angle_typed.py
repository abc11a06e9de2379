"""An angle as it is typed, kept and shown again."""

import msgspec
import pytest

from app.edit import edits
from app.file import job_file
from geometry import words
from geometry.job import Job, Point, Reading
from geometry.units import NotALength

FRONT, EDGE = ("old.1", "old.2"), ("nut.left", "end.left")
JOB = Job(
    points={name: Point() for name in (*FRONT, *EDGE)},
    readings=(Reading(id="angle", kind="angle", of=FRONT, from_=EDGE),),
)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_an_angle_is_typed_in_degrees_whatever_the_unit(unit: str) -> None:
    whole = msgspec.structs.replace(JOB, unit=unit)
    made = edits.set_value(whole, "angle", "87,5°")
    assert edits.find(made, "angle").value == 87.5
    assert words.value(edits.find(made, "angle"), made.unit) == "87.5°"
    assert edits.find(edits.set_fineness(made, "angle", "± 1"), "angle").within == 1
    with pytest.raises(NotALength):
        edits.set_value(whole, "angle", "87.5 mm")


def test_an_angle_is_kept_in_the_job_file() -> None:
    whole = edits.set_fineness(edits.set_value(JOB, "angle", "88.5"), "angle", "bevel gauge")
    assert job_file.decode(job_file.encode(whole)) == whole
