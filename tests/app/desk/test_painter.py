"""What the painter puts on the screen, seen in its pixels."""

from collections.abc import Iterator

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot

from app.desk import look
from app.desk.painter import Prepared, Style, paint, paint_text
from app.desk.plan import Plan
from app.desk.view import View
from export.drawing.marks import Anchor, Text

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
