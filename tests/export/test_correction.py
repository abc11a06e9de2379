"""The printer's own error: from what a rule reads on the check sheet to a page that is true, however it is turned."""

import math
from pathlib import Path as File

import msgspec
import pytest

from export.correction import NONE, CheckSheet, Correction
from export.errors import ExportError
from export.paper import pdf
from export.paper_sizes import Paper, paper_named
from export.records import Stamp
from export.templates import sheets
from export.templates.written import check_sheet
from geometry.job import Job
from geometry.layout import Layout
from tests.export.worn_printer import WORN, WornPrinter, lines_over, read_check_sheet

A3 = paper_named("A3")
A3_WIDE = Paper(A3.name, A3.height, A3.width)


def test_what_a_rule_reads_is_turned_into_factors() -> None:
    # derived: 180 / 179.2 and 180 / 180.5
    found = CheckSheet(across=179.2, up=180.5).correction()
    assert (found.short, found.long, found.skew) == pytest.approx((1.004464, 0.997230, 0.0), abs=1e-6)


def test_the_inner_square_serves_as_well() -> None:
    # derived: 152.4 mm are 6 in; the same printer reads 152.4 · 179.2 / 180 there
    inner = CheckSheet(across=152.4 * 179.2 / 180, up=152.4 * 180.5 / 180)
    found, outer = inner.correction(), CheckSheet(across=179.2, up=180.5).correction()
    assert (found.short, found.long) == pytest.approx((outer.short, outer.long), abs=1e-9)


def test_diagonals_that_differ_are_a_skew() -> None:
    # derived: a printer that moves the top edge of a true square 0.9 mm to the right
    rising, falling = math.hypot(180.9, 180), math.hypot(179.1, 180)
    up = math.hypot(0.9, 180)
    found = CheckSheet(across=180.0, up=up, rising=rising, falling=falling).correction()
    assert (found.short, found.long, found.skew) == pytest.approx((1.0, 1.0, 0.005), abs=1e-9)


def test_one_diagonal_is_enough() -> None:
    rising, falling = math.hypot(180.9, 180), math.hypot(179.1, 180)
    by_one = CheckSheet(across=180.0, up=math.hypot(0.9, 180), rising=rising).correction()
    by_other = CheckSheet(across=180.0, up=math.hypot(0.9, 180), falling=falling).correction()
    assert by_one.skew == pytest.approx(by_other.skew, abs=1e-9) == pytest.approx(0.005, abs=1e-9)


@pytest.mark.parametrize("wrong", ["across", "up", "rising", "falling"])
def test_one_misread_of_four_is_found(wrong: str) -> None:
    read = {"across": 179.2, "up": 180.5, "rising": 254.5, "falling": 254.2}
    CheckSheet(**read).correction()
    with pytest.raises(
        ExportError, match=r"too (long|short) for a square with these sides: one of the four is misread"
    ):
        CheckSheet(**{**read, wrong: read[wrong] + 2.0}).correction()


@pytest.mark.parametrize("apart", [-0.62, -0.58, 0.58, 0.62])
def test_how_far_the_four_may_be_apart(apart: float) -> None:
    diagonal = 180 * math.sqrt(2) + apart
    sheet = CheckSheet(across=180.0, up=180.0, rising=diagonal, falling=diagonal)
    if abs(apart) < 0.6:
        assert sheet.correction().skew == pytest.approx(0.0)
    else:
        with pytest.raises(ExportError, match="one of the four is misread"):
            sheet.correction()


@pytest.mark.parametrize(("where", "read"), [("across", 176.3), ("up", 183.7), ("rising", 249.0), ("across", 0.0)])
def test_a_line_that_is_none_of_the_sheets(where: str, read: float) -> None:
    with pytest.raises(ExportError, match=r"is neither near .* \(the outer square\) nor near .* was that line read"):
        CheckSheet(**{where: read}).correction()


