"""Pin holes in files for machines: as wide as their drill, the finished size where nobody cuts it."""

from pathlib import Path as File
from xml.etree import ElementTree

import msgspec
import pytest

from export import write_all
from export.machine.layers import CUTS
from export.machine.machine_file import MachineSettings, machine_settings_of
from export.machine.pin_holes import drill_size
from export.records import Stamp
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers

DRILL, FINISHED = 4.2, 5.0
"""derived: pins of 5 mm taper 1 in 20 through 15 mm, to 4.25 mm; the next metric drill below that."""


def asked(job: Job, **sheets: object) -> Job:
    return msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **sheets))


def with_small_end(job: Job, small_end: object) -> Job:
    assert job.bridge is not None
    assert job.bridge.pins is not None
    pins = msgspec.structs.replace(job.bridge.pins, small_end=small_end)
    return msgspec.structs.replace(job, bridge=msgspec.structs.replace(job.bridge, pins=pins))


def rings(file: File) -> list[tuple[str, float]]:
    """Each circle of a file as its layer and diameter, mm."""
    if file.suffix == ".dxf":
        entities = readers.dxf_entities(file)
        return [(codes[8], round(2 * float(codes[40]), 3)) for kind, codes in entities if kind == "CIRCLE"]
    groups = ElementTree.parse(file).getroot().iter("{http://www.w3.org/2000/svg}g")
    return [
        (group.get("id", ""), round(2 * float(ring.get("r", "0")), 3))
        for group in groups
        for ring in group.findall("{http://www.w3.org/2000/svg}circle")
    ]


def written(job: Job, layout: Layout, stamp: Stamp, to: File, name: str, kind: str) -> File:
    stamped = msgspec.structs.replace(stamp, templates=(name,))
    return next(f for f in write_all(job, layout, stamped, to, (kind,)) if f.stem == name)


@pytest.mark.parametrize("kind", ["dxf", "svg"])
@pytest.mark.parametrize("name", ["bridge", "plate"])
def test_nothing_that_is_cut_is_as_wide_as_a_finished_pin_hole(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, kind: str
) -> None:
    """Whoever cuts all layers to be cut and reads no word leaves the reamer its wood."""
    found = rings(written(job, layout, stamp, tmp_path, name, kind))
    cut = [size for layer, size in found if layer in CUTS]
    assert cut.count(DRILL) == 6
    assert FINISHED not in cut
    assert found.count(("DIMENSION", FINISHED)) == 6


def test_the_instrument_itself_is_drilled_undersize_too(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    found = rings(written(asked(job, edge=None), layout, stamp, tmp_path, "placement", "dxf"))
    assert [size for layer, size in found if layer == "DRILL"] == [DRILL] * 6


def test_a_template_keeps_its_pilot_holes(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    found = rings(written(job, layout, stamp, tmp_path, "placement", "dxf"))
    assert {size for layer, size in found if layer == "DRILL"} == {1.0}  # the usual pilot hole
    assert ("MARK", FINISHED) in found


def test_parts_on_stock_are_drilled_undersize(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    on_stock = asked(job, stock=(300.0, 200.0))
    write_all(on_stock, layout, msgspec.structs.replace(stamp, templates=("bridge", "plate")), tmp_path, ("dxf",))
    found = rings(tmp_path / "stock.dxf")
    assert found.count(("DRILL", DRILL)) == 12
    assert ("DRILL", FINISHED) not in found


def test_both_sizes_are_named(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    texts = readers.dxf_texts(written(job, layout, stamp, tmp_path, "bridge", "dxf"))
    note = "Pin holes are drawn undersize, 4.20 mm for 5.00: they are reamed by hand, drill them no larger."
    assert note in texts


def test_finished_holes_where_they_are_wished(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    file = written(asked(job, pin_holes="finished"), layout, stamp, tmp_path, "bridge", "dxf")
    found = rings(file)
    assert found.count(("DRILL", FINISHED)) == 6
    assert ("DIMENSION", FINISHED) not in found
    assert "Pin holes are drawn at their finished size, not to be reamed." in readers.dxf_texts(file)


def test_the_drill_follows_the_small_end_and_the_unit(job: Job) -> None:
    """derived: below 4.5 mm come 4.4 mm, and #16 of 0.177 in (4.496 mm)."""
    known = with_small_end(job, 4.5)
    assert drill_size(5.0, machine_settings_of(known)) == pytest.approx(4.4)
    inches = msgspec.structs.replace(known, unit="in")
    assert drill_size(5.0, machine_settings_of(inches)) == pytest.approx(0.177 * 25.4)
    assert drill_size(5.0, MachineSettings()) == pytest.approx(DRILL)


def test_a_cutter_for_holes_mills_the_undersize(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """derived: a cutter of 3 mm runs round a hole of 4.2 on a circle of 1.2."""
    file = written(asked(job, cutters={"holes": 3.0}), layout, stamp, tmp_path, "bridge", "dxf")
    assert rings(file).count(("DRILL", 1.2)) == 6


def test_paper_keeps_the_finished_size(job: Job, layout: Layout, stamp: Stamp) -> None:
    """There a hand pricks the middle; the table names the drill."""
    from export.templates import TEMPLATES

    draw = TEMPLATES["bridge"].draw
    assert draw is not None
    holes = [m for m in draw(job, layout, stamp).marks if m.purpose == "drill" and m.of.startswith("pin:")]
    assert len(holes) == 6
    assert all(getattr(mark.shape, "radius", 0.0) == FINISHED / 2 for mark in holes)
