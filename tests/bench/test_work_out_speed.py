"""How long the whole layout takes: aim under 5 ms for 40 points, 80 readings and six strings. Never passes or fails.

Each round works out a job in which another reading was edited, as it is at the bench.
"""

from itertools import cycle

import numpy as np
import pytest
from msgspec import convert
from msgspec.structs import replace
from pytest_benchmark.fixture import BenchmarkFixture

from geometry.job import Job, Old, OldMetal, Point, Reading, String, Strings
from geometry.job.stringing import Action, Spread
from geometry.survey import survey
from geometry.work_out import lay_out, work_out
from tests.geometry.made import BOARD, bridge

GAUGES = (
    ("E4", 0.3, "plain"),
    ("B3", 0.41, "plain"),
    ("G3", 0.61, "wound"),
    ("D3", 0.81, "wound"),
    ("A2", 1.07, "wound"),
)


def usual_job() -> Job:
    """Forty points and eighty readings: the board, frets on both sides, and thirty-six points about the bridge."""
    random = np.random.default_rng(7)
    points = dict(BOARD)
    for number in range(1, 5):
        points[f"old.{number}"] = (630.0 + 26 * (number > 2), 76.0 if number in (1, 4) else -76.0)
    points |= {"metal.1": (650.0, -60.0), "seam.1": (520.0, 2.0), "seam.2": (760.0, 4.0)}
    ring = 40 - len(points)
    turns = 2 * np.pi * np.arange(ring) / ring
    points |= {f"body.{n}": (620.0 + 240 * np.cos(t), 160 * np.sin(t)) for n, t in enumerate(turns.tolist())}
    readings: list[Reading] = []

    def read(**what: object) -> None:
        readings.append(convert({"id": f"r{len(readings) + 1}", **what}, Reading))

    def apart(a: str, b: str) -> float:
        return round(float(np.hypot(*np.subtract(points[a], points[b])) + random.normal(0, 0.2)), 1)

    corners = list(BOARD)
    for i, a in enumerate(corners):
        for b in corners[i + 1 :]:
            read(kind="distance", of=(a, b), value=apart(a, b), sigma=0.2)
    for side in ("left", "right"):
        for fret in (1, 3, 5, 7, 9, 12):
            value = 640 * (1 - 2 ** (-fret / 12)) + random.normal(0, 0.2)
            read(kind="fret", fret=fret, on=side, value=round(value, 1), sigma=0.2, laid=f"frets {side}")
    edge = np.subtract(BOARD["end.left"], BOARD["nut.left"])
    edge = edge / np.hypot(*edge)
    for name in points:
        if name not in corners and len(readings) < 80:
            step = np.subtract(points[name], BOARD["nut.left"])
            off = float(edge[0] * step[1] - edge[1] * step[0])
            laid = {"of": (name,), "from": ("nut.left", "end.left"), "sigma": 0.2}
            read(kind="along", value=round(float(edge @ step), 1), **laid)
            if len(readings) < 80:
                read(kind="off", value=round(abs(off), 1), side="left" if off > 0 else "right", **laid)
    strings = tuple(
        String(name=str(n + 1), pitch=pitch, diameter=size, build=build)  # type: ignore[arg-type]  # plain or wound
        for n, (pitch, size, build) in enumerate((*GAUGES, ("E2", 1.35, "wound")))
    )
    return Job(
        points={name: Point(near=(round(x), round(y))) for name, (x, y) in points.items()},
        readings=tuple(readings),
        strings=Strings(
            list=strings,
            nut=Spread(spread=37.0),
            saddle=Spread(spread=56.0),
            action=Action(fret1=(0.5, 0.4), fret12=(2.4, 1.9)),
        ),
        bridge=bridge(),
        old=Old(outline=("old.1", "old.2", "old.3", "old.4"), metal={"metal.1": OldMetal()}),
    )


def edited(job: Job) -> list[Job]:
    """The job with one reading after the other a tenth of a millimetre longer."""
    found = []
    for i, reading in enumerate(job.readings):
        (value,) = reading.parts
        longer = replace(reading, value=round(float(value) + 0.1, 1))
        found.append(replace(job, readings=(*job.readings[:i], longer, *job.readings[i + 1 :])))
    return found


@pytest.mark.parametrize("part", ["work_out", "survey", "lay_out"])
def test_speed_of_the_usual_job(benchmark: BenchmarkFixture, part: str) -> None:
    job = usual_job()
    surveyed, jobs = survey(job), cycle(edited(job))
    assert (len(job.points), len(job.readings)) == (40, 80)
    if part == "work_out":
        layout = benchmark(lambda: work_out(next(jobs)))
        assert layout.bridge is not None
    elif part == "survey":
        benchmark(lambda: survey(next(jobs)))
    else:
        benchmark(lay_out, job, surveyed)
