"""Where the saddle and the bridge of every sample job lie, to a thousandth of a millimetre.

What the readings and the strings' make give (nominal places, compensation, the nut's slope) is taken from the layout;
from there on the places are worked out again, in plane geometry of this file's own. The figures in `RECORDED` say that
what is taken has not changed either: they are the program's own of 28 November 2026 and guard against change only.
"""

import math
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from app.file import job_file, samples
from geometry.job import Job
from geometry.layout import XY, Layout
from geometry.units import mm
from geometry.work_out import work_out

NEAR = 0.001

RECORDED: dict[str, tuple[tuple[XY, XY], tuple[XY, XY, XY, XY]]] = {
    "leaning-neck": (
        ((646.7464, 36.9693), (649.7603, -36.9693)),
        ((636.4946, 76.9389), (636.4946, -77.0611), (663.4946, -77.0611), (663.4946, 76.9389)),
    ),
    "one-slip": (
        ((633.5651, 37.4716), (636.4859, -37.4716)),
        ((623.6467, 75.9416), (623.6467, -76.0584), (649.6467, -76.0584), (649.6467, 75.9416)),
    ),
    "small-four": (
        ((433.0367, 27.5000), (433.0367, -27.5000)),
        ((423.8067, 42.0000), (423.8067, -42.0000), (444.8067, -42.0000), (444.8067, 42.0000)),
    ),
    "tie-bridge": (
        ((652.4632, 40.0000), (652.4632, -40.0000)),
        ((640.1432, 94.0000), (640.1432, -94.0000), (669.1432, -94.0000), (669.1432, 94.0000)),
    ),
    "turned-left-old-slot": (
        ((649.7374, 36.4861), (646.9605, -36.4861)),
        ((638.2298, 76.2604), (638.2298, -76.1396), (665.2173, -76.1396), (665.2173, 76.2604)),
    ),
    "turned-left": (
        ((649.7374, 36.4861), (646.9605, -36.4861)),
        ((636.5073, 76.2604), (636.5073, -76.1396), (663.4948, -76.1396), (663.4948, 76.2604)),
    ),
    "bolted-left": (
        ((648.5651, 36.9676), (645.4686, -36.9676)),
        ((634.8782, 78.0628), (634.8782, -77.9372), (662.8782, -77.9372), (662.8782, 78.0628)),
    ),
    "redrilled-left": (
        ((652.2914, 36.9787), (649.7780, -36.9787)),
        ((638.8956, 77.5509), (638.8956, -77.4491), (666.8956, -77.4491), (666.8956, 77.5509)),
    ),
    "slotted-neck-screw": (
        ((629.5159, 37.9641), (632.8196, -37.9641)),
        ((619.7892, 81.9348), (619.7892, -82.0652), (645.7892, -82.0652), (645.7892, 81.9348)),
    ),
    "five-pairs": (
        ((374.0953, 34.9987), (374.6978, -34.9987)),
        ((361.6266, 54.9849), (361.6266, -55.0151), (390.6266, -55.0151), (390.6266, 54.9849)),
    ),
    "small-askew": (
        ((613.2135, 36.9398), (617.4321, -36.9398)),
        ((603.5652, 75.9145), (603.5652, -76.0855), (630.5652, -76.0855), (630.5652, 75.9145)),
    ),
}


@lru_cache
def worked(path: Path) -> tuple[Job, Layout]:
    job = job_file.read(path)
    return job, work_out(job)


class Line(NamedTuple):
    """The saddle line x = at + lean × y, and the outer strings' y on it at [left, right]."""

    at: float
    lean: float
    left: float
    right: float

    def x(self, y: float) -> float:
        return self.at + self.lean * y


