"""What is said of a reading that is out, at the limit beyond which it is called far out."""

import pytest

from geometry.job import Job, Point, Reading
from geometry.survey.judge.complaint import FAR_OUT, complaint, complaint_of_laying

READ = Reading(id="r1", kind="distance", of=("a", "b"), value=3000.0)
JOB = Job(points={"a": Point(), "b": Point()}, readings=(READ,))


@pytest.mark.parametrize(("error", "far"), [(FAR_OUT, False), (1.001 * FAR_OUT, True)])
@pytest.mark.parametrize(("way", "more"), [(1, "more"), (-1, "less")])
def test_beyond_what_an_instrument_measures_no_number_is_said(error: float, far: bool, way: int, more: str) -> None:
    said = complaint(JOB, READ, way * error).whole
    assert (f"reads far {more} than the others allow" in said) == far
    assert (f"{FAR_OUT:.1f} mm {more} than the others allow" in said) != far


@pytest.mark.parametrize(
    ("error", "read"), [(0.6, "0.6 mm more"), (-0.6, "0.6 mm less"), (-1.001 * FAR_OUT, "far less")]
)
def test_a_laying_and_a_reading_are_out_the_way_they_were_read(error: float, read: str) -> None:
    assert f", read {read} than the others allow" in complaint_of_laying(JOB, ["r1"], error).whole
    assert f"reads {read} than the others allow" in complaint(JOB, READ, error).whole
