"""Outlines out of DXF and SVG files: shapes of known size, units said and not said, and files that hold none."""

import io
import math
from pathlib import Path
from typing import Literal

import numpy as np
import pytest
from ezdxf.filemanagement import new
from msgspec.structs import replace

from export import write_all
from export.drawing.flatten import path_points
from export.drawing.marks import Path as MarkPath
from export.errors import ExportError
from export.machine import outline_svg
from export.machine.machine_file import MachineSettings
from export.machine.outline_in import TracedOutline, UnitUnknown, read_outline
from export.records import Stamp
from geometry.frame import Points
from geometry.job import Bridge, Job
from geometry.layout import Layout
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.uncovered import followed
from tests.in_one import in_one


def svg(inside: str, head: str = 'width="200mm" height="100mm" viewBox="0 0 200 100"') -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{inside}</svg>'.encode()


def dxf(insunits: int = 4, release: str = "R2010", scale: float = 1.0, *, closed: bool = True) -> bytes:
    """A rectangle of 150 by 30 with an arc in place of its lower side, made by the library alone."""
    document = new(release)
    document.header["$INSUNITS"] = insunits
    space = document.modelspace()
    a, b, c, d = ((x * scale, y * scale) for x, y in ((0, 0), (150, 0), (150, 30), (0, 30)))
    for start, stop in ((b, c), (d, c), (d, a)):  # one of them the other way round
        space.add_line(start, stop)
    if closed:
        # derived: an arc over a chord of 150 with a radius of 150 spans 60 degrees
        space.add_arc((75 * scale, 150 * math.cos(math.radians(30)) * scale), 150 * scale, 240, 300)
    space.add_circle((40 * scale, 15 * scale), 2.5 * scale)
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def ring(found: TracedOutline) -> Points:
    return followed(
        Bridge(outline="traced", traced=found.points, length=found.length, width=found.width),
    )


SEGMENT = 150.0**2 / 2 * (math.pi / 3 - math.sin(math.pi / 3))
"""derived: the circular segment of radius 150 over 60 degrees."""


@pytest.mark.parametrize(
    ("data", "unit"),
    [
        (dxf(), None),
        (dxf(insunits=1, scale=1 / 25.4), None),
        (dxf(insunits=5, scale=0.1), None),
        (dxf(insunits=0, scale=1 / 25.4), "in"),
        (dxf(release="R12", insunits=0), "mm"),
    ],
)
def test_lines_and_an_arc_of_a_dxf_file_are_joined_and_scaled(data: bytes, unit: str | None) -> None:
    found = read_outline(data, "bridge.dxf", unit)  # type: ignore[arg-type]  # one of the units
    deep = 30.0 + 150.0 * (1 - math.cos(math.radians(30)))
    assert (found.length, found.width) == pytest.approx((150.0, deep), abs=0.05)
    assert nearest.area(ring(found)) == pytest.approx(150.0 * 30.0 + SEGMENT, abs=5.0)


def test_its_front_is_what_is_drawn_up() -> None:
    # the arc is drawn below: it bulges out behind
    found = read_outline(dxf(), "bridge.dxf")
    backs = [back for back, left in found.points if abs(left) > 74.9]
    assert min(backs) == pytest.approx(0.0, abs=1e-6)
    assert max(backs) == pytest.approx(30.0, abs=0.05)


@pytest.mark.parametrize("name", ["a.dxf", "a.svg"])
def test_a_file_without_a_unit_asks_for_it(name: str) -> None:
    data = dxf(insunits=0) if name == "a.dxf" else svg('<rect width="150" height="30"/>', 'viewBox="0 0 200 100"')
    with pytest.raises(UnitUnknown, match="does not say what unit"):
        read_outline(data, name)
    assert read_outline(data, name, "mm").length == pytest.approx(150.0, abs=0.05)
    assert read_outline(data, name, "cm").length == pytest.approx(1500.0, abs=0.5)


