"""Closed lines of an SVG file, and how long its unit is.

SVG 1.1 (second edition, W3C 2011): shapes in chapter 9, path data in 8.3, transforms in 7.6. Curves are followed by
short chords. A file says its unit where it has a width with one and a viewBox; user units alone are of any size.
"""

import cmath
import math
import re
from collections.abc import Iterator
from itertools import pairwise
from xml.etree import ElementTree

from export.errors import ExportError

PER_UNIT = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6}
"""mm in the units that a width can have (CSS 2.1, 4.3.2)."""
PIECES = 48
"""A curve is followed by so many chords."""
PASSED_OVER = ("defs", "symbol", "clipPath", "marker", "mask", "pattern")
NUMBER = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
COUNTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
Turned = tuple[complex, complex, complex]
"""A transform: z goes to a z + b z̄ + c."""
AS_IT_IS: Turned = (1 + 0j, 0j, 0j)


def closed_lines(data: bytes) -> tuple[list[list[complex]], float | None]:
    """Every closed line in user units, +y up, and how many mm a user unit is: None where the file does not say.

    Raises `ExportError` for what is no SVG file.
    """
    try:
        root = ElementTree.fromstring(data)
    except ElementTree.ParseError:
        raise ExportError("It is no SVG file that can be read; save it again as plain SVG") from None
    if _name(root) != "svg":
        raise ExportError("It is no SVG file; save the outline as plain SVG")
    lines = [[z.conjugate() for z in line] for line in _lines(root, AS_IT_IS) if len(line) > 2]
    return lines, _unit(root)


def _name(element: ElementTree.Element) -> str:
    return element.tag.rpartition("}")[2] if isinstance(element.tag, str) else ""


def _unit(root: ElementTree.Element) -> float | None:
    width = re.fullmatch(rf"\s*({NUMBER})\s*({'|'.join(PER_UNIT)})\s*", root.get("width", ""))
    box = [float(number) for number in re.findall(NUMBER, root.get("viewBox", ""))]
    if width is None or len(box) != 4 or box[2] <= 0:
        return None
    return float(width[1]) * PER_UNIT[width[2]] / box[2]


def _lines(element: ElementTree.Element, outer: Turned) -> Iterator[list[complex]]:
    if _name(element) in PASSED_OVER:
        return
    turned = outer
    for called, inside in re.findall(r"(\w+)\s*\(([^)]*)\)", element.get("transform", "")):
        turned = _after(turned, _transform(called, [float(x) for x in re.findall(NUMBER, inside)]))
    a, b, c = turned
    for line in _of(element):
        yield [a * z + b * z.conjugate() + c for z in line]
    for child in element:
        yield from _lines(child, turned)


def _after(outer: Turned, inner: Turned) -> Turned:
    (a, b, c), (p, q, r) = outer, inner
    return a * p + b * q.conjugate(), a * q + b * p.conjugate(), a * r + b * r.conjugate() + c


def _transform(called: str, values: list[float]) -> Turned:
    """A transform of chapter 7.6; one that is not known leaves all as it is."""
    match called, values:
        case "matrix", [a, b, c, d, e, f]:
            return complex(a + d, b - c) / 2, complex(a - d, b + c) / 2, complex(e, f)
        case "translate", [x, *rest]:
            return 1 + 0j, 0j, complex(x, rest[0] if rest else 0.0)
        case "scale", [x, *rest]:
            y = rest[0] if rest else x
            return complex((x + y) / 2), complex((x - y) / 2), 0j
        case "rotate", [angle, *rest]:
            turn, about = cmath.rect(1, math.radians(angle)), complex(*rest) if len(rest) == 2 else 0j
            return turn, 0j, about - turn * about
        case "skewX", [angle]:
            return _transform("matrix", [1, 0, math.tan(math.radians(angle)), 1, 0, 0])
        case "skewY", [angle]:
            return _transform("matrix", [1, math.tan(math.radians(angle)), 0, 1, 0, 0])
    return AS_IT_IS


def _of(element: ElementTree.Element) -> Iterator[list[complex]]:
    """The closed lines of one element."""

    def number(key: str) -> float:
        found = re.match(NUMBER, element.get(key, "").strip())
        return float(found[0]) if found else 0.0

    match _name(element):
        case "path":
            yield from _subpaths(element.get("d", ""))
        case "polygon" | "polyline" as kind:
            values = [float(x) for x in re.findall(NUMBER, element.get("points", ""))]
            line = [complex(x, y) for x, y in zip(values[::2], values[1::2], strict=False)]
            if kind == "polygon" or (len(line) > 3 and line[0] == line[-1]):
                yield line
        case "rect":
            at, wide, high = complex(number("x"), number("y")), number("width"), number("height") * 1j
            yield [at, at + wide, at + wide + high, at + high]
        case "circle" | "ellipse" as kind:
            rx, ry = (number("r"),) * 2 if kind == "circle" else (number("rx"), number("ry"))
            at, turns = complex(number("cx"), number("cy")), (math.tau * k / (4 * PIECES) for k in range(4 * PIECES))
            yield [at + complex(rx * math.cos(turn), ry * math.sin(turn)) for turn in turns]


