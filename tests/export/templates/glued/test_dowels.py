"""Where holes for locating dowels are sought in a slot."""

from typing import Any

import pytest
from msgspec.structs import replace

from app.file import job_file, samples
from export.drawing.marks import XY
from export.drills import nearest_inch
from export.templates import numbered_holes
from export.templates.glued import dowels
from export.templates.written import job_tables
from geometry.units import Length, Unit, mm
from geometry.work_out import work_out


def test_a_place_is_sought_from_near_an_end_to_four_tenths_of_the_slot(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every mm, the first 4 mm in; of the other half's dowel it keeps a fifth of the length away."""
    tried: list[XY] = []

    def occupied(_: object, at: XY, radius: float) -> bool:
        assert radius == 1.0
        tried.append(at)
        return len(tried) > 50

    nowhere: Any = None
    monkeypatch.setattr(dowels, "is_clear", occupied)
    assert dowels._first_clear(nowhere, (660.0, 30.0), (620.0, 0.0), 2.0) is None
    # derived: 50 mm along 4 to 3; the last place that is less than 20 mm in is 19
    assert tried[0] == pytest.approx((660.0 - 4 * 0.8, 30.0 - 4 * 0.6))
    assert tried[-1] == pytest.approx((660.0 - 19 * 0.8, 30.0 - 19 * 0.6))
    assert len(tried) == 16


@pytest.mark.parametrize(
    ("unit", "width", "rod"), [("in", "1/8 in", "3/32 in"), ("in", "5/64 in", "1/16 in"), ("mm", 3.0, 2.5)]
)
def test_a_dowel_is_a_rod_that_is_sold_and_its_drill_fits_it(unit: Unit, width: Length, rod: Length) -> None:
    """The same on the job sheet and on the bridge's own. derived: the widest rod of the shop that the slot takes."""
    path = next(path for path in samples.paths() if path.name == "turned-left.job.json")
    job = job_file.read(path)
    assert job.saddle is not None
    job = replace(job, unit=unit, saddle=replace(job.saddle, thickness=width))
    layout = work_out(job)
    holes = dowels.dowels(layout, unit)
    assert [hole.diameter for hole in holes] == pytest.approx([mm(rod)] * 2)
    (row,) = [row for row in job_tables.holes(job, layout) if row[0] == "Locating dowels"]
    drill = nearest_inch(mm(rod))
    assert row[4].startswith(drill.name)
    if unit == "in":
        assert row[2] == drill.name == rod
    (bored, _) = numbered_holes.plain(job, holes, "dowel")
    assert bored.drill is not None
    assert drill.name in bored.drill
