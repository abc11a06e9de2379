"""What other software reads in our files: pdfium and pdfminer for PDF, GDAL for DXF, svgelements for SVG.

None of these shares code with what wrote the files. Everything comes back in mm, y upward, from the lower left corner.
"""

import ctypes
import math
from pathlib import Path as File
from typing import Any, NamedTuple

import pdfplumber
import pyogrio
import pypdfium2
import pypdfium2.raw as raw
import svgelements

from geometry.layout import XY

MM = 25.4 / 72
PX = 25.4 / 96
"""svgelements works in CSS pixels of 1/96 in."""


class Item(NamedTuple):
    """One drawn thing: its page (PDF) or layer (DXF, SVG), its points in order, whether closed, its line width."""

    where: str
    points: tuple[XY, ...]
    closed: bool
    width: float


def pdf_items(file: File) -> list[Item]:
    """All paths of a PDF by pdfium; of a curve its end points."""
    document = pypdfium2.PdfDocument(file)
    found = []
    for number in range(len(document)):
        page = document[number]
        for item in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
            found.append(_pdfium_path(str(number + 1), item))
    document.close()
    return found


def _pdfium_path(page: str, item: Any) -> Item:
    m = item.get_matrix()
    points: list[XY] = []
    closed = False
    curve = 0
    x, y = ctypes.c_float(), ctypes.c_float()
    for k in range(raw.FPDFPath_CountSegments(item.raw)):
        segment = raw.FPDFPath_GetPathSegment(item.raw, k)
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        at = (m.a * x.value + m.c * y.value + m.e, m.b * x.value + m.d * y.value + m.f)
        if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_BEZIERTO:
            curve += 1
            if curve % 3 == 0:
                points.append((at[0] * MM, at[1] * MM))
        else:
            points.append((at[0] * MM, at[1] * MM))
        closed = closed or bool(raw.FPDFPathSegment_GetClose(segment))
    width = ctypes.c_float()
    raw.FPDFPageObj_GetStrokeWidth(item.raw, width)
    return Item(page, tuple(points), closed, width.value * math.hypot(m.a, m.b) * MM)


def pdf_curves(file: File) -> list[tuple[XY, XY, XY, XY]]:
    """The cubic curves of a PDF's first page by pdfium: start, two bends, end."""
    document = pypdfium2.PdfDocument(file)
    found = []
    x, y = ctypes.c_float(), ctypes.c_float()
    for item in document[0].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        m = item.get_matrix()
        points: list[XY] = []
        for k in range(raw.FPDFPath_CountSegments(item.raw)):
            raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(item.raw, k), x, y)
            points.append(((m.a * x.value + m.c * y.value + m.e) * MM, (m.b * x.value + m.d * y.value + m.f) * MM))
        found += [(points[k], points[k + 1], points[k + 2], points[k + 3]) for k in range(0, len(points) - 3, 3)]
    document.close()
    return found


def pdf_points(file: File) -> list[XY]:
    """All points of a PDF's first page by pdfminer, the ends of lines and curves."""
    with pdfplumber.open(file) as document:
        page = document.pages[0]
        high = float(page.height)
        return [
            (float(x) * MM, (high - float(y)) * MM)
            for item in (*page.lines, *page.curves, *page.rects)
            for x, y in item["pts"]
        ]


def pdf_words(file: File, page: int = 0) -> str:
    """A page's words by pdfium, line after line."""
    document = pypdfium2.PdfDocument(file)
    text = document[page].get_textpage().get_text_bounded()
    document.close()
    return str(text)


def pdf_all_words(file: File) -> list[str]:
    """Each page's words by pdfium, in one line."""
    document = pypdfium2.PdfDocument(file)
    found = [" ".join(str(page.get_textpage().get_text_bounded()).split()) for page in document]
    document.close()
    return found


def dxf_items(file: File) -> list[Item]:
    """All entities that are drawn, by GDAL; arcs as chords of half a degree."""
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": "0.5"})
    table = pyogrio.raw.read(file)
    meta, _, shapes, columns = table
    layers = dict(zip(meta["fields"], columns, strict=True))["Layer"]
    found = []
    for layer, wkb in zip(layers, shapes, strict=True):
        shape = _from_wkb(wkb)
        if shape.geom_type == "LineString":
            points = tuple((float(x), float(y)) for x, y, *_ in shape.coords)
            closed = len(points) > 2 and math.dist(points[0], points[-1]) < 1e-9
            found.append(Item(str(layer), points[:-1] if closed else points, closed, 0.0))
    return found


