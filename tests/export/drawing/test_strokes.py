"""In which strokes a dashed outline is painted."""

import math
from ctypes import c_float, c_int
from itertools import pairwise
from pathlib import Path as File

import msgspec
import pypdfium2
import pypdfium2.raw as raw
import pytest

from app.file import job_file, samples
from export import write_all
from export.drawing.flatten import length, polyline
from export.drawing.marks import Arc, Circle, Line, Mark, Path, Purpose
from export.drawing.pens import dashes_of
from export.drawing.strokes import strokes
from export.records import Stamp
from geometry.layout import XY
from geometry.work_out import work_out

RING = ((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0))


def shapes(shape: Path, purpose: Purpose = "hidden", *, filled: bool = False) -> list[object]:
    return [stroke.shape for stroke in strokes(Mark(shape=shape, purpose=purpose, of="x", weight=2.0, filled=filled))]


@pytest.mark.parametrize("first", range(4))
def test_each_side_of_a_dashed_outline_is_a_stroke_from_corner_to_corner(first: int) -> None:
    ring = RING[first:] + RING[:first]
    assert shapes(polyline(ring, closed=True)) == [Line(a, b) for a, b in pairwise([*ring, ring[0]])]


def test_an_open_line_has_a_corner_where_it_bends_alone() -> None:
    assert shapes(polyline(RING[:3])) == [Line(RING[0], RING[1]), Line(RING[1], RING[2])]


@pytest.mark.parametrize(("degrees", "count"), [(19.0, 1), (21.0, 2), (-19.0, 1), (-21.0, 2)])
def test_a_slight_bend_is_no_corner(degrees: float, count: int) -> None:
    on = (10.0 + 10.0 * math.cos(math.radians(degrees)), 10.0 * math.sin(math.radians(degrees)))
    assert len(shapes(polyline([(0.0, 0.0), (10.0, 0.0), on]))) == count


def test_a_side_goes_on_through_an_arc_that_touches_it() -> None:
    """derived: a half disc of 20 mm on a square half as deep; its arc leaves both sides of 10 mm as they run."""
    shape = Path(((0.0, 0.0, 0.0), (10.0, 0.0, 1.0), (10.0, 20.0, 0.0), (0.0, 20.0, 0.0)), closed=True)
    bent, straight = shapes(shape)
    assert straight == Line((0.0, 20.0), (0.0, 0.0))
    assert isinstance(bent, Path)
    assert not bent.closed
    assert length(bent) == pytest.approx(20.0 + 10.0 * math.pi)
    assert (bent.vertices[0], bent.vertices[-1]) == ((0.0, 0.0, 0.0), (0.0, 20.0, 0.0))


@pytest.mark.parametrize("purpose", ["cut", "mark", "lay"])
def test_what_is_continuous_is_one_stroke(purpose: Purpose) -> None:
    assert shapes(polyline(RING, closed=True), purpose) == [polyline(RING, closed=True)]


def test_what_is_filled_or_has_no_corner_is_one_stroke() -> None:
    assert shapes(polyline(RING, closed=True), "metal", filled=True) == [polyline(RING, closed=True)]
    disc = Path(((0.0, 0.0, 1.0), (10.0, 0.0, 1.0)), closed=True)
    assert shapes(disc) == [disc]


def test_a_stroke_is_drawn_as_its_mark_is() -> None:
    mark = Mark(shape=polyline(RING, closed=True), purpose="before", of="old", weight=0.6, tone="before")
    assert all(msgspec.structs.replace(stroke, shape=mark.shape) == mark for stroke in strokes(mark))


@pytest.mark.parametrize("purpose", ["hidden", "before", "kept"])
@pytest.mark.parametrize("shape", [Arc((0.0, 0.0), 30.0, 1.0, -2.5), polyline([(0.0, 0.0), (30.0, 0.0), (59.0, 2.0)])])
def test_a_bent_line_begins_and_ends_in_a_whole_dash(shape: Arc | Path, purpose: Purpose) -> None:
    dashes = dashes_of(Mark(shape=shape, purpose=purpose))
    over = (length(shape) - dashes[0]) / sum(dashes)
    assert over == pytest.approx(round(over))


def test_dashes_close_round_an_outline_and_nothing_has_none() -> None:
    disc = Path(((0.0, 0.0, 1.0), (10.0, 0.0, 1.0)), closed=True)
    assert length(disc) == pytest.approx(length(Circle((5.0, 0.0), 5.0)))
    over = math.tau * 5.0 / sum(dashes_of(Mark(shape=disc, purpose="before")))
    assert over == pytest.approx(3.0)
    assert dashes_of(Mark(shape=polyline([(1.0, 1.0), (1.0, 1.0)], closed=True), purpose="hidden")) == ()


@pytest.mark.parametrize("name", ["placement", "clearing", "plate"])
def test_no_corner_of_a_sheet_falls_into_a_gap(name: str, stamp: Stamp, tmp_path: File) -> None:
    """Read back by pdfium: no dashed line has a corner within it. Footprint, plate, bridge and an area had."""
    path = samples.find("bolted-left")
    assert path is not None
    job = job_file.read(path)
    asked = msgspec.structs.replace(stamp, templates=(name,), turn="landscape")
    (file,) = write_all(job, work_out(job), asked, tmp_path, ("pdf",))
    document = pypdfium2.PdfDocument(file)
    dashed = 0
    for item in document[0].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        if raw.FPDFPageObj_GetDashCount(item.raw) and _has_stroke(item.raw):
            dashed += 1
            assert all(_turn(*three) < 30.0 for three in zip(*(_points(item.raw)[k:] for k in range(3)), strict=False))
    document.close()
    assert dashed > 8


def _has_stroke(item: object) -> bool:
    fill, stroke = c_int(), c_int()
    raw.FPDFPath_GetDrawMode(item, fill, stroke)
    return bool(stroke.value)


def _points(item: object) -> list[XY]:
    x, y = c_float(), c_float()
    found: list[XY] = []
    for k in range(raw.FPDFPath_CountSegments(item)):
        raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(item, k), x, y)
        found.append((x.value, y.value))
    return [at for at, last in zip(found, [None, *found], strict=False) if last is None or math.dist(at, last) > 0.01]


def _turn(a: XY, b: XY, c: XY) -> float:
    one, other = complex(b[0] - a[0], b[1] - a[1]), complex(c[0] - b[0], c[1] - b[1])
    turn = other / one
    return abs(math.degrees(math.atan2(turn.imag, turn.real)))
