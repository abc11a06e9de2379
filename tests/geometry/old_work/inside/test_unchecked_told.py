"""What is clear of holes and slot by less than a slip, on readings that nothing checks."""

from pathlib import Path

import msgspec
import pytest

from app.file import job_file
from geometry.findings import is_unsure
from geometry.job import Job
from geometry.layout import Consequences, Gap, OldPlan
from geometry.layout.old_plan import BraceLine, Metal
from geometry.old_work.inside.unchecked_told import findings
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
    assert "“metal 1, its middle, along treble edge” could be out" in text
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
