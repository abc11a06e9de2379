"""Printing: true to size, corrected about the page's middle, in black; read back from a PDF of Qt's."""

import datetime
import math
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import msgspec
import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPageLayout, QPainter
from PySide6.QtPrintSupport import QPrinter

from app.desk.output.print_pages import paint_sheet, print_pages, to_device
from export.correction import NONE, Correction
from export.drawing import typeface
from export.drawing.flatten import polyline
from export.drawing.marks import Circle, Drawing, Line, Mark, Purpose, Text
from export.drawing.pens import dashes_of
from export.paper_sizes import Paper, paper_named
from export.records import Sheet, Stamp
from export.templates import sheets
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export import readers
from tests.export.worn_printer import WORN, WornPrinter, lines_over, read_check_sheet

POINT = 25.4 / 72
"""mm; 1 pt = 1/72 in (PostScript Language Reference, 3rd ed., 4.3)."""


def page(correction: Correction = NONE) -> Sheet:
    """An A4 page with a line of 100 mm across and one of 100 mm up, both through its middle, and a word."""
    marks = (
        Mark(shape=Line((55.0, 148.5), (155.0, 148.5)), purpose="cut"),
        Mark(shape=Line((105.0, 98.5), (105.0, 198.5)), purpose="cut"),
        Mark(shape=Circle((25.0, 25.0), 4.0), purpose="cut", filled=True),
        Mark(shape=Text((30.0, 250.0), "BASS", 5.0), purpose="note"),
    )
    drawing = Drawing(title="", marks=marks)
    return Sheet(name="a", template="a", drawing=drawing, paper=paper_named("A4"), margin=8.0, correction=correction)


def printed(tmp_path: Path, *pages: Sheet) -> Any:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    path = tmp_path / "out.pdf"
    printer.setOutputFileName(str(path))
    assert print_pages(printer, pages)
    return pdfplumber.open(path)


def spans(pdf: Any) -> tuple[float, float]:
    """The length of the line across and the line up, mm."""
    lines = [line for line in pdf.pages[0].lines if line["width"] > 100 or line["height"] > 100]
    across = max(line["width"] for line in lines) * POINT
    up = max(line["height"] for line in lines) * POINT
    return across, up


def test_a_page_is_a_page_and_100_mm_are_100_mm(tmp_path: Path) -> None:
    with printed(tmp_path, page()) as pdf:
        assert float(pdf.pages[0].width) * POINT == pytest.approx(210, abs=0.2)  # ISO 216: A4
        assert float(pdf.pages[0].height) * POINT == pytest.approx(297, abs=0.2)
        assert spans(pdf) == pytest.approx((100.0, 100.0), abs=0.02)


def test_the_printers_correction_comes_out_as_such(tmp_path: Path) -> None:
    with printed(tmp_path, page(Correction(0.994, 1.003))) as pdf:
        assert spans(pdf) == pytest.approx((99.4, 100.3), abs=0.02)


def test_a_wrong_correction_would_show(tmp_path: Path) -> None:
    with printed(tmp_path, page(Correction(1.001, 1.0))) as pdf:
        assert spans(pdf) != pytest.approx((100.0, 100.0), abs=0.02)


def test_the_middle_of_the_page_stays_where_it_is() -> None:
    for correction in (NONE, Correction(0.994, 1.003, 0.004)):
        at = to_device(page(correction), 10.0).map(105.0, 148.5)
        assert at == pytest.approx((1050.0, 1485.0))