def _from_wkb(wkb: bytes) -> Any:
    import shapely

    return shapely.from_wkb(wkb)


def dxf_texts(file: File) -> list[str]:
    """All words by GDAL."""
    meta, _, _, columns = pyogrio.raw.read(file)
    return [str(text) for text in dict(zip(meta["fields"], columns, strict=True))["Text"] if text]


def dxf_words(file: File) -> list[Item]:
    """All words by GDAL, each an item of one point, where it is set, on what it says."""
    meta, _, shapes, columns = pyogrio.raw.read(file)
    texts = dict(zip(meta["fields"], columns, strict=True))["Text"]
    placed = [(str(text), _from_wkb(wkb)) for text, wkb in zip(texts, shapes, strict=True) if text]
    return [Item(text, ((float(at.x), float(at.y)),), False, 0.0) for text, at in placed]


def pdf_phrases(file: File) -> list[Item]:
    """All words of a PDF by pdfminer, those that stand together as one: items of one point, their lower left."""
    with pdfplumber.open(file) as document:
        return [
            Item(
                str(word["text"]),
                ((float(word["x0"]) * MM, (float(page.height) - float(word["bottom"])) * MM),),
                False,
                0.0,
            )
            for page in document.pages
            for word in page.extract_words(keep_blank_chars=True)
        ]


def dxf_pairs(file: File) -> list[tuple[int, str]]:
    """The bare group codes and values of a DXF."""
    lines = file.read_text(encoding="cp1252", errors="replace").splitlines()
    return [(int(lines[k]), lines[k + 1].strip()) for k in range(0, len(lines) - 1, 2)]


def dxf_header(file: File, name: str) -> list[str]:
    """The values of one header variable."""
    pairs = dxf_pairs(file)
    start = next((k for k, pair in enumerate(pairs) if pair == (9, name)), None)
    if start is None:
        return []
    found = []
    for code, value in pairs[start + 1 :]:
        if code in (0, 9):
            break
        found.append(value)
    return found


def dxf_entities(file: File) -> list[tuple[str, dict[int, str]]]:
    """The entities with their group codes (the last of each code)."""
    pairs = dxf_pairs(file)
    start = pairs.index((2, "ENTITIES"))
    found: list[tuple[str, dict[int, str]]] = []
    for code, value in pairs[start + 1 :]:
        if code == 0:
            if value == "ENDSEC":
                break
            found.append((value, {}))
        elif found:
            found[-1][1][code] = value
    return found


def svg_items(file: File) -> list[Item]:
    """All shapes by svgelements; of curves and arcs the end points."""
    svg = svgelements.SVG.parse(str(file), ppi=96, reify=True)
    high = float(svg.height) * PX
    found = []
    for shape in svg.elements():
        if not isinstance(shape, svgelements.Shape):
            continue
        path = svgelements.Path(shape)
        points: list[XY] = []
        for step in path:
            if not isinstance(step, svgelements.Close) and step.end is not None:
                points.append((float(step.end.x) * PX, high - float(step.end.y) * PX))
        closed = any(isinstance(step, svgelements.Close) for step in path)
        if closed and len(points) > 2 and math.dist(points[0], points[-1]) < 1e-6:
            points.pop()
        found.append(Item("", tuple(points), closed, float(shape.stroke_width or 0) * PX))
    return found


def svg_arcs(file: File) -> list[tuple[XY, XY, XY]]:
    """The arcs of an SVG by svgelements: start, middle, end."""
    svg = svgelements.SVG.parse(str(file), ppi=96, reify=True)
    high = float(svg.height) * PX

    def at(step: Any, share: float) -> XY:
        place = step.point(share)
        return float(place.x) * PX, high - float(place.y) * PX

    return [
        (at(step, 0.0), at(step, 0.5), at(step, 1.0))
        for shape in svg.elements()
        if isinstance(shape, svgelements.Shape)
        for step in svgelements.Path(shape)
        if isinstance(step, svgelements.Arc)
    ]


def nearest(points: list[XY], to: XY) -> float:
    """How far the nearest of the points lies from a place."""
    return min(math.dist(point, to) for point in points)


def all_points(items: list[Item]) -> list[XY]:
    """The points of all items."""
    return [point for item in items for point in item.points]
