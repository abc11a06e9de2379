"""SVG: millimetres, groups by operation, words or outlines."""

import math
import xml.etree.ElementTree as ET
from pathlib import Path as File
from typing import Literal

import msgspec
import pytest
import svgelements

from export import write_all
from export.drawing.flatten import Box
from export.drawing.marks import Arc, Mark
from export.drawing.transform import Transform
from export.machine import svg
from export.machine.machine_file import MachineDrawing, MachineSettings
from export.records import Stamp
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers

NS = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def file(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> File:
    return write_all(job, layout, stamp, tmp_path, ("svg",))[0]


def test_one_unit_is_one_millimetre(file: File) -> None:
    root = ET.parse(file).getroot()
    wide, high = root.get("width") or "", root.get("height") or ""
    assert wide.endswith("mm")
    assert root.get("viewBox") == f"0 0 {wide[:-2]} {high[:-2]}"


def test_no_line_is_without_width(file: File) -> None:
    widths = [float(e.get("stroke-width") or 0) for e in ET.parse(file).getroot().iter() if e.get("stroke-width")]
    assert min(widths) >= 0.13


def test_groups_are_the_operations_in_the_order_of_work(file: File) -> None:
    groups = [g.get("id") for g in ET.parse(file).getroot().iter(f"{NS}g")]
    assert groups == [
        *("NOTES", "DATUM", "OLD", "METAL", "CENTRE", "REFERENCE", "DIMENSION", "WORDS", "MARK"),
        *("DRILL", "CUT_INSIDE", "CUT_OUTSIDE"),
    ]


def test_everything_lies_on_the_page(file: File) -> None:
    root = ET.parse(file).getroot()
    wide, high = (float((root.get(side) or "")[:-2]) for side in ("width", "height"))
    for x, y in readers.all_points(readers.svg_items(file)):
        assert 0.0 <= x <= wide
        assert 0.0 <= y <= high


def test_words_become_outlines(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamp, tmp_path, ("svg",), machine=MachineSettings(text="outlines"))
    root = ET.parse(file).getroot()
    assert not list(root.iter(f"{NS}text"))
    letters = next(g for g in root.iter(f"{NS}g") if g.get("id") == "WORDS")
    assert len(list(letters)) > 200


@pytest.mark.parametrize("sweep", [0.4, -0.4, 3.0, -3.0, 5.5, -5.5])
def test_arcs_go_the_right_way_round(tmp_path: File, sweep: float) -> None:
    arc = Arc((50.0, 50.0), 20.0, 0.3, sweep)
    cut = MachineDrawing(
        title="",
        marks=(Mark(shape=arc, purpose="cut"),),
        box=Box(0, 0, 100, 100),
        size=(100.0, 100.0),
        datum=(0.0, 0.0),
        transform=Transform(),
    )
    file = tmp_path / "arc.svg"
    file.write_bytes(svg.data(cut))
    found = readers.svg_arcs(file)
    (start, _, _), (_, _, end) = found[0], found[-1]
    assert start == pytest.approx((50 + 20 * math.cos(0.3), 50 + 20 * math.sin(0.3)), abs=1e-3)
    assert end == pytest.approx((50 + 20 * math.cos(0.3 + sweep), 50 + 20 * math.sin(0.3 + sweep)), abs=1e-3)
    for k, (_, middle, _) in enumerate(found):
        half = 0.3 + sweep * (k + 0.5) / len(found)
        assert middle == pytest.approx((50 + 20 * math.cos(half), 50 + 20 * math.sin(half)), abs=1e-3)


def test_bulges_become_arcs(file: File, layout: Layout) -> None:
    cut = next(g for g in ET.parse(file).getroot().iter(f"{NS}g") if g.get("id") == "MARK")
    assert layout.bridge is not None
    bulges = sum(bulge != 0 for _, _, bulge in layout.bridge.outline)
    assert bulges == 3
    assert sum((path.get("d") or "").count("A") for path in cut.iter(f"{NS}path")) == bulges


def test_names_are_escaped(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    named = msgspec.structs.replace(job, title="A & B <1>")
    (file,) = write_all(named, layout, stamp, tmp_path, ("svg",))
    assert ET.parse(file).getroot().findtext(f"{NS}title") == "A & B <1>"


def test_signs_that_xml_has_no_place_for_are_boxes(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    named = msgspec.structs.replace(job, title="bell \x07, escape \x1b[31m, no sign \ufffe \U0010ffff 山")
    (file,) = write_all(named, layout, stamp, tmp_path, ("svg",), machine=MachineSettings(text="text"))
    assert ET.parse(file).getroot().findtext(f"{NS}title") == "bell ☐, escape ☐[31m, no sign ☐ \U0010ffff 山"
    assert len(readers.svg_arcs(file)) > 0


@pytest.mark.parametrize("text", ["text", "outlines"])
@pytest.mark.parametrize("name", ["placement", "full-length", "bridge", "clearing", "plate", "nut-slots"])
def test_nothing_in_a_path_has_no_length(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, text: Literal["text", "outlines"]
) -> None:
    """A close that goes nowhere is a point on which a laser dwells and burns."""
    asked = msgspec.structs.replace(stamp, templates=(name,))
    (file,) = write_all(job, layout, asked, tmp_path, ("svg",), machine=MachineSettings(text=text))
    closes = 0
    for path in ET.parse(file).getroot().iter(f"{NS}path"):
        for step in svgelements.Path(path.get("d") or ""):
            if isinstance(step, svgelements.Move):
                continue
            closes += isinstance(step, svgelements.Close)
            assert abs(step.end - step.start) > 1e-6, path.get("d")
    assert closes > 0


def test_a_close_of_no_length_would_be_seen() -> None:
    last = list(svgelements.Path("M0 0L1 0L1 1L0 0Z"))[-1]
    assert isinstance(last, svgelements.Close)
    assert abs(last.end - last.start) == 0.0
