"""Feet whose sides were exchanged are not slid round by half a turn."""

from pathlib import Path

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
