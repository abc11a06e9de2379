"""Every point of the layout is found in the files, by readers that did not write them, within 0.001 mm."""

import math
from pathlib import Path as File

import msgspec
import pytest

from export import write_all
from export.drawing.marks import XY, Circle, Path
from export.machine.machine_file import MachineDrawing, MachineSettings, machine_drawing
from export.paper.lay_sheets import Figure
from export.records import Stamp
from export.templates import TEMPLATES, sheets
from export.templates.to_be_read_first import warnings_of
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers

NEAR = 0.001
"""What is asked of every coordinate, mm."""


def placed(layout: Layout) -> list[XY]:
    """What the placement template must show: bridge, slot, pins' easternmost points, board end, old footprint."""
    assert layout.bridge is not None
    assert layout.saddle is not None
    assert layout.neck is not None
    assert layout.neck.end is not None
    pins = [(pin.at[0] + pin.diameter / 2, pin.at[1]) for pin in layout.bridge.pins]
    outline = [(x, y) for x, y, _ in layout.bridge.outline]
    return [*outline, *layout.saddle.slot, *pins, *layout.neck.end, *layout.old.outline]


def figure(job: Job, layout: Layout, stamp: Stamp) -> Figure:
    draw = TEMPLATES["placement"].draw
    assert draw is not None
    return draw(job, layout, stamp)


def cut(job: Job, layout: Layout, stamp: Stamp) -> MachineDrawing:
    return machine_drawing(figure(job, layout, stamp), layout, MachineSettings(), job.title, warnings_of(job, layout))


def worst(points: list[XY], wanted: list[XY]) -> float:
    return max(readers.nearest(points, at) for at in wanted)


def test_pdf_by_pdfium(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamp, tmp_path, ("pdf",))
    transform = sheets(job, layout, stamp)[0].transform
    assert transform is not None
    points = readers.all_points(readers.pdf_items(file))
    assert worst(points, [transform.xy(at) for at in placed(layout)]) < NEAR


def test_pdf_by_pdfminer(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamp, tmp_path, ("pdf",))
    transform = sheets(job, layout, stamp)[0].transform
    assert transform is not None
    assert worst(readers.pdf_points(file), [transform.xy(at) for at in placed(layout)]) < NEAR


def test_dxf_by_gdal(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamp, tmp_path, ("dxf",))
    transform = cut(job, layout, stamp).transform
    points = readers.all_points(readers.dxf_items(file))
    assert worst(points, [transform.xy(at) for at in placed(layout)]) < NEAR


def test_svg_by_svgelements(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamp, tmp_path, ("svg",))
    transform = cut(job, layout, stamp).transform
    points = readers.all_points(readers.svg_items(file))
    assert worst(points, [transform.xy(at) for at in placed(layout)]) < NEAR


@pytest.mark.parametrize("kind", ["pdf", "dxf", "svg"])
def test_the_comparison_can_fail(job: Job, layout: Layout, stamp: Stamp, tmp_path: File, kind: str) -> None:
    """A pin drawn 0.01 mm from where it belongs is seen by each reader."""
    assert layout.bridge is not None
    pin = layout.bridge.pins[2]
    off = msgspec.structs.replace(pin, at=(pin.at[0], pin.at[1] + 0.01))
    pins = (*layout.bridge.pins[:2], off, *layout.bridge.pins[3:])
    wrong = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=pins))
    (file,) = write_all(job, wrong, stamp, tmp_path, (kind,))
    transform = sheets(job, layout, stamp)[0].transform if kind == "pdf" else cut(job, layout, stamp).transform
    assert transform is not None
    read = {"pdf": readers.pdf_items, "dxf": readers.dxf_items, "svg": readers.svg_items}[kind]
    distance = worst(readers.all_points(read(file)), [transform.xy(at) for at in placed(layout)])
    assert distance == pytest.approx(0.01, abs=0.001)


def test_pin_holes_are_true_circles_in_dxf(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    machine = MachineSettings(edge=None, pin_holes="finished")  # for a machine that works on the instrument itself
    (file,) = write_all(job, layout, stamp, tmp_path, ("dxf",), machine=machine)
    transform = machine_drawing(
        figure(job, layout, stamp), layout, machine, job.title, warnings_of(job, layout)
    ).transform
    circles = [codes for name, codes in readers.dxf_entities(file) if name == "CIRCLE" and codes[8] == "DRILL"]
    centres = [(float(codes[10]), float(codes[20]), float(codes[40])) for codes in circles]
    assert layout.bridge is not None
    for pin in layout.bridge.pins:
        x, y = transform.xy(pin.at)
        assert min(math.dist((x, y, pin.diameter / 2), found) for found in centres) < NEAR


def test_a_template_has_pilot_holes_in_their_middles(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamp, tmp_path, ("dxf",), machine=MachineSettings(pilot=1.5))
    transform = cut(job, layout, stamp).transform
    found = {
        layer: [
            (float(codes[10]), float(codes[20]), float(codes[40]))
            for name, codes in readers.dxf_entities(file)
            if name == "CIRCLE" and codes[8] == layer
        ]
        for layer in ("DRILL", "MARK")
    }
    assert layout.bridge is not None
    assert len(found["DRILL"]) == len(found["MARK"]) == len(layout.bridge.pins)
    for pin in layout.bridge.pins:
        x, y = transform.xy(pin.at)
        for layer, radius in (("DRILL", 0.75), ("MARK", pin.diameter / 2)):
            assert min(math.dist((x, y, radius), circle) for circle in found[layer]) < NEAR


def test_a_drawing_holds_the_layouts_own_numbers(job: Job, layout: Layout, stamp: Stamp) -> None:
    marks = figure(job, layout, stamp).marks
    assert layout.bridge is not None
    assert [m.shape for m in marks if m.of == "bridge"] == [Path(layout.bridge.outline, closed=True)]
    holes = [m.shape for m in marks if m.purpose == "drill"]
    assert holes == [Circle(pin.at, pin.diameter / 2) for pin in layout.bridge.pins]
