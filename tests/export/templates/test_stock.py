"""Small parts on one piece of stock, read back from its files."""

import math
from itertools import combinations
from pathlib import Path as File

import msgspec
import pytest
from shapely import Polygon, box

from export import write_all
from export.drawing.flatten import path_points
from export.drawing.marks import Path
from export.errors import ExportError
from export.records import Figure, Stamp
from export.templates import sheets, stock
from geometry.job import Job
from geometry.job.sheets import Sheets
from geometry.layout import Layout
from tests.export import readers
from tests.export.templates.glued.test_working_drawings import dxf_datum, dxf_holes, dxf_rows

ALL = ("bridge", "plate", "nut-slots")


def on(job: Job, width: object = 220.0, height: object = 130.0, **given: object) -> Job:
    asked = msgspec.structs.replace(job.sheets, stock=(width, height), **given)
    return msgspec.structs.replace(job, sheets=asked)


def drawn(job: Job, layout: Layout, stamp: Stamp, names: tuple[str, ...] = ALL) -> Figure:
    return stock.draw(job, layout, msgspec.structs.replace(stamp, templates=names))


def outlines(figure: Figure) -> dict[str, Polygon]:
    return {
        m.of: Polygon(path_points(m.shape, 0.01))
        for m in figure.marks
        if m.of in figure.kept and m.purpose == "cut" and isinstance(m.shape, Path)
    }


