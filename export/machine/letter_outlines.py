"""Words as outlines, for machines that know no letters: the typeface's own curves, as chords a hundredth of a mm off.

A quadratic curve over a step h stays within |a − 2b + c| h² / 4 of its chord, derived.
"""

import math
from functools import lru_cache

import msgspec
from fontTools.pens.basePen import decomposeQuadraticSegment
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from export.drawing import typeface
from export.drawing.marks import XY, Mark, Path, Text

OFF = 0.01
"""How far chords may stray from the letter's curve, mm."""
Ring = tuple[XY, ...]


@lru_cache
def _font(bold: bool) -> TTFont:
    return TTFont(typeface.face(bold).path)


@lru_cache(maxsize=2048)
def _glyph(sign: str, bold: bool, off: float) -> tuple[Ring, ...]:
    """A sign's rings in shares of the font size."""
    font = _font(bold)
    glyphs, em = font.getGlyphSet(), font["head"].unitsPerEm
    name = font.getBestCmap().get(ord(sign), ".notdef")
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    rings = (_tidy([(x / em, y / em) for x, y in ring]) for ring in _rings(pen.value, off * em))
    return tuple(ring for ring in rings if len(ring) > 2)


def _rings(steps: list[tuple[str, tuple[XY, ...]]], off: float) -> list[list[XY]]:
    """A recorded glyph as rings of points, in font units."""
    rings: list[list[XY]] = []
    for step, points in steps:
        if step == "moveTo":
            rings.append([points[0]])
        elif step == "lineTo":
            rings[-1].append(points[0])
        elif step == "qCurveTo":
            for bend, end in decomposeQuadraticSegment(points):
                rings[-1] += _quadratic(rings[-1][-1], bend, end, off)
    return rings


def _quadratic(a: XY, b: XY, c: XY, off: float) -> list[XY]:
    """Points along a quadratic curve after its first."""
    steps = max(1, math.ceil(math.sqrt(math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]) / (4 * off))))
    points = []
    for k in range(1, steps + 1):
        t = k / steps
        p, q, r = (1 - t) ** 2, 2 * t * (1 - t), t * t
        points.append((p * a[0] + q * b[0] + r * c[0], p * a[1] + q * b[1] + r * c[1]))
    return points


def _tidy(ring: list[XY]) -> Ring:
    """Without points that repeat the one before, and without the first repeated at the end."""
    kept = [at for k, at in enumerate(ring) if k == 0 or math.dist(at, ring[k - 1]) > 1e-6]
    while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= 1e-6:
        kept.pop()
    return tuple(kept)


def outlined(marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """All words replaced by their letters' outlines, as closed paths among the notes."""
    made: list[Mark] = []
    for mark in marks:
        if isinstance(mark.shape, Text):
            paths = text_outlines(mark.shape)
            made += [msgspec.structs.replace(mark, shape=path, purpose="note", filled=False) for path in paths]
        else:
            made.append(mark)
    return tuple(made)


def text_outlines(text: Text) -> list[Path]:
    """The outlines of words where they stand."""
    x, y = typeface.baseline(text)
    size = typeface.size(text.height, text.bold)
    cos, sin = math.cos(text.angle) * size, math.sin(text.angle) * size
    along = 0.0
    paths = []
    for sign in typeface.shown(text.text):
        for ring in _glyph(sign, text.bold, round(OFF / size, 4)):
            placed = [(x + (along + px) * cos - py * sin, y + (along + px) * sin + py * cos, 0.0) for px, py in ring]
            paths.append(Path(tuple(placed), closed=True))
        along += typeface.face(text.bold).advances[sign]
    return paths