def side_by_side(sizes: list[float], spread: float, gaps: bool, courses: list[int | None], pair: float) -> list[float]:
    """Strings' centres across from the middle of the outer ones: evenly, or with even room from side to side; two of
    one course a `pair` apart, and then even room from course to course.
    """
    pairs = [a is not None and a == b for a, b in pairwise(courses)]
    if any(pairs):
        room = (spread - sum(pairs) * pair) / (len(pairs) - sum(pairs))
        return [sum((pair if one else room for one in pairs[:i]), start=-spread / 2) for i in range(len(sizes))]
    if not gaps:
        return [spread * (i / (len(sizes) - 1) - 0.5) for i in range(len(sizes))]
    room = (spread - sum((a + b) / 2 for a, b in pairwise(sizes))) / (len(sizes) - 1)
    places = [0.0]
    for a, b in pairwise(sizes):
        places.append(places[-1] + room + (a + b) / 2)
    return [place - spread / 2 for place in places]


def saddle_line(job: Job, layout: Layout) -> Line:
    """The strings from the nut to where each leaves the saddle, and the straight line nearest to those places.

    Outer strings run from the nut's front toward their places at the saddle, taken at the mean of the scales; along
    them lie the nominal places, and those of the strings between on the straight line from one to the other. Each
    string runs to its own break point, which lies its compensation past where the string crosses that line.
    """
    neck, frets, strings = layout.neck, layout.frets, job.strings
    assert neck is not None
    assert frets is not None
    assert strings is not None
    assert strings.saddle is not None
    way = 1.0 if job.bass == "left" else -1.0
    sizes = [mm(string.diameter) if string.diameter is not None else 0.0 for string in strings.list]
    spread = mm(strings.nut.spread) if strings.nut is not None else abs(neck.nut[0][1] - neck.nut[1][1]) - 7.0
    courses = [string.course for string in strings.list]
    pairs = [mm(at.pair) if at is not None and at.pair is not None else 0.0 for at in (strings.nut, strings.saddle)]
    at_nut = side_by_side(sizes, spread, strings.nut is not None and strings.nut.spacing == "gaps", courses, pairs[0])
    at_saddle = side_by_side(sizes, mm(strings.saddle.spread), strings.saddle.spacing == "gaps", courses, pairs[1])
    start_y, end_y = (np.array([way * y + mm(strings.shift) for y in ys]) for ys in (at_nut, at_saddle))
    (lx, ly), (rx, ry) = neck.nut
    start_x = rx + (lx - rx) / (ly - ry) * (start_y - ry)
    left, right = (0, -1) if way < 0 else (-1, 0)
    nominal = {}
    for side, length in ((left, frets.nominal.left), (right, frets.nominal.right)):
        run, rise = frets.scale - start_x[side], end_y[side] - start_y[side]
        share = length / math.hypot(run, rise)
        nominal[side] = start_x[side] + share * run, start_y[side] + share * rise
    (x1, y1), (x2, y2) = nominal[left], nominal[right]
    lean = (x1 - x2) / (y1 - y2)
    past = np.array([string.compensation for string in layout.strings])
    broken = x2 + lean * (end_y - y2) + past
    for _ in range(60):
        slope = (end_y - start_y) / (broken - start_x)
        crossed = (x2 + lean * (start_y - slope * start_x - y2)) / (1 - lean * slope)
        broken = crossed + past
    assert job.saddle is not None
    if job.saddle.straight:
        fit = Line(float(broken.mean()), 0.0, end_y[left], end_y[right])
    else:
        lean, at = np.polyfit(end_y, broken, 1)
        fit = Line(float(at), float(lean), end_y[left], end_y[right])
    # in the saddle's thickness there is room for each string's peak: then the line is that of least squares
    thickness = mm(job.saddle.thickness)
    off = broken - fit.at - fit.lean * end_y
    assert -job.saddle.peak_at * thickness < off.min()
    assert off.max() < (1 - job.saddle.peak_at) * thickness
    return fit


def slot_front(job: Job, line: Line) -> tuple[complex, complex]:
    """The middle of the slot's front edge that the line asks for, and the unit number along it to the left."""
    assert job.saddle is not None
    middle = (line.left + line.right) / 2
    leftward = complex(line.lean, 1.0) / math.hypot(line.lean, 1.0)
    return complex(line.x(middle), middle) + 1j * leftward * job.saddle.peak_at * mm(job.saddle.thickness), leftward


