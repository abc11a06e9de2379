"""Figures to SVG, for a laser or a drawing program: millimetres throughout, one group for each operation."""

import math
import re
from functools import partial
from html import escape  # the one of xml.sax would load all that Python has of the web
from itertools import groupby
from typing import assert_never

from export.drawing import typeface
from export.drawing.flatten import arc_ends, pieces
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Text, Vertex
from export.drawing.pens import dashes_of, width_of
from export.machine.layers import NOTES, OUTSIDE, WORDS, layer_of
from export.machine.machine_file import MachineDrawing

COLOURS: dict[str, str] = {
    "cut": "#d00000",
    OUTSIDE: "#800000",
    "drill": "#0000d0",
    "route": "#008000",
    "mark": "#c000c0",
    "centre": "#0080a0",
    "before": "#a06000",
    "metal": "#e04000",
    "hidden": "#707070",
}
"""Colours of the operations; what is only read is black."""
NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""All that is no character of XML (Extensible Markup Language 1.0, fifth edition, production 2)."""
Attributes = dict[str, str]
"""An element's attributes: numbers, colours and names of this program's own, no sign among them that XML must have
under another name. What a person typed stands in elements alone.
"""


class _Writer:
    """Elements and words, these escaped as they are written."""

    def __init__(self) -> None:
        self.parts = ['<?xml version="1.0" encoding="UTF-8"?>\n']

    def begin(self, name: str, attributes: Attributes) -> None:
        self.parts.append(f"<{name}{_written(attributes)}>")

    def end(self, name: str) -> None:
        self.parts.append(f"</{name}>")

    def comment(self, text: str) -> None:
        self.parts.append(f"<!-- {text.replace('--', '- -')} -->")

    def words(self, name: str, text: str, attributes: Attributes) -> None:
        """An element that holds words; what XML has no place for is a box, as on paper."""
        self.parts.append(
            f"<{name}{_written(attributes)}>{escape(NOT_XML.sub(typeface.LACKING, text), quote=False)}</{name}>"
        )

    def shape(self, name: str, attributes: Attributes) -> None:
        """An element that holds nothing."""
        self.parts.append(f"<{name}{_written(attributes)}/>")

    def new_line(self) -> None:
        self.parts.append("\n")


def _written(attributes: Attributes) -> str:
    return "".join([f' {name}="{value}"' for name, value in attributes.items()])


def data(drawing: MachineDrawing, mark: str = "") -> bytes:
    """What is to be cut, already in file coordinates, as an SVG file's bytes; `mark` is a comment in it."""
    wide, high = map(_n, drawing.size)
    out = _Writer()
    size = {"width": f"{wide}mm", "height": f"{high}mm", "viewBox": f"0 0 {wide} {high}"}
    out.begin("svg", {"xmlns": "http://www.w3.org/2000/svg", "version": "1.1"} | size)
    out.new_line()
    out.comment(mark)
    out.new_line()
    out.words("title", drawing.title, {})
    out.new_line()
    out.words("desc", " ".join(drawing.says), {})
    for layer, marks in groupby(drawing.marks, key=partial(layer_of, kept=drawing.kept)):
        out.new_line()
        _write_layer(out, layer, list(marks), drawing.size[1])
    out.new_line()
    out.end("svg")
    out.new_line()
    return "".join(out.parts).encode()


def _write_layer(out: _Writer, layer: str, marks: list[Mark], high: float) -> None:
    colour = "#000000" if layer in (WORDS, NOTES) else COLOURS.get(layer, COLOURS.get(marks[0].purpose, "#000000"))
    out.begin("g", {"id": layer, "fill": "none", "stroke": colour})
    out.new_line()
    for mark in marks:
        _write_mark(out, mark, high, colour)
        out.new_line()
    out.end("g")


def _n(number: float) -> str:
    """A number to a ten-thousandth of a mm, without an ending of noughts."""
    text = f"{number:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _p(at: XY, high: float) -> str:
    """A place, y downward as SVG has it."""
    return f"{_n(at[0])} {_n(high - at[1])}"


def _look(mark: Mark, colour: str) -> Attributes:
    if mark.filled:
        return {"fill": colour, "stroke": "none"}
    dashes = dashes_of(mark)
    dashed = {"stroke-dasharray": " ".join(map(_n, dashes))} if dashes else {}
    return {"stroke-width": _n(width_of(mark)), **dashed}


def _write_mark(out: _Writer, mark: Mark, high: float, colour: str) -> None:
    shape, look = mark.shape, _look(mark, colour)
    match shape:
        case Line(a, b):
            out.shape("path", {"d": f"M{_p(a, high)}L{_p(b, high)}"} | look)
        case Circle((x, y), radius):
            out.shape("circle", {"cx": _n(x), "cy": _n(high - y), "r": _n(radius)} | look)
        case Arc():
            out.shape("path", {"d": f"M{_p(arc_ends(shape)[0], high)}{_arc(shape, high)}"} | look)
        case Path(vertices, closed):
            out.shape("path", {"d": _steps(vertices, closed, high)} | look)
        case Text():
            _write_words(out, shape, high, colour)
        case _:
            assert_never(shape)


def _steps(vertices: tuple[Vertex, ...], closed: bool, high: float) -> str:
    """A path's data. A closed one starts after a straight piece, which its Z then draws: nothing of no length."""
    if closed:
        straight = next((k for k, (_, _, bulge) in enumerate(vertices) if abs(bulge) <= 1e-9), len(vertices) - 1)
        vertices = vertices[straight + 1 :] + vertices[: straight + 1]
    run = [*pieces(Path(vertices, closed))]
    ends_straight = closed and isinstance(run[-1], Line) and abs(vertices[-1][2]) <= 1e-9
    steps = (
        f"L{_p(piece.b, high)}" if isinstance(piece, Line) else _arc(piece, high)
        for piece in (run[:-1] if ends_straight else run)
    )
    return f"M{_p(vertices[0][:2], high)}{''.join(steps)}{'Z' if closed else ''}"


def _arc(arc: Arc, high: float) -> str:
    """An arc in halves, so that none is ever the long way round by rounding."""
    parts = max(1, math.ceil(abs(arc.sweep) / (0.9 * math.pi)))
    flag = 0 if arc.sweep > 0 else 1
    ends = (arc_ends(Arc(arc.centre, arc.radius, arc.start, arc.sweep * (k + 1) / parts))[1] for k in range(parts))
    return "".join(f"A{_n(arc.radius)} {_n(arc.radius)} 0 0 {flag} {_p(end, high)}" for end in ends)


def _write_words(out: _Writer, text: Text, high: float, colour: str) -> None:
    """Words held to their own length and anchor, so that another typeface stands in without running into the lines."""
    x, y = typeface.baseline(text)
    long = typeface.width(text.text, text.height, text.bold)
    share = typeface.ALONG[text.anchor[0]]
    x, y = x + share * long * math.cos(text.angle), y + share * long * math.sin(text.angle)
    attributes = {
        "x": _n(x),
        "y": _n(high - y),
        "font-family": f"{typeface.NAME}, sans-serif",
        **({"font-weight": "600"} if text.bold else {}),
        "font-size": _n(typeface.size(text.height, text.bold)),
        "text-anchor": {"s": "start", "m": "middle", "e": "end"}[text.anchor[0]],
        "textLength": _n(long),
        "lengthAdjust": "spacingAndGlyphs",
        "fill": colour,
        "stroke": "none",
    }
    if text.angle:
        attributes["transform"] = f"rotate({-math.degrees(text.angle):.6f} {_n(x)} {_n(high - y)})"
    out.words("text", typeface.shown(text.text), attributes)