@in_one(
    ("shape", "length", "width", "area"),
    [
        ('<rect x="5" y="7" width="150" height="30"/>', 150.0, 30.0, 4500.0),
        ('<polygon points="0,0 150,0 150,30 0,30"/>', 150.0, 30.0, 4500.0),
        ('<path d="M0 0h150v30h-150z"/>', 150.0, 30.0, 4500.0),
        ('<path d="m 10,10 150,0 0,30 -150,0 z"/>', 150.0, 30.0, 4500.0),
        ('<ellipse cx="90" cy="40" rx="75" ry="15"/>', 150.0, 30.0, math.pi * 75 * 15),
        ('<path d="M0 15a75 15 0 0 1 150 0a75 15 0 0 1-150 0z"/>', 150.0, 30.0, math.pi * 75 * 15),
        # derived: a quadratic Bézier over 150 whose control point lies 60 off bulges 30; it holds 2/3 of their product
        ('<path d="M0 0Q75 60 150 0Z"/>', 150.0, 30.0, 2 / 3 * 150 * 30),
        # derived: with its control points at thirds y = 120 t (1 − t) over x = 150 t, which holds 150 × 120 / 6
        ('<path d="M0 0C50 40 100 40 150 0Z"/>', 150.0, 30.0, 150 * 120 / 6),
        ('<g transform="translate(10 5) scale(1.5)"><rect width="100" height="20"/></g>', 150.0, 30.0, 4500.0),
        ('<g transform="rotate(90 40 40)"><rect width="150" height="30"/></g>', 150.0, 30.0, 4500.0),
        ('<rect width="150" height="30" transform="matrix(0 1 -1 0 50 20)"/>', 150.0, 30.0, 4500.0),
    ],
)
def test_shapes_of_an_svg_file_have_their_sizes(shape: str, length: float, width: float, area: float) -> None:
    found = read_outline(svg(shape), "bridge.svg")
    assert (found.length, found.width) == pytest.approx((length, width), abs=0.05)
    assert nearest.area(ring(found)) == pytest.approx(area, abs=6.0)


def test_an_arc_of_a_path_runs_the_way_its_flags_say() -> None:
    # derived: the smaller arc over a chord of the radius holds a sixth of the disc less a triangle, the larger the rest
    smaller = math.pi / 6 - math.sqrt(3) / 4
    for large, sweep in ((0, 0), (0, 1), (1, 0), (1, 1)):
        (line,), _ = outline_svg.closed_lines(svg(f'<path d="M0 0A50 50 0 {large} {sweep} 50 0Z"/>'))
        area = sum((a.conjugate() * b).imag for a, b in zip(line, (*line[1:], line[0]), strict=True)) / 2
        share = math.pi - smaller if large else smaller
        # the page's y runs down, ours up: an arc with a positive sweep turns clockwise here
        assert area == pytest.approx(2500.0 * share * (-1 if sweep else 1), rel=5e-3)


def test_inches_and_pixels_of_an_svg_file() -> None:
    inch = svg('<rect width="600" height="120"/>', 'width="8in" height="4in" viewBox="0 0 800 400"')
    assert read_outline(inch, "a.svg").length == pytest.approx(6 * 25.4)
    pixels = svg('<rect width="600" height="120"/>', 'width="800px" height="400px" viewBox="0 0 800 400"')
    with pytest.raises(UnitUnknown):
        read_outline(pixels, "a.svg")


@in_one(
    ("data", "name", "says"),
    [
        (svg('<path d="M0 0L150 30L150 0L0 30Z"/>'), "a.svg", "crosses itself"),
        (svg('<path d="M0 0L150 0L150 30"/>'), "a.svg", "no line that closes"),
        (svg("<text>bridge</text>"), "a.svg", "no line that closes"),
        (svg('<path d="M0 0L150 0L75 0Z"/>'), "a.svg", "goes round nothing"),
        (svg('<path d="M0 0L150 0L1e999 30L0 30Z"/>'), "a.svg", "a place that is no number"),
        (b"<html/>", "a.svg", "no SVG file"),
        (b"not a drawing", "a.svg", "no SVG file"),
        (b"not a drawing", "a.dxf", "no DXF file"),
        (b"", "a.dxf", "no line that closes"),
        (dxf(closed=False), "a.pdf", "neither a DXF nor an SVG"),
    ],
)
def test_a_file_without_an_outline_is_refused_in_one_sentence(data: bytes, name: str, says: str) -> None:
    with pytest.raises(ExportError, match=says) as found:
        read_outline(data, name)
    assert name in str(found.value)


