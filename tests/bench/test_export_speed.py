"""How long drawing and writing take. Nothing here passes or fails by time: the figures are for reading.

Run with `pytest tests/bench --benchmark-enable`. The bare libraries write the same marks beside ours, fonts registered.
"""

import io
import math
from pathlib import Path as File
from typing import Any

import msgspec
import pytest
from ezdxf.filemanagement import new
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from export import write_all
from export.drawing import typeface
from export.drawing.flatten import Box
from export.drawing.marks import Circle, Line, Path, Text
from export.machine import dxf
from export.machine.machine_file import MachineSettings, machine_drawing
from export.paper import pdf
from export.plan import PlanView, compose
from export.templates import TEMPLATES, sheets
from export.templates.glued.placement import draw
from geometry.job import Job
from geometry.layout import Layout
from tests.export.conftest import OF_OTHER_BRIDGES
from tests.export.conftest import job as a_job
from tests.export.conftest import layout as a_layout
from tests.export.conftest import stamp as a_stamp

POINT = 72 / 25.4


@pytest.fixture
def job() -> Job:
    return a_job()


@pytest.fixture
def layout() -> Layout:
    return a_layout()


@pytest.mark.parametrize(("scale", "window"), [(0.27, None), (1.5, Box(590.0, -90.0, 710.0, 90.0))])
def test_compose(benchmark: Any, job: Job, layout: Layout, scale: float, window: Box | None) -> None:
    view = PlanView(scale=scale, window=window)
    assert benchmark(compose, job, layout, view).marks


UNLIKE = (*OF_OTHER_BRIDGES, "tie-block", "headstock-sides")
"""Templates of what the instrument here has not."""


def test_all_templates_to_all_files(benchmark: Any, job: Job, layout: Layout, tmp_path: File) -> None:
    stamp = msgspec.structs.replace(a_stamp(), templates=tuple(name for name in TEMPLATES if name not in UNLIKE))
    assert len(benchmark(write_all, job, layout, stamp, tmp_path)) == 42


def test_tiling_search(benchmark: Any, job: Job, layout: Layout) -> None:
    stamp = msgspec.structs.replace(a_stamp(), templates=("full-length",))
    assert len(benchmark(sheets, job, layout, stamp)) == 4


def test_placement_pdf(benchmark: Any, job: Job, layout: Layout) -> None:
    pages = sheets(job, layout, a_stamp())
    benchmark(pdf.data, pages)


def test_placement_pdf_by_bare_reportlab(benchmark: Any, job: Job, layout: Layout) -> None:
    (page,) = sheets(job, layout, a_stamp())
    for bold, name in ((False, "Plain"), (True, "Bold")):
        pdfmetrics.registerFont(TTFont(name, str(typeface.face(bold).path)))

    def bare() -> None:
        canvas = Canvas(io.BytesIO(), pagesize=(297 * POINT, 210 * POINT))
        canvas.scale(POINT, POINT)
        for mark in page.drawing.marks:
            shape = mark.shape
            if isinstance(shape, Line):
                canvas.setLineWidth(0.18)
                canvas.line(*shape.a, *shape.b)
            elif isinstance(shape, Circle):
                canvas.circle(*shape.centre, shape.radius)
            elif isinstance(shape, Path):
                path = canvas.beginPath()
                path.moveTo(*shape.vertices[0][:2])
                for x, y, _ in shape.vertices[1:]:
                    path.lineTo(x, y)
                canvas.drawPath(path)
            elif isinstance(shape, Text):
                canvas.setFont("Bold" if shape.bold else "Plain", shape.height / 0.66)
                canvas.saveState()
                canvas.translate(*shape.at)
                canvas.rotate(math.degrees(shape.angle))
                canvas.drawString(0, 0, shape.text)
                canvas.restoreState()
        canvas.showPage()
        canvas.save()

    benchmark(bare)


def test_placement_dxf(benchmark: Any, job: Job, layout: Layout, tmp_path: File) -> None:
    cut = machine_drawing(draw(job, layout, a_stamp()), layout, MachineSettings(), "")
    benchmark(lambda: (tmp_path / "placement.dxf").write_bytes(dxf.data(cut, MachineSettings())))


def test_placement_dxf_by_bare_ezdxf(benchmark: Any, job: Job, layout: Layout, tmp_path: File) -> None:
    cut = machine_drawing(draw(job, layout, a_stamp()), layout, MachineSettings(), "")

    def bare() -> None:
        document = new("R2010")
        space = document.modelspace()
        for mark in cut.marks:
            shape = mark.shape
            if isinstance(shape, Line):
                space.add_line(shape.a, shape.b)
            elif isinstance(shape, Circle):
                space.add_circle(shape.centre, shape.radius)
            elif isinstance(shape, Path):
                space.add_lwpolyline(shape.vertices, "xyb", close=shape.closed)
            elif isinstance(shape, Text):
                space.add_text(shape.text, height=shape.height).set_placement(shape.at)
        document.saveas(tmp_path / "bare.dxf")

    benchmark(bare)
