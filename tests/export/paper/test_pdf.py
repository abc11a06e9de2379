"""PDF: what keeps a viewer from shrinking it, boxes, fonts, pens, margins and the printer's correction."""

import math
import re
from pathlib import Path as File

import msgspec
import pypdfium2
import pypdfium2.raw as raw
import pytest

from export import write_all
from export.correction import NONE, Correction
from export.drawing.marks import Arc, Circle, Drawing, Line, Mark, Path, Text
from export.paper import pdf
from export.paper_sizes import PAPERS, Paper
from export.records import Sheet, Stamp
from export.templates import TEMPLATES, sheets
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers
from tests.export.conftest import OF_OTHER_BRIDGES, suited


def sheet_of(*marks: Mark, correction: Correction = NONE) -> Sheet:
    return Sheet(
        name="one",
        template="one",
        drawing=Drawing(title="one", marks=marks),
        paper=PAPERS["A4"],
        margin=8.0,
        correction=correction,
    )


def written(tmp_path: File, *marks: Mark, correction: Correction = NONE) -> File:
    file = tmp_path / "one.pdf"
    file.write_bytes(pdf.data([sheet_of(*marks, correction=correction)]))
    return file


@pytest.fixture
def placement(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> File:
    return write_all(job, layout, stamp, tmp_path, ("pdf",))[0]


def test_viewers_are_asked_not_to_scale(placement: File) -> None:
    """ISO 32000-1:2008, table 150: PrintScaling, in PDF 1.6 and later."""
    document = pypdfium2.PdfDocument(placement)
    assert document.get_version() == 16
    assert not raw.FPDF_VIEWERREF_GetPrintScaling(document)
    document.close()


def test_boxes_are_the_paper(placement: File) -> None:
    document = pypdfium2.PdfDocument(placement)
    page = document[0]
    wanted = pytest.approx((0, 0, 297 * 72 / 25.4, 210 * 72 / 25.4), abs=0.001)
    assert page.get_mediabox() == wanted
    assert page.get_cropbox() == wanted
    assert page.get_rotation() == 0
    document.close()


def test_fonts_are_embedded_and_helvetica_is_not_named(placement: File) -> None:
    data = placement.read_bytes()
    assert b"Helvetica" not in data
    assert set(re.findall(rb"/BaseFont /(\S+)", data)) == {
        b"AAAAAA+SourceSansPro-Regular",
        b"AAAAAA+SourceSansPro-Semibold",
    }
    assert data.count(b"/FontFile2") == 2


def test_no_line_is_thinner_than_the_thinnest(placement: File) -> None:
    assert min(item.width for item in readers.pdf_items(placement) if item.width) >= 0.1299


@pytest.mark.parametrize("name", [name for name in TEMPLATES if name not in OF_OTHER_BRIDGES])
@pytest.mark.parametrize("paper", ["A4", "Letter", "A3", "Tabloid"])
def test_nothing_within_the_margin(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, paper: str
) -> None:
    asked = msgspec.structs.replace(stamp, templates=(name,), paper=paper)
    (file,) = write_all(*suited(name, job, layout), asked, tmp_path, ("pdf",))
    document = pypdfium2.PdfDocument(file)
    for page in (document[k] for k in range(len(document))):
        ink = page.render(scale=100 / 72, grayscale=True).to_numpy() < 250
        edge = int(7.9 / 25.4 * 100)
        assert ink[edge:-edge, edge:-edge].any()
        assert not ink[:edge].any()
        assert not ink[-edge:].any()
        assert not ink[:, :edge].any()
        assert not ink[:, -edge:].any()
    document.close()


def test_the_same_pages_give_the_same_bytes(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    first = write_all(job, layout, stamp, tmp_path / "a", ("pdf",))[0].read_bytes()
    assert write_all(job, layout, stamp, tmp_path / "b", ("pdf",))[0].read_bytes() == first


@pytest.mark.parametrize("shape", [Circle((100.0, 100.0), 60.0), Arc((-880.0, 100.0), 1000.0, -0.08, 0.16)])
def test_large_circles_keep_to_their_radius(tmp_path: File, shape: Circle | Arc) -> None:
    """Arcs are cut into curves of 30 degrees at most: of 1 m radius their points keep to 0.0005 mm."""
    (item,) = readers.pdf_items(written(tmp_path, Mark(shape=shape, purpose="cut")))
    off = [abs(math.dist(point, shape.centre) - shape.radius) for point in item.points]
    assert max(off) < 0.0005
    assert len(item.points) >= (13 if isinstance(shape, Circle) else 2)


@pytest.mark.parametrize("sweep", [math.tau, 0.5, -2.0])
def test_curves_keep_to_their_circle_between_their_ends(tmp_path: File, sweep: float) -> None:
    """derived: a cubic curve of 30 degrees leaves its circle by 3.7e-7 of the radius: 0.00004 mm of 100; the file holds
    six decimals of a point and pdfium singles.
    """
    arc = Arc((105.0, 150.0), 100.0, 0.2, sweep)
    curves = readers.pdf_curves(written(tmp_path, Mark(shape=arc, purpose="cut")))
    assert len(curves) == math.ceil(abs(sweep) / (math.pi / 6) - 1e-9)
    for ends in curves:
        for k in range(11):
            t = k / 10
            shares = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t**3)
            at = tuple(sum(s * p[i] for s, p in zip(shares, ends, strict=True)) for i in (0, 1))
            assert math.dist(at, arc.centre) == pytest.approx(100.0, abs=0.0003)


@pytest.mark.parametrize(("across", "up"), [(0.994, 1.003), (1.0, 1.0), (1.003, 0.994)])
def test_the_correction_comes_out_as_such(tmp_path: File, across: float, up: float) -> None:
    square = Path(((50.0, 50.0, 0.0), (150.0, 50.0, 0.0), (150.0, 250.0, 0.0), (50.0, 250.0, 0.0)), closed=True)
    (item,) = readers.pdf_items(
        written(tmp_path, Mark(shape=square, purpose="register"), correction=Correction(across, up))
    )
    (x0, y0), (x1, _), (_, y1) = item.points[0], item.points[1], item.points[2]
    assert x1 - x0 == pytest.approx(100 * across, abs=0.001)
    assert y1 - y0 == pytest.approx(200 * up, abs=0.001)
    assert x0 == pytest.approx(105 - 55 * across, abs=0.001)  # about the middle of the page


def test_the_sheet_says_its_correction(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    corrected = msgspec.structs.replace(stamp, correction=Correction(0.994, 1.003))
    (file,) = write_all(job, layout, corrected, tmp_path, ("pdf",))
    assert "short side × 0.9940, long side × 1.0030" in readers.pdf_words(file)


def test_words_are_words(placement: File) -> None:
    said = readers.pdf_words(placement)
    assert "TREBLE" in said
    assert "BASS" in said
    assert "treble edge 186.0 mm, good within 0.8" in said


def test_cyrillic_and_accents_print_and_what_is_lacking_shows(tmp_path: File) -> None:
    text = Text((50.0, 50.0), "Гитара żółć 山", 5.0)
    assert "Гитара żółć ☐" in readers.pdf_words(written(tmp_path, Mark(shape=text, purpose="note")))


def test_pages_may_differ_in_size(tmp_path: File) -> None:
    wide = msgspec.structs.replace(
        sheet_of(Mark(shape=Line((20, 20), (40, 20)), purpose="cut")), paper=Paper("A", 400, 300)
    )
    file = tmp_path / "two.pdf"
    file.write_bytes(pdf.data([sheet_of(Mark(shape=Line((20, 20), (40, 20)), purpose="cut")), wide]))
    document = pypdfium2.PdfDocument(file)
    sizes = [document[k].get_size() for k in range(2)]
    document.close()
    assert sizes[0] == pytest.approx((210 / readers.MM, 297 / readers.MM), abs=0.001)
    assert sizes[1] == pytest.approx((400 / readers.MM, 300 / readers.MM), abs=0.001)


def test_all_templates_on_all_papers_are_sheets(job: Job, layout: Layout, stamp: Stamp) -> None:
    for name in TEMPLATES:
        if name not in OF_OTHER_BRIDGES:
            asked = msgspec.structs.replace(stamp, templates=(name,), paper="A4")
            assert {page.template for page in sheets(*suited(name, job, layout), asked)} == {name}