def test_of_several_lines_the_largest_is_the_outline() -> None:
    open_ = dxf(closed=False)  # only the circle closes
    assert read_outline(open_, "a.dxf").length == pytest.approx(5.0, abs=0.05)
    assert read_outline(dxf(), "a.dxf").length == pytest.approx(150.0, abs=0.05)


@pytest.mark.parametrize("kind", ["dxf", "svg"])
def test_our_own_bridge_comes_back_as_it_was_written(
    kind: Literal["dxf", "svg"], job: Job, layout: Layout, stamp: Stamp, tmp_path: Path
) -> None:
    alone = replace(stamp, templates=("bridge",))
    file = write_all(job, layout, alone, tmp_path, (kind,), machine=MachineSettings())[0]
    assert layout.bridge is not None
    found = read_outline(file.read_bytes(), file.name)
    whole = path_points(MarkPath(layout.bridge.outline, closed=True), 0.001)
    drawn = np.array([complex(*at) for at in whole]) * np.exp(-1j * layout.bridge.turn)
    # a belly's arcs are followed by chords no farther off than 2e-4 of the drawing's size, 0.04 mm
    assert found.length == pytest.approx(np.ptp(drawn.imag), abs=0.1)
    assert found.width == pytest.approx(np.ptp(drawn.real), abs=0.1)
    assert nearest.area(ring(found)) == pytest.approx(nearest.area(drawn), rel=2e-3)


def size(inside: str) -> tuple[float, float]:
    found = read_outline(svg(inside), "bridge.svg", None)
    return found.length, found.width


RECT = '<rect x="20" y="30" width="150" height="30" {}/>'


@pytest.mark.parametrize(
    ("transform", "expected"),
    [
        # derived: a skew by 10 degrees moves what lies 30 or 150 mm farther by the tangent of it
        ("skewX(10)", (150 + 30 * math.tan(math.radians(10)), 30.0)),
        ("skewY(10)", (150.0, 30 + 150 * math.tan(math.radians(10)))),
        ("scale(0.5 2)", (75.0, 60.0)),
        ("scale(0.5)", (75.0, 15.0)),
        ("translate(3) rotate(180 5 7)", (150.0, 30.0)),
        ("matrix(1 0 0 0.5 4 4)", (150.0, 15.0)),
        ("twist(3)", (150.0, 30.0)),  # unknown: it is left as it is
    ],
)
def test_a_transform_changes_the_size(transform: str, expected: tuple[float, float]) -> None:
    assert size(RECT.format(f'transform="{transform}"')) == pytest.approx(expected)


CURVES = {
    # derived: a quadratic curve over 150 whose control point lies 40 off reaches 20; a cubic with both 40 off, 30
    "M0 0 Q75 40 150 0 L150 -20 L0 -20 Z": (150.0, 40.0),
    "M0 0 C50 40 100 40 150 0 L150 -20 L0 -20 Z": (150.0, 50.0),
    # a smooth curve goes on with the control point mirrored: down by as much
    "M0 0 Q40 40 80 0 T160 0 L160 -40 L0 -40 Z": (160.0, 60.0),
    "M0 0 C20 40 60 40 80 0 S140 -40 160 0 L160 -60 L0 -60 Z": (160.0, 90.0),
    "M0 0 H150 V30 H0 Z": (150.0, 30.0),
    "m10 10 h150 v30 h-150 z": (150.0, 30.0),
    "M0 0 150 0 150 30 0 30 0 0": (150.0, 30.0),  # M goes on as L, and ends where it began
    # derived: a half circle of radius 75 on a rectangle
    "M0 0 A75 75 0 0 1 150 0 L150 20 L0 20 Z": (150.0, 95.0),
    "M0 0 A75 75 0 0 0 150 0 L150 -20 L0 -20 Z": (150.0, 95.0),
    # an arc without a radius is a straight line; one that is too small is made as large as it must be
    "M0 0 A0 75 0 0 1 150 0 L150 20 L0 20 Z": (150.0, 20.0),
    "M0 0 A10 10 0 0 1 150 0 L150 20 L0 20 Z": (150.0, 95.0),
}


