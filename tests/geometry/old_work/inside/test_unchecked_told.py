"""What is clear of holes and slot by less than a slip, on readings that nothing checks."""

import math
from pathlib import Path

import msgspec
import pytest

from app.file import job_file
from geometry import units
from geometry.findings import is_unsure
from geometry.job import Job, Reading
from geometry.layout import Consequences, Gap, OldPlan
from geometry.layout.measured import GROSS
from geometry.layout.old_plan import BraceLine, Metal
from geometry.old_work.inside.unchecked_told import LITTLE, findings
from geometry.work_out import work_out

SAMPLES = Path(__file__).parents[4] / "sample_jobs"
METAL = Metal(name="metal.1", at=(600.0, 30.0), keep_out=6.0)
OLD = OldPlan(metal=(METAL,), braces=(BraceLine(name="main", line=((0.0, 0.0), (9.0, 0.0)), width=8.0),))
ONE = job_file.read(SAMPLES / "small-four.job.json")


def told(*gaps: tuple[str, str, float], unseen: tuple[str, ...] = ("r25",)) -> list[str]:
    """What is said of gaps, new, old and mm, each ±0.5 mm; all on the same readings."""
    whole = tuple(Gap(new=n, old=o, mm=far, pm95=0.5, new_xy=(0.0, 0.0), old_xy=(0.0, 0.0)) for n, o, far in gaps)
    found = Consequences(gaps=whole, unseen={old: unseen for _, old, _ in gaps} if unseen else {})
    return [one.text for one in findings(ONE, OLD, found)]


@pytest.mark.parametrize(
    ("far", "says"),
    # derived: the ± and 6 mm to be kept clear leave 0 at 6.5 mm, and a gross error of 3 mm at 9.5 mm
    [(6.4, False), (6.5, True), (9.4, True), (9.5, False)],
)
@pytest.mark.parametrize("new", ["pin:1", "slot"])
def test_metal_that_a_slip_would_bring_too_near(far: float, says: bool, new: str) -> None:
    found = told((new, "metal:metal.1", far))
    assert bool(found) == says
    assert all("a magnet" in text and "3.0 mm or more" in text for text in found)


@pytest.mark.parametrize(("far", "says"), [(0.4, False), (0.5, True), (3.4, True), (3.5, False)])
@pytest.mark.parametrize("old", ["brace:main", "plate"])
def test_a_pin_hole_that_a_slip_would_bring_to_what_lies_inside(old: str, far: float, says: bool) -> None:
    found = told(("pin:1", old, far))
    assert bool(found) == says
    assert all("a mirror" in text for text in found)
    assert not told(("slot", old, far))


def test_what_is_checked_is_not_told() -> None:
    assert told(("pin:1", "metal:metal.1", 8.0))
    assert not told(("pin:1", "metal:metal.1", 8.0), unseen=())


def of_metal(job: Job) -> list[str]:
    return [one.text for one in work_out(job).findings if one.code == "old.unchecked"]


def test_a_second_reading_along_the_other_edge_settles_it() -> None:
    (text,) = of_metal(ONE)
    assert "Nothing checks how far along the neck metal 1 lies: “metal 1, its middle, along treble edge”" in text
    layout = work_out(ONE)
    assert [is_unsure(one) for one in layout.findings if one.code == "old.unchecked"] == [True]
    (reading,) = [one for one in ONE.readings if one.of == ("metal.1",) and one.kind == "along"]
    at, nut, end = (complex(layout.points[n].x, layout.points[n].y) for n in ("metal.1", "nut.right", "end.right"))
    way = (end - nut) / abs(end - nut)
    # derived: how far along the other edge it lies where it was placed
    second = msgspec.structs.replace(
        reading,
        id="second",
        from_=("nut.right", "end.right"),
        laid=None,
        value=round(((at - nut) * way.conjugate()).real, 1),
    )
    assert reading.from_ == ("nut.left", "end.left")
    assert of_metal(msgspec.structs.replace(ONE, readings=(*ONE.readings, second))) == []


def test_a_slip_is_told_of_no_hole_that_it_hardly_moves() -> None:
    """derived: each reading that is named of a hole is read again 3 mm farther off; a check on metal that was read to
    a hole beside it hangs the two together, but that hole no more on the metal's place along the board
    """
    metal, hole = "metal.1", "pin.1"
    job = job_file.read(SAMPLES / "bolted-left.job.json")
    along = next(one.id for one in job.readings if one.of == (metal,) and one.kind == "along")
    job = with_more(job, along, -8.0)  # no longer straight across from the hole
    at = work_out(job).points
    far = math.dist((at[metal].x, at[metal].y), (at[hole].x, at[hole].y))
    between = Reading(id="between", kind="distance", of=(metal, hole), value=round(far, 1))
    job = msgspec.structs.replace(job, readings=(*job.readings, between))
    layout = work_out(job)
    assert layout.consequences is not None
    unseen = layout.consequences.unseen
    assert along in unseen[f"metal:{metal}"]
    for name in ("pin.6", hole):
        told = unseen.get(f"point:{name}", ())
        assert along not in told
        for slipped in {along, *told}:
            moved = work_out(with_more(job, slipped, GROSS)).points[name]
            off = math.dist((moved.x, moved.y), (layout.points[name].x, layout.points[name].y))
            assert (off > LITTLE) is (slipped in told)


def with_more(job: Job, name: str, mm: float) -> Job:
    """The job with one reading so much longer."""
    readings = tuple(
        msgspec.structs.replace(one, value=units.mm(one.parts[0]) + mm) if one.id == name else one
        for one in job.readings
    )
    return msgspec.structs.replace(job, readings=readings)
