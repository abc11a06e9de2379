"""Advice after the first reading of a list, whichever it is."""

import pytest
from msgspec.structs import replace

from geometry.advice import advise
from geometry.advice.measuring_lists import LISTS, Name, measuring_list
from geometry.job import Job
from geometry.work_out import work_out


@pytest.mark.parametrize("name", LISTS)
def test_any_one_reading_of_a_list_can_be_the_first(name: Name) -> None:
    asked = measuring_list(name, "right", 6)
    for first in asked.readings:
        value = (40.0, 45.0) if first.kind == "rims" else 300.0 if first.kind in ("distance", "fret", "along") else 5.0
        if first.kind == "inline":
            continue
        readings = tuple(replace(r, value=value) if r.id == first.id else r for r in asked.readings)
        try:
            job = Job(points=asked.points, readings=readings)
        except ValueError:
            readings = tuple(replace(r, value=45.0) if r.id == first.id else r for r in asked.readings)
            job = Job(points=asked.points, readings=readings)
        assert isinstance(advise(job, work_out(job)).enough, str)
