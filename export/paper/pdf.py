"""Sheets to PDF: what the marks say, in reportlab's words, and the keys that keep a viewer from shrinking the page."""

import io
import math
from collections.abc import Sequence
from typing import assert_never

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from export.drawing import typeface
from export.drawing.flatten import on_arc, pieces
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Text
from export.drawing.pens import dashes_of, is_ground, width_of
from export.drawing.strokes import strokes
from export.records import Sheet

POINT = 72 / 25.4
"""Points per mm: the PDF's unit is 1/72 in (ISO 32000-1:2008, 8.3.2.3)."""
FONTS = {False: "SourceSansPro", True: "SourceSansProSemibold"}


def data(sheets: Sequence[Sheet], title: str = "", mark: str = "") -> bytes:
    """All sheets as one PDF; `mark` stands among its keywords."""
    _register()
    buffer = io.BytesIO()
    first = sheets[0].paper
    canvas = Canvas(
        buffer,
        pagesize=(first.width * POINT, first.height * POINT),
        pdfVersion=(1, 6),
        initialFontName=FONTS[False],  # type: ignore[arg-type]  # the types of reportlab say float here, by mistake
        invariant=1,
        pageCompression=1,
    )
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setTitle(title or sheets[0].drawing.title)
    canvas.setCreator("Offsquare")
    canvas.setKeywords(mark)
    for sheet in sheets:
        _page(canvas, sheet)
    canvas.save()
    return buffer.getvalue()


def _register() -> None:
    known = pdfmetrics.getRegisteredFontNames()
    for bold, name in FONTS.items():
        if name not in known:
            pdfmetrics.registerFont(_Font(name, str(typeface.face(bold).path)))


class _Font(TTFont):
    """The typeface as reportlab embeds it. Every line's place is known from `typeface`: how far its words run is not
    asked for again.
    """

    def stringWidth(self, text: str, size: float, encoding: str = "utf8") -> float:  # noqa: ARG002  # as reportlab calls it
        return 0.0


def _page(canvas: Canvas, sheet: Sheet) -> None:
    wide, high = sheet.paper.width * POINT, sheet.paper.height * POINT
    canvas.setPageSize((wide, high))
    canvas.setCropBox((0, 0, wide, high))
    (xx, xy), (yx, yy) = sheet.stretch
    left, low = (wide - xx * wide - xy * high) / 2, (high - yx * wide - yy * high) / 2
    canvas.transform(POINT * xx, POINT * yx, POINT * xy, POINT * yy, left, low)
    canvas.setLineCap(0)
    canvas.setLineJoin(0)
    pen: tuple[float, tuple[float, ...]] | None = None
    for mark in sheet.drawing.marks:
        if isinstance(mark.shape, Text):
            _text(canvas, mark.shape)
            continue
        for stroke in strokes(mark) if isinstance(mark.shape, Path) else (mark,):
            wanted = (width_of(stroke), dashes_of(stroke))
            if wanted != pen:
                canvas.setLineWidth(wanted[0])
                canvas.setDash(list(wanted[1]), 0)
                pen = wanted
            if not isinstance(stroke.shape, Text):
                _line(canvas, stroke, stroke.shape)
    canvas.showPage()


def _line(canvas: Canvas, mark: Mark, shape: Line | Arc | Circle | Path) -> None:
    code = ["n"]
    match shape:
        case Line():
            code += [_to(shape.a, "m"), _to(shape.b, "l")]
        case Arc():
            code += [_to(on_arc(shape, shape.start), "m"), *_arc(shape)]
        case Circle():
            code += [_to(on_arc(shape, 0.0), "m"), *_arc(Arc(shape.centre, shape.radius, 0.0, 2 * math.pi)), "h"]
        case Path():
            code.append(_to(shape.vertices[0][:2], "m"))
            for piece in pieces(shape):
                code += _arc(piece) if isinstance(piece, Arc) else [_to(piece.b, "l")]
            code += ["h"] if shape.closed else []
        case _:
            assert_never(shape)
    path = PDFPathObject(code)
    if is_ground(mark):
        canvas.setFillGray(1)
        canvas.drawPath(path, stroke=1, fill=1)
        canvas.setFillGray(0)
    else:
        canvas.drawPath(path, stroke=0 if mark.filled else 1, fill=1 if mark.filled else 0)


def _to(at: XY, operator: str) -> str:
    """A step of a path (ISO 32000-1:2008, 8.5.2.1), its place to 0.00001 mm; reportlab's own numbers take six times as
    long to write.
    """
    return f"{at[0]:.5f} {at[1]:.5f} {operator}"


def _arc(arc: Arc) -> list[str]:
    """An arc as cubic curves of 30 degrees at most: of 1 m radius they keep to 0.0004 mm."""
    count = max(1, math.ceil(abs(arc.sweep) / (math.pi / 6)))
    step, radius, (x, y) = arc.sweep / count, arc.radius, arc.centre
    reach = 4 / 3 * math.tan(step / 4) * radius
    cos, sin = math.cos(arc.start), math.sin(arc.start)
    ax, ay = x + radius * cos, y + radius * sin
    code = []
    for i in range(count):
        bend = f"{ax - reach * sin:.5f} {ay + reach * cos:.5f}"
        angle = arc.start + (i + 1) * step
        cos, sin = math.cos(angle), math.sin(angle)
        ax, ay = x + radius * cos, y + radius * sin
        code.append(f"{bend} {ax + reach * sin:.5f} {ay - reach * cos:.5f} {ax:.5f} {ay:.5f} c")
    return code


def _text(canvas: Canvas, text: Text) -> None:
    x, y = typeface.baseline(text)
    cos, sin = math.cos(text.angle), math.sin(text.angle)
    words = canvas.beginText()
    words.setFont(FONTS[text.bold], typeface.size(text.height, text.bold))
    words.setTextTransform(cos, sin, -sin, cos, x, y)
    words.textOut(typeface.shown(text.text))
    canvas.drawText(words)