def ink(pdf: Any, region: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    """The box round all that is black in a region of the first page, mm from its upper left corner."""
    grey = pdf.pages[0].to_image(resolution=600).original.convert("L").point(lambda light: 255 * (light < 128))
    inch = [mm / 25.4 * 600 for mm in region]
    found = grey.crop([round(at) for at in inch]).getbbox()
    return tuple(at / 600 * 25.4 + region[k % 2] for k, at in enumerate(found))


def test_words_are_where_and_as_high_as_they_should_be(tmp_path: Path) -> None:
    """The letters are 5 mm high (capitals), their line 250 mm above the lower edge of 297."""
    with printed(tmp_path, page()) as pdf:
        left, top, right, low = ink(pdf, (20.0, 30.0, 100.0, 60.0))
    assert (top, low) == pytest.approx((42.0, 47.0), abs=0.15)  # round letters reach a little beyond
    wide = typeface.width("BASS", 5.0, False)
    assert (left, right) == pytest.approx((30.0, 30.0 + wide), abs=0.8)  # what stands free beside a letter


def test_words_are_painted_as_outlines_where_no_pdf_is_written() -> None:
    """On a picture the letters stand as in the PDF: the first is a B, whose stem is black from top to bottom."""
    light = painted(Mark(shape=Text((10.0, 20.0), "BASS", 10.0, bold=True), purpose="note"))
    assert max(light(11.8, 20.3 + 0.1 * k) for k in range(94)) < 60
    assert light(11.8, 19.5) == light(11.8, 30.8) == 255


def test_a_printed_file_has_words_to_look_for_and_is_small(tmp_path: Path) -> None:
    """Painted as outlines, the letters of a placement template made a page of 670 kB, as words 29 kB (measured)."""
    job = sample("redrilled-left")
    stamp = Stamp(date=datetime.date(2026, 11, 25), fingerprint="0000-00", templates=("headstock",))
    with printed(tmp_path, *sheets(job, work_out(job), stamp)) as pdf:
        assert "SEEN FROM THE FACE" in pdf.pages[0].extract_text()
        assert {char["fontname"].rpartition("+")[2].split("-")[0] for char in pdf.pages[0].chars} == {"SourceSansPro"}
    assert (tmp_path / "out.pdf").stat().st_size < 100_000


def test_all_is_black(tmp_path: Path) -> None:
    with printed(tmp_path, page()) as pdf:
        colours = {str(o["stroking_color"]) for o in pdf.pages[0].lines}
        assert colours <= {"(0.0, 0.0, 0.0)", "(0, 0, 0)", "(0.0,)", "(0,)"}


DOTS = 10
"""To a mm, of the pictures below."""


def painted(*marks: Mark) -> Callable[[float, float], int]:
    """How light a place of a page of 60 by 40 mm is, paper mm from its lower left corner: 0 black, 255 white."""
    drawing, small = Drawing(title="", marks=marks), Paper("small", 60.0, 40.0)
    sheet = Sheet(name="a", template="a", drawing=drawing, paper=small, margin=0.0, correction=NONE)
    image = QImage(60 * DOTS, 40 * DOTS, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint_sheet(painter, sheet, DOTS)
    painter.end()
    return lambda x, y: image.pixelColor(round(x * DOTS), round((40.0 - y) * DOTS)).lightness()


def test_a_ground_is_white_covers_what_lies_under_it_and_has_an_outline() -> None:
    ring = polyline([(20.0, 10.0), (40.0, 10.0), (40.0, 30.0), (20.0, 30.0)], closed=True)
    light = painted(
        Mark(shape=Line((5.0, 20.0), (55.0, 20.0)), purpose="cut"),
        Mark(shape=ring, purpose="cut", of="bridge", filled=True),
        Mark(shape=Circle((50.0, 30.0), 4.0), purpose="cut", filled=True),
    )
    assert light(10.0, 20.0) < 20
    assert light(30.0, 20.0) == 255
    assert light(20.0, 15.0) < 20
    assert light(50.0, 30.0) == 0, "what is no ground is solid"


def test_words_under_a_ground_are_covered_as_in_the_pdf() -> None:
    ring = polyline([(20.0, 10.0), (40.0, 10.0), (40.0, 30.0), (20.0, 30.0)], closed=True)
    word = Mark(shape=Text((30.0, 20.0), "HHH", 6.0, 0.0, "mm", True), purpose="note")
    covered = painted(word, Mark(shape=ring, purpose="cut", of="bridge", filled=True))
    over = painted(Mark(shape=ring, purpose="cut", of="bridge", filled=True), word)
    row = [25.0 + 0.1 * k for k in range(100)]
    assert min(covered(x, 20.0) for x in row) == 255
    assert min(over(x, 20.0) for x in row) == 0


@pytest.mark.parametrize("purpose", ["hidden", "centre", "before"])
@pytest.mark.parametrize("length", [31.0, 40.7, 47.3])
def test_a_dashed_line_begins_and_ends_in_a_dash_as_in_the_pdf(purpose: Purpose, length: float) -> None:
    """ISO 128-2: dashes are fitted to their line."""
    mark = Mark(shape=Line((5.0, 20.0), (5.0 + length, 20.0)), purpose=purpose, weight=3.0)
    light = painted(mark)
    assert light(5.4, 20.0) < 60
    assert light(5.0 + length - 0.4, 20.0) < 60
    run = dashes_of(mark)
    assert light(5.0 + run[0] + run[1] / 2, 20.0) == 255


def test_each_sheet_has_its_own_page_and_turn(tmp_path: Path) -> None:
    wide = msgspec.structs.replace(page(), paper=msgspec.structs.replace(paper_named("A4"), width=297.0, height=210.0))
    with printed(tmp_path, page(), wide) as pdf:
        assert [p.width > p.height for p in pdf.pages] == [False, True]


def test_a_real_template_is_printed(tmp_path: Path) -> None:
    job = sample("leaning-neck")
    stamp = Stamp(date=datetime.date(2025, 1, 2), fingerprint="0000-00")
    made = sheets(job, work_out(job), stamp)
    with printed(tmp_path, *made) as pdf:
        assert len(pdf.pages) == len(made)
        assert len(pdf.pages[0].lines) > 50


def test_a_page_has_no_margins_of_qt_s_own() -> None:
    from app.desk.output.print_pages import set_page

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    set_page(printer, page())
    assert printer.pageLayout().mode() == QPageLayout.Mode.FullPageMode


@pytest.mark.parametrize("wide", [False, True], ids=["portrait", "landscape"])
@pytest.mark.parametrize("worn", WORN)
def test_measured_typed_and_printed_again_all_is_true(worn: WornPrinter, wide: bool, tmp_path: Path) -> None:
    """The whole loop as the window prints: 0.1 mm over 300 mm, though the check sheet is read to a tenth."""
    a3 = paper_named("A3")
    page = lines_over(Paper(a3.name, a3.height, a3.width) if wide else a3)
    stamp = Stamp(date=datetime.date(2026, 1, 2), fingerprint="")
    correction = read_check_sheet(worn, stamp, tmp_path).correction()
    printed(tmp_path, msgspec.structs.replace(page, correction=correction)).close()
    found = [point for item in readers.pdf_items(tmp_path / "out.pdf") for point in item.points]
    (xx, xy), (yx, yy) = correction.matrix(wide)
    x, y = page.paper.width / 2, page.paper.height / 2
    for mark in page.drawing.marks:
        assert isinstance(mark.shape, Line)
        away = [(px - x, py - y) for px, py in (mark.shape.a, mark.shape.b)]
        meant = [(x + xx * dx + xy * dy, y + yx * dx + yy * dy) for dx, dy in away]
        start, stop = (min(found, key=partial(math.dist, at)) for at in meant)
        assert worn.ends_apart(start, stop, page) == pytest.approx(math.dist(mark.shape.a, mark.shape.b), abs=0.1)
