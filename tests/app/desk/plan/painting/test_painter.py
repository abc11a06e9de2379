"""What the painter puts on the screen, seen in its pixels."""

import math
from collections.abc import Iterator

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPainter, QPainterPath
from pytestqt.qtbot import QtBot

from app.desk.plan.painting.painted_words import paint_text
from app.desk.plan.painting.painter import Prepared, add_shape, paint
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.painting.styles import Style
from app.desk.plan.painting.view import View
from app.desk.widgets import look
from export.drawing.flatten import arc_between, on_arc
from export.drawing.marks import Anchor, Path, Text

WORDS = Style("note", "measured", False, 1.0, "", False)
VALUE = Style("measured", "measured", False, 1.0, "reading", False)


@pytest.fixture
def plan(qtbot: QtBot) -> Plan:
    made = Plan(look.Look(look.DARK), detail=True)
    qtbot.addWidget(made)
    made.resize(320, 320)
    return made


@pytest.fixture
def image() -> QImage:
    blank = QImage(320, 320, QImage.Format.Format_RGB32)
    blank.fill(0)
    return blank


@pytest.fixture
def painter(image: QImage) -> Iterator[QPainter]:
    made = QPainter(image)
    yield made
    made.end()


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize("inside", [False, True])
@pytest.mark.parametrize("anchor", ["sb", "mm", "et"])
def test_words_are_found_where_they_are_painted(
    plan: Plan, image: QImage, painter: QPainter, turn: int, inside: bool, anchor: Anchor
) -> None:
    plan.set_view(View(scale=1.0, centre=(0.0, 0.0), turn=turn, inside=inside))
    text = Text((10.0, 15.0), "HHHH", 6.0, 0.3, anchor)
    paint_text(painter, text, WORDS, plan.transform, look.DARK, plan.paper_pixels)
    lit = np.frombuffer(image.constBits(), dtype=np.uint8).reshape(320, 320, 4)[:, :, :3].max(axis=2) > 60
    rows, columns = (np.flatnonzero(lit.any(axis=axis)) for axis in (1, 0))
    box = plan.text_box(text)
    assert (box.left() + 6, box.right() - 6) == pytest.approx((columns[0], columns[-1] + 1), abs=8)
    assert (box.top() + 6, box.bottom() - 6) == pytest.approx((rows[0], rows[-1] + 1), abs=8)


def test_what_is_drawn_over_a_plate_is_not_filled_with_it(plan: Plan, painter: QPainter) -> None:
    text = Text((0.0, 0.0), "44.4 mm", 2.6, 0.0, "mb")
    paint(painter, Prepared((), ((text, VALUE),), ()), plan.transform, look.DARK)
    assert painter.brush().style() == Qt.BrushStyle.NoBrush


@pytest.mark.parametrize("bulge", [0.01, -0.2, math.tan(math.pi / 8), -0.42, 1.0, -1.8])
def test_an_arc_lies_on_its_circle_from_end_to_end(bulge: float) -> None:
    """Within 0.0003 of its radius (derived: the Bézier curve of a quarter turn is 0.00027 off)."""
    a, b = (100.0, 20.0), (140.0, -10.0)
    arc, path = arc_between(a, b, bulge), QPainterPath()
    add_shape(path, Path(((*a, bulge), (*b, 0.0))))
    ends = path.pointAtPercent(0.0), path.pointAtPercent(1.0)
    assert [(end.x(), end.y()) for end in ends] == [pytest.approx(a), pytest.approx(b)]
    for share in np.linspace(0, 1, 41).tolist():
        at = path.pointAtPercent(share)
        assert math.dist(arc.centre, (at.x(), at.y())) == pytest.approx(arc.radius, rel=3e-4)
    half, middle = path.pointAtPercent(0.5), on_arc(arc, arc.start + arc.sweep / 2)
    assert (half.x(), half.y()) == pytest.approx(middle, abs=2e-3 * arc.radius)


def test_a_closed_path_bends_in_its_last_piece_too() -> None:
    """An arc stands off its chord by half the chord times the bulge (derived)."""
    path = QPainterPath()
    add_shape(path, Path(((0.0, 0.0, 0.0), (40.0, 0.0, 0.0), (40.0, 30.0, 0.0), (0.0, 30.0, 0.4)), closed=True))
    assert path.boundingRect().left() == pytest.approx(-0.4 * 30.0 / 2, abs=0.01)
