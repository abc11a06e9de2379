"""What is read inside the body, where the top is seen in a mirror."""

import cmath
import math
from pathlib import Path

import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.job import Job, Point, Reading
from geometry.units import mm
from geometry.work_out import work_out
from tests.geometry.made import BOARD

SAMPLE = Path(__file__).parents[3] / "sample_jobs" / "bolted-left.job.json"
HOLES = {"pin.1": 640 + 30j, "pin.6": 640 - 30j, "old.1": 620 + 70j}
UNDER = {"brace.1.a": 560 + 40j, "brace.1.b": 690 - 75j, "plate.1": 655 + 41j}
"""What goes through the wood, and what lies under it."""


def sheet(places: dict[str, complex], inside: bool, turn: float, at: complex) -> list[Reading]:
    """Points read off a sheet that lies turned on the top, or inside under it, where y runs the other way."""
    seen = {name: z * cmath.exp(1j * turn) + at for name, z in places.items()}
    return [
        Reading(
            id=f"{'in' if inside else 'out'} {name}",
            kind="at",
            of=(name,),
            value=(z.real, -z.imag if inside else z.imag),
            inside=inside,
        )
        for name, z in seen.items()
    ]


def placed(job: Job) -> dict[str, complex]:
    return {name: complex(point.x, point.y) for name, point in work_out(job).points.items()}


def job(*readings: Reading) -> Job:
    names = dict.fromkeys(name for reading in readings for name in (*reading.of, *reading.from_))
    return Job(points={name: Point() for name in names}, readings=readings)


def board(*more: str) -> list[Reading]:
    corners = {name: complex(*at) for name, at in BOARD.items()}
    return sheet(corners | {name: HOLES[name] for name in more}, inside=False, turn=0.3, at=50 - 20j)


@pytest.mark.parametrize("tied", [("pin.1", "pin.6"), ("pin.1", "pin.6", "old.1")])
def test_two_sheets_are_tied_by_what_goes_through_the_wood(tied: tuple[str, ...]) -> None:
    # derived: a mirror, a turn and a shift keep every distance, so the places come back as they were
    through = {name: HOLES[name] for name in tied}
    found = placed(job(*board(*tied), *sheet(through | UNDER, inside=True, turn=-1.1, at=7 + 300j)))
    for name, z in UNDER.items():
        assert abs(found[name] - z) < 1e-6, name


def test_an_inside_sheet_that_is_not_said_to_be_one_does_not_fit() -> None:
    wrong = [
        Reading(id=reading.id, kind="at", of=reading.of, value=reading.value)
        for reading in sheet(HOLES | UNDER, inside=True, turn=-1.1, at=7 + 300j)
    ]
    found = placed(job(*board(*HOLES), *wrong))
    assert max(abs(found[name] - z) for name, z in UNDER.items()) > 5


@pytest.mark.parametrize("inside", [False, True])
def test_farther_left_is_farther_right_inside(inside: bool) -> None:
    # derived: plate.1 lies 11 mm farther left than pin.1, square to the nut-to-end line of an even board
    between = Reading(
        id="gap",
        kind="across",
        of=("pin.1", "plate.1") if inside else ("plate.1", "pin.1"),
        from_=("nut.left", "end.left"),
        value=11.0,
        inside=inside,
    )
    along = Reading(id="along", kind="along", of=("plate.1",), from_=("nut.left", "end.left"), value=655.0)
    edge = complex(*BOARD["end.left"]) - complex(*BOARD["nut.left"])
    found = placed(job(*board(*HOLES), between, along))
    assert ((found["plate.1"] - found["pin.1"]) * edge.conjugate() / abs(edge)).imag == pytest.approx(11.0, abs=1e-6)


def test_sides_are_the_instruments_own_inside_too() -> None:
    far = Reading(id="far", kind="along", of=("plate.1",), from_=("pin.6", "pin.1"), value=66.0)
    off = Reading(id="off", kind="off", of=("plate.1",), from_=("pin.6", "pin.1"), side="left", value=4.0)
    seen = [placed(job(*board(*HOLES), far, replace(off, inside=inside))) for inside in (False, True)]
    assert seen[0]["plate.1"] == pytest.approx(seen[1]["plate.1"], abs=1e-9)


@pytest.mark.parametrize("degrees", [90, 135, 180, 225, 270])
def test_a_paper_held_inside_may_lie_any_way_round(degrees: int) -> None:
    # derived: the same paper seen turned by so much has the same points on it, 470 mm from where x and y are 0
    given = job_file.read(SAMPLE)
    spin = cmath.exp(1j * math.radians(degrees))
    turned = []
    for reading in given.readings:
        if reading.kind == "at":
            x, y = reading.parts
            seen = complex(mm(x), mm(y)) * spin
            reading = replace(reading, value=(seen.real, seen.imag))
        turned.append(reading)
    was, found = work_out(given), work_out(replace(given, readings=tuple(turned)))
    assert found.survey.verdict == "clean"
    for name, point in was.points.items():
        assert complex(found.points[name].x, found.points[name].y) == pytest.approx(complex(point.x, point.y), abs=1e-3)