PATHS = [path for path in samples.paths() if job_file.read(path).bridge is not None]
"""Those whose bridge is glued: the others' have tests of their own."""
named = pytest.mark.parametrize("path", PATHS, ids=[path.name.removesuffix(".job.json") for path in PATHS])


@named
def test_the_saddle_line_is_the_one_of_plane_geometry(path: Path) -> None:
    job, layout = worked(path)
    line = saddle_line(job, layout)
    assert layout.saddle is not None
    wanted = (line.x(line.left), line.left), (line.x(line.right), line.right)
    for found, at in zip(layout.saddle.at_strings, wanted, strict=True):
        assert found == pytest.approx(at, abs=NEAR)
    assert job.saddle is not None
    assert job.saddle.slot_length is not None
    middle, reach = (line.left + line.right) / 2, mm(job.saddle.slot_length) / 2 / math.hypot(line.lean, 1.0)
    for found, y in zip(layout.saddle.line, (middle + reach, middle - reach), strict=True):
        assert found == pytest.approx((line.x(y), y), abs=NEAR)


@named
def test_the_bridge_and_its_slot_stand_by_the_line(path: Path) -> None:
    """Every sample's bridge is seated square to the neck. derived: its front lies as far before the middle of the slot
    that is wanted as the cut slot's middle lies behind it, or 0.38 of its width (common practice, no source).
    """
    job, layout = worked(path)
    middle, leftward = slot_front(job, saddle_line(job, layout))
    assert layout.saddle is not None
    assert layout.bridge is not None
    assert job.bridge is not None
    assert job.saddle is not None
    assert job.saddle.slot_length is not None
    assert job.bridge.seat == "square"
    half, deep, long = mm(job.bridge.length) / 2, mm(job.bridge.width), mm(job.saddle.slot_length)
    cut = job.bridge.slot_front
    if cut is not None:
        leftward = complex(mm(cut.left) - mm(cut.right), long) / math.hypot(mm(cut.left) - mm(cut.right), long)
    behind = 0.38 * deep if cut is None else (mm(cut.left) + mm(cut.right)) / 2
    front = middle - behind
    corners = [front + complex(x, y) for x, y in ((0, half), (0, -half), (deep, -half), (deep, half))]
    for found, at in zip(layout.bridge.corners, corners, strict=True):
        assert found == pytest.approx((at.real, at.imag), abs=NEAR)
    ends = [middle + leftward * long / 2, middle - leftward * long / 2]
    back = -1j * leftward * mm(job.saddle.thickness)
    for found, at in zip(layout.saddle.slot, (*ends, ends[1] + back, ends[0] + back), strict=True):
        assert found == pytest.approx((at.real, at.imag), abs=NEAR)


@named
def test_the_pin_holes_lie_behind_the_slot_on_the_strings(path: Path) -> None:
    """derived: square to the slot, its thickness and `behind_slot` behind its front, and on the string's path."""
    job, layout = worked(path)
    assert layout.saddle is not None
    assert layout.bridge is not None
    assert job.bridge is not None
    assert job.saddle is not None
    if job.bridge.pins is None:
        assert not layout.bridge.pins
        return
    left, right = (complex(*at) for at in layout.saddle.front)
    square = -1j * (left - right) / abs(left - right)
    for hole, string in zip(layout.bridge.pins, layout.strings, strict=True):
        at, start, end = complex(*hole.at), complex(*string.nut_xy), complex(*string.break_point)
        behind = ((at - right) * square.conjugate()).real
        assert behind == pytest.approx(mm(job.saddle.thickness) + mm(job.bridge.pins.behind_slot), abs=NEAR)
        along = (end - start) / abs(end - start)
        assert ((at - start) * along.conjugate()).imag == pytest.approx(0.0, abs=NEAR)


@named
def test_nothing_moves_the_places_unseen(path: Path) -> None:
    _, layout = worked(path)
    assert layout.saddle is not None
    assert layout.bridge is not None
    line, corners = RECORDED[path.name.removesuffix(".job.json")]
    for found, before in zip((*layout.saddle.line, *layout.bridge.corners), (*line, *corners), strict=True):
        assert found == pytest.approx(before, abs=NEAR)