@pytest.mark.parametrize("wide", [False, True])
def test_a_printed_page_comes_out_true(wide: bool) -> None:
    worn = WornPrinter(short=0.9956, long=1.0028, skew=0.0021)
    back = Correction(short=1 / 0.9956, long=1 / 1.0028, skew=0.0021 / (0.9956 * 1.0028)).matrix(wide)
    for x, y in ((100.0, 0.0), (0.0, 100.0), (70.0, -130.0)):
        page = (back[0][0] * x + back[0][1] * y, back[1][0] * x + back[1][1] * y)
        assert worn.moved(page, wide) == pytest.approx((x, y), abs=1e-9)


@pytest.mark.parametrize("paper", [A3, A3_WIDE], ids=["portrait", "landscape"])
@pytest.mark.parametrize("worn", WORN)
def test_measured_typed_and_printed_again_all_is_true(
    worn: WornPrinter, paper: Paper, tmp_path: File, stamp: Stamp
) -> None:
    """The whole loop: 0.1 mm over 300 mm, though the rule on the check sheet is read to a tenth."""
    read = read_check_sheet(worn, stamp, tmp_path)
    page = lines_over(paper)
    off = {}
    for name, carried in (("as it is", NONE), ("corrected", read.correction())):
        file = tmp_path / f"{name}.pdf"
        file.write_bytes(pdf.data([msgspec.structs.replace(page, correction=carried)]))
        off[name] = worn.errors(file, page)
    assert max(map(abs, off["as it is"])) > 0.3
    assert max(abs(error) for error in off["corrected"]) < 0.1


def test_the_other_sides_factors_would_show(tmp_path: File, stamp: Stamp) -> None:
    worn = WORN[0]
    found = read_check_sheet(worn, stamp, tmp_path).correction()
    swapped = Correction(short=found.long, long=found.short, skew=found.skew)
    page = msgspec.structs.replace(lines_over(A3_WIDE), correction=swapped)
    (tmp_path / "a.pdf").write_bytes(pdf.data([page]))
    assert max(map(abs, worn.errors(tmp_path / "a.pdf", page))) > 1.0


def test_the_check_sheet_is_never_corrected(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, correction=Correction(1.004, 0.997, 0.001), templates=("check-sheet",))
    (page,) = sheets(job, layout, asked)
    assert page.correction == NONE


def test_the_check_sheet_has_blanks_for_all_four(job: Job, layout: Layout, stamp: Stamp) -> None:
    (page,) = check_sheet.pages(job, layout, stamp)
    said = " ".join(mark.shape.text for mark in page.drawing.marks if hasattr(mark.shape, "text"))
    for blank in ("reads across:", "reads up:", "rising, to the upper right:", "falling, to the lower right:"):
        assert f"{blank}  ____________" in said


def test_every_other_sheet_carries_the_printer_and_its_factors(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, printer="Laser", correction=Correction(1.0045, 0.9972, -0.002))
    for page in sheets(job, layout, asked):
        assert page.correction == asked.correction
        said = " ".join(mark.shape.text for mark in page.drawing.marks if hasattr(mark.shape, "text"))
        assert "printer “Laser”: short side × 1.0045, long side × 0.9972, skew × −0.0020" in said


@pytest.mark.parametrize(("wide", "high", "fits"), [(196, 258, True), (195, 258, False), (196, 257, False)])
def test_how_large_the_check_sheets_paper_must_be(
    job: Job, layout: Layout, stamp: Stamp, wide: int, high: int, fits: bool
) -> None:
    """derived: its squares are 180 mm wide, 62 mm are kept for what is said below, and 8 mm on each side are margin."""
    asked = msgspec.structs.replace(stamp, paper=f"{wide}x{high}")
    if fits:
        assert check_sheet.pages(job, layout, asked)
    else:
        with pytest.raises(ExportError, match="too small"):
            check_sheet.pages(job, layout, asked)