def test_without_stock_there_is_no_such_file(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    names = write_all(job, layout, msgspec.structs.replace(stamp, templates=("bridge",)), tmp_path)
    assert not [name for name in names if name.stem == "stock"]


def test_dxf_and_svg_hold_it_and_paper_does_not(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    written = write_all(on(job), layout, msgspec.structs.replace(stamp, templates=ALL), tmp_path)
    assert {file.name for file in written if file.stem == "stock"} == {"stock.dxf", "stock.svg"}
    assert sheets(on(job), layout, msgspec.structs.replace(stamp, templates=ALL)) == sheets(
        job, layout, msgspec.structs.replace(stamp, templates=ALL)
    )


@pytest.mark.parametrize("given", [{}, {"turning": True}, {"cutters": {"outline": 3.0}}, {"grain": "along width"}])
def test_the_parts_lie_within_the_stock_and_clear_of_each_other(
    job: Job, layout: Layout, stamp: Stamp, given: dict[str, object]
) -> None:
    parts = outlines(drawn(on(job, **given), layout, stamp))
    assert set(parts) == {"bridge", "plate", "strip"}
    gap = 8.0 if "cutters" in given else 5.0
    inner = box(gap, gap, 220.0 - gap, 130.0 - gap).buffer(1e-6)
    for part in parts.values():
        assert inner.contains(part)
    for one, other in combinations(parts.values(), 2):
        assert one.distance(other) >= gap - 1e-6


def test_the_dxf_keeps_each_part_to_its_size(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """The bridge is 152 by 35 with its belly, turned to lie along the width; the stock's corner is the datum."""
    (file,) = write_all(on(job), layout, msgspec.structs.replace(stamp, templates=("bridge",)), tmp_path, ("dxf",))[1:]
    items = readers.dxf_items(file)
    (bridge,) = [item.points for item in items if item.where == "CUT_OUTSIDE"]
    (sheet,) = [item.points for item in items if item.where == "REFERENCE"]
    at = dxf_datum(file)
    assert min(x for x, _ in sheet) == pytest.approx(at[0])
    assert min(y for _, y in sheet) == pytest.approx(at[1])
    assert max(x for x, _ in sheet) - at[0] == pytest.approx(220.0)
    assert max(x for x, _ in bridge) - min(x for x, _ in bridge) == pytest.approx(152.0, abs=1e-3)
    assert max(y for _, y in bridge) - min(y for _, y in bridge) == pytest.approx(35.0, abs=0.02)


def test_its_table_lists_each_hole_where_it_is_drilled(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """Six pins on each of bridge and plate, two dowels, four holes to turn on."""
    asked = msgspec.structs.replace(stamp, templates=ALL)
    written = write_all(on(job, turning=True), layout, asked, tmp_path, ("dxf",))
    (file,) = [file for file in written if file.stem == "stock"]
    at, drilled = dxf_datum(file), [hole for hole, _ in dxf_holes(file)]
    listed = [xy for what, xy, _ in dxf_rows(file) if "slot" not in what]
    assert len(listed) == len(drilled) == 6 + 6 + 2 + 4
    for x, y in listed:
        assert readers.nearest(drilled, (at[0] + x, at[1] + y)) < 0.0075


def test_the_holes_lie_in_a_part_as_on_its_own_file(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """All distances between a bridge's pin holes are kept, whichever way it is laid; the plate is still mirrored."""
    asked = msgspec.structs.replace(stamp, templates=("bridge", "plate"))
    files = {file.stem: file for file in write_all(on(job), layout, asked, tmp_path, ("dxf",))}
    whole = dxf_rows(files["stock"])
    for name, prefix in (("bridge", "bridge, pin"), ("plate", "plate seen from inside, pin")):
        alone = [xy for what, xy, _ in dxf_rows(files[name]) if what.startswith("pin")]
        there = [xy for what, xy, _ in whole if what.startswith(prefix)]
        assert len(there) == len(alone) == 6
        for (a, b), (c, d) in zip(combinations(alone, 2), combinations(there, 2), strict=True):
            assert math.dist(a, b) == pytest.approx(math.dist(c, d), abs=0.02)
        (a, b, *_, z), (c, d, *_, y) = alone, there
        turns = [(q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]) for p, q, r in ((a, b, z), (c, d, y))]
        assert turns[0] == pytest.approx(turns[1], abs=1.5)


@pytest.mark.parametrize(("grain", "wide"), [("along width", True), ("along height", False)])
def test_along_the_grain_and_never_turned_from_it(
    job: Job, layout: Layout, stamp: Stamp, grain: str, wide: bool
) -> None:
    for part in outlines(drawn(on(job, 220.0, 220.0, grain=grain), layout, stamp)).values():
        x0, y0, x1, y1 = part.bounds
        assert (x1 - x0 > y1 - y0) == wide


def test_without_grain_a_part_is_turned_to_fit(job: Job, layout: Layout, stamp: Stamp) -> None:
    narrow = on(job, 50.0, 170.0)
    assert outlines(drawn(narrow, layout, stamp, ("bridge",)))
    with pytest.raises(ExportError, match="too small"):
        drawn(on(job, 50.0, 170.0, grain="along width"), layout, stamp, ("bridge",))


def test_a_stock_too_small_is_said_and_the_others_are_written(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File
) -> None:
    told: list[str] = []
    asked = msgspec.structs.replace(stamp, templates=("bridge", "plate"))
    written = write_all(on(job, 100.0, 50.0), layout, asked, tmp_path, ("dxf",), left_out=told.append)
    assert {file.stem for file in written} == {"bridge", "plate"}
    assert told == [
        "The stock of 100 by 50 mm is too small for the bridge and the plate, 5 mm apart; give a "
        "larger piece, or fewer parts"
    ]


def test_a_part_that_cannot_be_drawn_is_left_out(job: Job, layout: Layout, stamp: Stamp) -> None:
    """A tied bridge has no pin holes, and so no plate; the others lie on the stock all the same."""
    assert layout.bridge is not None
    tied = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))
    assert set(outlines(drawn(on(job), tied, stamp))) == {"bridge", "strip"}
    with pytest.raises(ExportError, match="needs a bridge with pin holes"):
        drawn(on(job), tied, stamp, ("plate",))


def test_stock_for_no_part_is_refused(job: Job, layout: Layout, stamp: Stamp) -> None:
    with pytest.raises(ExportError, match="choose one of them"):
        drawn(on(job), layout, stamp, ("placement",))


@pytest.mark.parametrize(("sides", "said"), [((5, 100), "width"), ((100, 5), "height"), ((100, 4000), "height")])
def test_a_stock_no_machine_has_is_refused(sides: tuple[float, float], said: str) -> None:
    with pytest.raises(ValueError, match=f"The stock’s {said}"):
        Sheets(stock=sides)
