"""Any job that can be made works out without an exception, and what comes out is finite and plain."""

import math
import re
from typing import Any

import msgspec
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from geometry.job import Job, Point, Spread, Strings
from geometry.layout import Layout
from geometry.strings.usual_sets import SETS
from geometry.work_out import lay_out, work_out
from tests.geometry.any_job.odd_jobs import PLACES, drawn_blocks, jobs
from tests.geometry.made import surveyed

EXTRAS = {
    f"{what}.{where}": value
    for what, where, value in (
        ("scale", "left", 642.0),
        ("shift", "left", 0.8),
        ("scale", "right", 641.0),
        ("scale", "centre", 641.5),
        ("height", "fret 1.left", 0.5),
        ("height", "fret 1.right", 0.6),
        ("height", "fret 12.left", 2.2),
        ("height", "fret 12.right", 1.8),
        ("height", "board end.left", 6.0),
        ("height", "board end.right", 6.1),
        ("height", "bridge.left", 12.0),
        ("height", "bridge.right", 12.5),
        ("diameter", "pin.1", 5.2),
    )
}
MANY = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
SLOW = settings(MANY, max_examples=40)
"""For what surveys odd readings, which takes long; what is laid out is met oftener without."""


def numbers(found: Any, path: str = "") -> list[tuple[str, float]]:
    """Every number in a layout, with the way to it."""
    if isinstance(found, dict):
        return [pair for key, value in found.items() for pair in numbers(value, f"{path}.{key}")]
    if isinstance(found, (list, tuple)):
        return [pair for i, value in enumerate(found) for pair in numbers(value, f"{path}[{i}]")]
    return [(path, found)] if isinstance(found, float) else []


def is_sound(job: Job, layout: Layout) -> None:
    for path, number in numbers(msgspec.to_builtins(layout, str_keys=True)):
        assert math.isfinite(number), path
    for finding in layout.findings:
        assert re.fullmatch(r"[a-z0-9_]+(\.[a-z0-9_]+)?", finding.code), finding
        assert re.search(r"[.?]$", finding.text), finding
        others = {"mm", "cm", "in"} - {job.unit}
        assert not re.search(rf"\d ({'|'.join(sorted(others))})\b", finding.text), finding


@SLOW
@given(jobs())
def test_any_job_works_out(job: Job) -> None:
    is_sound(job, work_out(job))


@st.composite
def solved(draw: Any) -> tuple[Job, Any]:
    """Blocks of any sort on an instrument that is surveyed already, as far as points and unknowns are left in."""
    points = {name: at for name, at in PLACES.items() if draw(st.integers(0, 20))}
    extras = {name: value for name, value in EXTRAS.items() if draw(st.integers(0, 7))}
    blocks = drawn_blocks(draw)
    job = Job(points={name: Point() for name in PLACES}, **blocks)
    return job, surveyed(points, extras)


@MANY
@given(solved())
def test_any_blocks_work_out_on_a_surveyed_instrument(made: tuple[Job, Any]) -> None:
    job, found = made
    is_sound(job, lay_out(job, found))


def test_a_nut_wider_than_any_is_laid_out_all_the_same() -> None:
    wide = {
        "nut.left": (0.0, 150.0),
        "nut.right": (0.0, -150.0),
        "end.left": (440.0, 160.0),
        "end.right": (440.0, -160.0),
    }
    strings = Strings(list=SETS["nylon 0.70-1.10"].strings, saddle=Spread(spread=56.0))
    job = Job(points={name: Point() for name in wide}, strings=strings)
    assert lay_out(job, surveyed(wide, EXTRAS)).saddle is not None


def test_a_scale_too_long_for_any_instrument_stops_the_work() -> None:
    strings = Strings(list=SETS["nylon 0.70-1.10"].strings, saddle=Spread(spread=56.0))
    job = Job(points={name: Point() for name in PLACES}, strings=strings)
    found = lay_out(job, surveyed(PLACES, {"scale.left": 1990.0, "scale.right": 1990.0})).findings
    assert ("stop", "frets.no_scale") in {(finding.grade, finding.code) for finding in found}
