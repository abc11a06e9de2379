"""Feet whose sides were exchanged, or whose readings do not fit the bridge's length."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.job import Job
from geometry.work_out import work_out

JOB = job_file.read(Path(__file__).parents[3] / "sample_jobs" / "floating-five.job.json")
OTHER = {"foot.left": "foot.right", "foot.right": "foot.left"}


def codes(job: Job) -> list[str]:
    return [found.code for found in work_out(job).findings]


def test_feet_on_each_other_s_side() -> None:
    # derived: each foot where the other stands turns the bridge by half a turn
    readings = tuple(replace(one, of=tuple(OTHER.get(name, name) for name in one.of)) for one in JOB.readings)
    exchanged = work_out(replace(JOB, readings=readings))
    (found,) = [one for one in exchanged.findings if one.code == "floating.feet_sides"]
    assert found.grade == "look"
    assert 170 < abs(found.values["degrees"]) < 190
    assert "floating.stands" not in {one.code for one in exchanged.findings}
    assert "floating.feet_sides" not in codes(JOB)
    assert "floating.stands" in codes(JOB)


@pytest.mark.parametrize(("more", "says"), [(1.8, False), (2.2, True), (-1.8, False), (-2.2, True)])
def test_feet_that_are_not_as_far_apart_as_the_bridge_is_long(more: float, says: bool) -> None:
    layout = work_out(JOB)
    one, other = (complex(layout.points[name].x, layout.points[name].y) for name in ("foot.left", "foot.right"))
    assert JOB.floating is not None
    longer = replace(JOB.floating, length=abs(one - other) + more)
    assert ("floating.feet_apart" in codes(replace(JOB, floating=longer))) == says
