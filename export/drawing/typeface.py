"""The one typeface, Source Sans Pro, read from its package: where its files are, how wide words run, what it lacks.

Widths are read straight from the font's own tables (OpenType specification 1.9: head, hhea, hmtx, cmap format 4), so
that the window can place its labels without loading a font library. Letter heights are capital letters' heights.
"""

import math
import re
import struct
import unicodedata
from bisect import bisect_left
from collections.abc import Callable
from functools import cached_property, lru_cache
from importlib.util import find_spec
from pathlib import Path

from export.drawing.flatten import Box, around
from export.drawing.marks import XY, Text
from export.drawing.typeface_name import NAME as NAME

_APOSTROPHE = re.compile(r"(?<=[^\W\d])'(?=[^\W\d])")
LACKING = "☐"
"""What stands for a sign that the typeface does not have."""


class TypefaceMissing(RuntimeError):
    """The package with the typeface is not installed whole."""


class Face:
    """One weight of the typeface. `capital` is the capital letters' height per unit of font size."""

    def __init__(self, weight: str) -> None:
        self.weight = weight
        self.path = _folder() / f"SourceSansPro-{weight}.ttf"
        try:
            self._data = self.path.read_bytes()
        except OSError as error:
            raise TypefaceMissing(
                f"The typeface file {self.path.name} is missing; install font-source-sans-pro again"
            ) from error
        count = struct.unpack_from(">H", self._data, 4)[0]
        self._tables = {
            tag: start for tag, _, start, _ in struct.iter_unpack(">4sIII", self._data[12 : 12 + 16 * count])
        }
        self._em: int = struct.unpack_from(">H", self._data, self._tables[b"head"] + 18)[0]
        self._measured: int = struct.unpack_from(">H", self._data, self._tables[b"hhea"] + 34)[0]
        self.capital: float = struct.unpack_from(">h", self._data, self._tables[b"OS/2"] + 88)[0] / self._em
        self.advances: dict[str, float] = _Advances(self._advance)
        """How far each sign runs, per unit of font size."""

    @cached_property
    def _segments(self) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...], tuple[int, ...], int]:
        start = self._tables[b"cmap"]
        count = struct.unpack_from(">H", self._data, start + 2)[0]
        records = struct.iter_unpack(">HHI", self._data[start + 4 : start + 4 + 8 * count])
        at = next(start + offset for platform, sort, offset in records if (platform, sort) == (3, 1))
        n = struct.unpack_from(">H", self._data, at + 6)[0] // 2
        ends, starts = (struct.unpack_from(f">{n}H", self._data, at + 14 + skip) for skip in (0, 2 + 2 * n))
        deltas, ranges = (struct.unpack_from(f">{n}H", self._data, at + 16 + skip * n) for skip in (4, 6))
        return ends, starts, deltas, ranges, at + 16 + 6 * n

    def glyph(self, sign: str) -> int:
        """The number of a sign's glyph; 0 where the typeface lacks it."""
        code = ord(sign)
        ends, starts, deltas, ranges, at = self._segments
        i = bisect_left(ends, code)
        if i == len(ends) or code < starts[i]:
            return 0
        if not ranges[i]:
            return (code + deltas[i]) & 0xFFFF
        found: int = struct.unpack_from(">H", self._data, at + 2 * i + ranges[i] + 2 * (code - starts[i]))[0]
        return (found + deltas[i]) & 0xFFFF if found else 0

    def _advance(self, sign: str) -> float:
        glyph = min(self.glyph(sign), self._measured - 1)
        advance: int = struct.unpack_from(">H", self._data, self._tables[b"hmtx"] + 4 * glyph)[0]
        return advance / self._em


class _Advances(dict[str, float]):
    """Each sign's advance, read from the font when it is first asked for."""

    def __init__(self, read: Callable[[str], float]) -> None:
        super().__init__()
        self._read = read

    def __missing__(self, sign: str) -> float:
        self[sign] = advance = self._read(sign)
        return advance


@lru_cache
def _folder() -> Path:
    spec = find_spec("font_source_sans_pro")
    if spec is None or spec.origin is None:
        raise TypefaceMissing("The typeface is missing; install the package font-source-sans-pro")
    return Path(spec.origin).parent / "files"


@lru_cache
def face(bold: bool = False) -> Face:
    """The regular or the bold face (the family's semibold). Raises `TypefaceMissing`."""
    return Face("Semibold" if bold else "Regular")


@lru_cache(maxsize=4096)
def shown(text: str) -> str:
    """The words as they can be set: accents composed, breaks as spaces, each sign the typeface lacks as a box.

    The typewriter's apostrophe within a word becomes the printer's.
    """
    regular = face()
    plain = _APOSTROPHE.sub("’", unicodedata.normalize("NFC", " ".join(text.split())))
    lacking = [sign for sign in set(plain) if not regular.glyph(sign)]
    return plain.translate(dict.fromkeys(map(ord, lacking), LACKING)) if lacking else plain


@lru_cache(maxsize=8192)
def width(text: str, height: float, bold: bool = False) -> float:
    """How wide words run in paper mm, at a capital height in paper mm."""
    type_ = face(bold)
    return sum(map(type_.advances.__getitem__, shown(text))) * height / type_.capital


def size(height: float, bold: bool = False) -> float:
    """The font size (in the unit of `height`) whose capitals are `height` high."""
    return height / face(bold).capital


ACROSS = {"b": 0.0, "m": 0.5, "t": 1.0}
ALONG = {"s": 0.0, "m": 0.5, "e": 1.0}
DESCENT = 0.36
"""How far letters reach under the line, of the capital height (the font's g and y: 0.205 to 0.24 em)."""


def baseline(text: Text, scale: float = 1.0) -> XY:
    """Where the first letter's baseline starts, for a drawing that shows `scale` paper mm per mm."""
    back = ALONG[text.anchor[0]] * width(text.text, text.height, text.bold) / scale
    down = ACROSS[text.anchor[1]] * text.height / scale
    cos, sin = math.cos(text.angle), math.sin(text.angle)
    return text.at[0] - back * cos + down * sin, text.at[1] - back * sin - down * cos


def text_corners(text: Text, scale: float = 1.0) -> tuple[XY, XY, XY, XY]:
    """The four corners of the words' ground, letters' tails included."""
    x, y = baseline(text, scale)
    cos, sin = math.cos(text.angle), math.sin(text.angle)
    long, up, down = (
        length / scale
        for length in (width(text.text, text.height, text.bold), text.height * 1.12, -text.height * DESCENT)
    )
    corners = [(0.0, down), (long, down), (long, up), (0.0, up)]
    placed = [(x + along * cos - across * sin, y + along * sin + across * cos) for along, across in corners]
    return placed[0], placed[1], placed[2], placed[3]


def text_box(text: Text, scale: float = 1.0) -> Box:
    """The upright box around words."""
    if text.angle:
        return around(text_corners(text, scale))
    x, y = baseline(text, scale)
    long = width(text.text, text.height, text.bold) / scale
    return Box(x, y - text.height * DESCENT / scale, x + long, y + text.height * 1.12 / scale)
