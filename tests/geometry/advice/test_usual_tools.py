"""With which rule and which caliper a reading is asked for: with those of the job."""

import pytest

from geometry.advice.candidates import usual_caliper, usual_rule
from geometry.job import Job, Point, Reading
from geometry.units import Unit

NUT, END, SIDE = ("nut.left", "nut.right"), ("end.right", "end.left"), ("nut.left", "end.left")


def read_with(*tools: tuple[tuple[str, str], str | None], unit: Unit = "mm") -> Job:
    """A job with a distance between such points, read with such a tool, for each."""
    readings = tuple(Reading(id=str(at), kind="distance", of=of, with_=tool) for at, (of, tool) in enumerate(tools))
    return Job(unit=unit, points={name: Point() for name in (*NUT, *END)}, readings=readings)


@pytest.mark.parametrize(
    ("job", "rule", "caliper"),
    [
        (Job(), "rule 0.5", "caliper 0.1"),
        (Job(unit="in"), "rule 1/64", "caliper 0.1"),
        (read_with((NUT, None), (SIDE, "rule 1")), "rule 1", "caliper 0.1"),
        (read_with((NUT, "caliper 0.05"), (SIDE, "rule 1/64"), unit="in"), "rule 1/64", "caliper 0.05"),
        (read_with((NUT, "rule 1/64"), unit="in"), "rule 1/64", "rule 1/64"),
        (read_with((END, "rule 1")), "rule 1", "rule 1"),
        (read_with((NUT, "rule 1"), (END, "caliper 0.1")), "rule 1", "caliper 0.1"),
    ],
)
def test_a_reading_is_asked_for_with_what_the_job_is_read_with(job: Job, rule: str, caliper: str) -> None:
    assert (usual_rule(job), usual_caliper(job)) == (rule, caliper)
