"""Figures to SVG, for a laser or a drawing program: millimetres throughout, one group for each operation."""

import math
import re
from functools import partial
from itertools import groupby
from typing import assert_never
from xml.sax.saxutils import escape

from export.drawing import typeface
from export.drawing.flatten import arc_ends, pieces
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Text, Vertex
from export.drawing.pens import dashes_of, width_of
from export.machine.layers import NOTES, OUTSIDE, WORDS, layer_of, ordered
from export.machine.machine_file import Cut

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


def data(cut: Cut, mark: str = "") -> bytes:
    """What is to be cut, already in file coordinates, as an SVG file's bytes; `mark` is a comment in it."""
    wide, high = cut.size
    groups = []
    layer_in_cut = partial(layer_of, kept=cut.kept)
    for layer, marks in groupby(ordered(cut.marks, cut.kept), key=layer_in_cut):
        shapes = list(marks)
        colour = "#000000" if layer in (WORDS, NOTES) else COLOURS.get(layer, COLOURS.get(shapes[0].purpose, "#000000"))
        body = "\n".join(_element(mark, high, colour) for mark in shapes)
        groups.append(f'<g id="{layer}" fill="none" stroke="{colour}">\n{body}\n</g>')
    notes = _words_of(" ".join(cut.says))
    text = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="{_n(wide)}mm" height="{_n(high)}mm" '
        f'viewBox="0 0 {_n(wide)} {_n(high)}">\n<!-- {mark} -->\n'
        f"<title>{_words_of(cut.title)}</title>\n<desc>{notes}</desc>\n" + "\n".join(groups) + "\n</svg>\n"
    )
    return text.encode()


def _words_of(text: str) -> str:
    """Words as XML has them; what it has no place for is a box, as on paper."""
    return escape(NOT_XML.sub(typeface.LACKING, text))


def _n(number: float) -> str:
    """A number to a ten-thousandth of a mm, without an ending of noughts."""
    text = f"{number:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _p(at: XY, high: float) -> str:
    """A place, y downward as SVG has it."""
    return f"{_n(at[0])} {_n(high - at[1])}"


def _look(mark: Mark, colour: str) -> str:
    if mark.filled:
        return f'fill="{colour}" stroke="none"'
    dashes = dashes_of(mark)
    dashed = f' stroke-dasharray="{" ".join(_n(d) for d in dashes)}"' if dashes else ""
    return f'stroke-width="{_n(width_of(mark))}"{dashed}'


def _element(mark: Mark, high: float, colour: str) -> str:
    shape, look = mark.shape, _look(mark, colour)
    match shape:
        case Line(a, b):
            return f'<path d="M{_p(a, high)}L{_p(b, high)}" {look}/>'
        case Circle((x, y), radius):
            return f'<circle cx="{_n(x)}" cy="{_n(high - y)}" r="{_n(radius)}" {look}/>'
        case Arc():
            return f'<path d="M{_p(arc_ends(shape)[0], high)}{_arc(shape, high)}" {look}/>'
        case Path(vertices, closed):
            return f'<path d="{_steps(vertices, closed, high)}" {look}/>'
        case Text():
            return _words(shape, high, colour)
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


def _words(text: Text, high: float, colour: str) -> str:
    """Words held to their own length and anchor, so that another typeface stands in without running into the lines."""
    x, y = typeface.baseline(text)
    long = typeface.width(text.text, text.height, text.bold)
    share = typeface.ALONG[text.anchor[0]]
    x, y = x + share * long * math.cos(text.angle), y + share * long * math.sin(text.angle)
    turn = f' transform="rotate({-math.degrees(text.angle):.6f} {_n(x)} {_n(high - y)})"' if text.angle else ""
    weight = ' font-weight="600"' if text.bold else ""
    anchor = {"s": "start", "m": "middle", "e": "end"}[text.anchor[0]]
    return (
        f'<text x="{_n(x)}" y="{_n(high - y)}" font-family="{typeface.NAME}, sans-serif"{weight} '
        f'font-size="{_n(typeface.size(text.height, text.bold))}" text-anchor="{anchor}" textLength="{_n(long)}" '
        f'lengthAdjust="spacingAndGlyphs" fill="{colour}" stroke="none"{turn}>'
        f"{_words_of(typeface.shown(text.text))}</text>"
    )
