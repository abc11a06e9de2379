"""The readings that say where a trial saddle lies: each of its ends from both corners of the nut."""

from app.edit import edits
from app.edit.tools_at_hand import usual_in
from geometry.job import Job, Point
from geometry.job.sides import SIDES
from geometry.layout import Layout


def ask_trial(job: Job, layout: Layout, name: str) -> tuple[Job, str]:
    """The job with the readings of a trial saddle's ends, still to be taken, and the id of the first one that waits;
    none is asked twice. `layout` has a saddle: its place is about where the trial one is laid.
    """
    assert layout.saddle is not None
    there = {(r.kind, frozenset(r.of)): r for r in job.readings if not r.struck}
    asked = []
    for side, near in zip(SIDES, layout.saddle.at_strings, strict=True):
        end = f"trial.{name}.{side}"
        if end not in job.points:
            job = edits.replace(job, points={**job.points, end: Point(near=near)})
        for corner in SIDES:
            of = (f"nut.{corner}", end)
            reading = there.get(("distance", frozenset(of)))
            if reading is None:
                job = edits.add(job, "distance", of, with_=usual_in(job))
                reading = job.readings[-1]
            asked.append(reading)
    return job, next((one.id for one in asked if not one.taken), asked[0].id)