@in_one("path", CURVES)
def test_each_command_of_a_path_draws_what_the_standard_says(path: str) -> None:
    """SVG 1.1, chapter 8.3."""
    assert size(f'<path d="{path}"/>') == pytest.approx(CURVES[path], abs=0.02)


@pytest.mark.parametrize(
    ("width", "box", "unit"),
    [
        ("200mm", "0 0 100 50", 2.0),
        ("2cm", "0 0 100 50", 0.2),
        ("4in", "0 0 100 50", 1.016),
        ("144pt", "0 0 100 50", 0.508),  # 72 pt and 6 pc are an inch: CSS 2.1, 4.3.2
        ("12pc", "0 0 100 50", 0.508),
        ("200mm", "10,10,100,50", 2.0),
        ("200mm", "0 0 0 50", None),  # nothing wide
        ("200mm", "0 0 -100 50", None),
        ("200mm", "0 0 100", None),
        ("200mm", "0 0 100 50 3", None),
        ("200", "0 0 100 50", None),
        ("100%", "0 0 100 50", None),
    ],
)
def test_how_long_a_unit_of_an_svg_file_is(width: str, box: str, unit: float | None) -> None:
    """derived: the width in mm over that of its viewBox; what a rectangle does not say is 0 (SVG 2, 10.2, from memory),
    and down is less
    """
    lines, found = outline_svg.closed_lines(svg('<rect width="10" height="5"/>', f'width="{width}" viewBox="{box}"'))
    assert lines == [[0j, 10 + 0j, 10 - 5j, -5j]]
    assert found == (None if unit is None else pytest.approx(unit))


def test_after_its_end_a_path_goes_on_from_where_it_began() -> None:
    """derived: SVG 2, 9.3.4: closing a subpath brings the point back to its start, from which `m` counts"""
    lines, _ = outline_svg.closed_lines(svg('<path d="M 5 5 h 20 v 10 z m 40 0 h 4 v 2 z"/>'))
    assert [line[0].real for line in lines] == [5.0, 45.0]
    again, _ = outline_svg.closed_lines(svg('<path d="M 5 5 h 20 v 10 z h -4 v -2 z"/>'))
    assert again[1][:2] == [complex(5, -5), complex(1, -5)]


@pytest.mark.parametrize(
    ("smooth", "plain"),
    [
        # derived: the first control of S is the last one before it, seen from the place between them; of T likewise
        (
            "M20 40 C20 60 60 60 60 40 S100 20 100 40 V90 H20 Z",
            "M20 40 C20 60 60 60 60 40 C60 20 100 20 100 40 V90 H20 Z",
        ),
        ("M20 40 Q40 70 60 40 T100 40 V90 H20 Z", "M20 40 Q40 70 60 40 Q80 10 100 40 V90 H20 Z"),
        # behind another command there is none, and the place itself stands for it
        ("M20 40 L60 40 S100 20 100 40 V90 H20 Z", "M20 40 L60 40 C60 40 100 20 100 40 V90 H20 Z"),
        ("M20 40 L60 40 T100 40 V90 H20 Z", "M20 40 L60 40 Q60 40 100 40 V90 H20 Z"),
        ("M20 40 Q40 70 60 40 S100 20 100 40 V90 H20 Z", "M20 40 Q40 70 60 40 C60 40 100 20 100 40 V90 H20 Z"),
    ],
)
def test_a_smooth_curve_goes_on_as_the_one_before_it(smooth: str, plain: str) -> None:
    """Scalable Vector Graphics (SVG) 2, 9.3.6 and 9.3.7."""
    one, other = (read_outline(svg(f'<path d="{d}"/>'), "a.svg") for d in (smooth, plain))
    assert np.array(one.points) == pytest.approx(np.array(other.points), abs=1e-6)


@pytest.mark.parametrize(("insunits", "mm"), [(1, 25.4), (2, 304.8), (4, 1.0), (5, 10.0), (6, 1000.0)])
def test_a_drawing_in_any_unit_has_its_size(insunits: int, mm: float) -> None:
    """The international inch and foot, 25.4 and 304.8 mm (exact since 1959); $INSUNITS as in the DXF reference."""
    assert read_outline(dxf(insunits=insunits, scale=1 / mm), "a.dxf").length == pytest.approx(150.0, abs=1e-3)