def _subpaths(data: str) -> Iterator[list[complex]]:
    """The closed parts of a path: those that are closed, and those that end where they began."""
    line: list[complex] = []
    at, last, before = 0j, 0j, ""
    for command, values in _commands(data):
        upper, from_ = command.upper(), at if command.islower() else 0j
        if upper == "M":
            yield from _if_closed(line)
            at = from_ + complex(*values)
            line = [at]
        elif upper == "Z":
            yield line
            at, line = (line[0] if line else at), []
            line = [at]
        else:
            smooth = last if before in {"S": "CS", "T": "QT"}.get(upper, "") and before else at
            steps, last, at = _drawn(upper, values, from_, at, smooth)
            line += steps
        before = upper
    yield from _if_closed(line)


def _if_closed(line: list[complex]) -> Iterator[list[complex]]:
    if len(line) > 3 and abs(line[0] - line[-1]) < 1e-6:
        yield line[:-1]


def _commands(data: str) -> Iterator[tuple[str, list[float]]]:
    """Each command with its numbers; one that stands once for several goes on, and M goes on as L."""
    for command, rest in re.findall(r"([MLHVCSQTAZmlhvcsqtaz])([^MLHVCSQTAZmlhvcsqtaz]*)", data):
        count, arc = COUNTS[command.upper()], command in "Aa"
        values = _arc_numbers(rest) if arc else [float(x) for x in re.findall(NUMBER, rest)]
        if not count:
            yield command, []
            continue
        for at in range(0, len(values) - count + 1, count):
            again = {"M": "L", "m": "l"}.get(command, command) if at else command
            yield again, values[at : at + count]


def _arc_numbers(rest: str) -> list[float]:
    """An arc's numbers; its two flags may stand close to what follows."""
    gap = r"[\s,]*"
    found = re.findall(gap.join((f"({NUMBER})",) * 3 + ("([01])",) * 2 + (f"({NUMBER})",) * 2), rest)
    return [float(number) for numbers in found for number in numbers]


def _drawn(
    upper: str, values: list[float], from_: complex, at: complex, mirrored: complex
) -> tuple[list[complex], complex, complex]:
    """The places a command draws through, its last control point, and where it ends."""
    if upper == "H":
        end = complex(values[0] + from_.real, at.imag)
        return [end], end, end
    if upper == "V":
        end = complex(at.real, values[0] + from_.imag)
        return [end], end, end
    if upper == "A":
        end = from_ + complex(*values[5:])
        return _arc(at, end, values), end, end
    points = [from_ + complex(x, y) for x, y in zip(values[::2], values[1::2], strict=True)]
    if upper in "ST":
        points.insert(0, 2 * at - mirrored)
    controls = [at, *points]
    return _bezier(controls), controls[-2], points[-1]


def _bezier(controls: list[complex]) -> list[complex]:
    """Places on a Bézier curve of any degree, by de Casteljau's division; the first is left out."""
    if len(controls) == 2:
        return controls[1:]
    found = []
    for step in range(1, PIECES + 1):
        share, level = step / PIECES, controls
        while len(level) > 1:
            level = [a + (b - a) * share for a, b in pairwise(level)]
        found.append(level[0])
    return found


def _arc(start: complex, end: complex, values: list[float]) -> list[complex]:
    """An elliptical arc by its end points (SVG 1.1, F.6.5); one without radii is a straight line."""
    rx, ry, tilt, large, sweep = abs(values[0]), abs(values[1]), values[2], values[3], values[4]
    if not rx or not ry or start == end:
        return [end]
    turn = cmath.rect(1, math.radians(tilt))
    # in the circle's own measure both radii are one
    one, two = (complex((z / turn).real / rx, (z / turn).imag / ry) for z in (start, end))
    half, middle = abs(two - one) / 2, (one + two) / 2
    grown = max(half, 1.0)  # radii too small to reach are made as large as they must be
    square = 1j * (two - one) / (2 * half) * math.sqrt(max(grown**2 - half**2, 0.0))
    for centre in (middle + square, middle - square):
        first, last = cmath.phase(one - centre), cmath.phase(two - centre)
        by = (last - first) % math.tau if sweep else -((first - last) % math.tau)
        if (abs(by) > math.pi) == bool(large):
            break
    found = [centre + cmath.rect(grown, first + by * step / PIECES) for step in range(1, PIECES + 1)]
    return [complex(z.real * rx, z.imag * ry) * turn for z in found[:-1]] + [end]
