"""The rulers and the scale bar: a mark stands where the millimetre is, in the unit of the job, turned or not."""

import math
from itertools import product

import msgspec
import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QImage

from app.desk.frame.desk import Desk
from app.desk.plan.painting import rulers
from app.desk.plan.painting.rulers import EDGE, RulerMarks
from app.desk.plan.painting.view import View
from app.desk.widgets.look import LIGHT, Look
from geometry.units import Unit
from tests.app.desk.seen import Spy, words_on

AREA = QRectF(EDGE, EDGE, 900 - EDGE, 700 - EDGE)
MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}  # the inch: ISO 80000-3:2019, by definition
VIEWS = list(product(range(4), (False, True)))
UNITS: tuple[Unit, ...] = ("mm", "cm", "in")


def view_of(turn: int, inside: bool, scale: float = 1.3) -> View:
    return View(scale=scale, centre=(100.0, 5.0), turn=turn, inside=inside)


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize(("turn", "inside"), VIEWS)
@pytest.mark.parametrize("axis", [0, 1])
def test_a_mark_stands_where_the_instrument_has_that_length(unit: Unit, turn: int, inside: bool, axis: int) -> None:
    view = view_of(turn, inside)
    marks = RulerMarks(view, AREA, unit, axis)
    mm = 3 * MM[unit]
    at = view.transform(AREA.width(), AREA.height()).map(QPointF(mm, mm)) + AREA.topLeft()
    assert marks.at(3) == pytest.approx(at.x() if axis == 0 else at.y(), abs=1e-6)


@pytest.mark.parametrize(("turn", "inside"), VIEWS)
def test_before_the_nut_every_number_has_its_sign_and_across_the_neck_none_has(turn: int, inside: bool) -> None:
    image = QImage(900, 700, QImage.Format.Format_RGB32)
    view = view_of(turn, inside)
    painter = Spy(image)
    rulers.paint_rulers(painter, view, AREA, "mm", Look(LIGHT))
    painter.end()
    top, left = (
        {w: b for w, b in painter.words.items() if (b.center().y() < EDGE) is above} for above in (True, False)
    )
    along, across = (top, left) if turn % 2 == 0 else (left, top)
    back = view.transform(AREA.width(), AREA.height()).inverted()[0]
    for words, box in along.items():
        x = back.map(box.center() - AREA.topLeft()).x()
        assert float(words.replace("−", "-")) == pytest.approx(x, abs=1.0)
    assert any(words.startswith("−") for words in along)
    assert not any(words.startswith("−") for words in across)


@pytest.mark.parametrize(
    ("unit", "value", "said"),
    [
        ("mm", -200.0, "−200"),
        ("in", -0.5, "−0.5"),
        ("cm", 0.0, "0"),
        ("mm", -10000.0, "−10000"),
        ("mm", 10645.2, "10645.2"),
        ("in", 0.0625, "0.0625"),
    ],
)
def test_a_number_along_the_neck(unit: Unit, value: float, said: str) -> None:
    assert rulers.number(value, along_x=True) == said, unit


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("scale", [0.3, 1.3, 40.0])
def test_the_scale_bar_is_as_long_as_it_says(unit: Unit, scale: float) -> None:
    image = QImage(900, 700, QImage.Format.Format_RGB32)
    painter = Spy(image)
    rulers.paint_scale_bar(painter, view_of(0, False, scale), AREA, unit, Look(LIGHT))
    painter.end()
    (words,) = painter.words
    number, said = words.split()
    assert said == unit
    assert painter.lines[0].length() == pytest.approx(float(number) * MM[unit] * scale)


@pytest.mark.parametrize("clicks", [0, 1, 2])
def test_the_plan_is_ruled_in_the_jobs_unit(desk: Desk, monkeypatch: pytest.MonkeyPatch, clicks: int) -> None:
    for _ in range(clicks):
        desk.header.unit.click()
    unit, plan = desk.document.job.unit, desk.board.plan
    plan.set_view(msgspec.structs.replace(plan.view, centre=(1200.0, 0.0)))  # no number stands on both rulers there
    words = words_on(plan, monkeypatch)
    numbers = {w: b for w, b in words.items() if b.center().y() < EDGE and w.replace("−", "-").lstrip("-").isdecimal()}
    assert len(numbers) >= 3
    for said, box in numbers.items():
        x = plan.to_pixels((float(said.replace("−", "-")) * MM[unit], 0.0)).x()
        assert math.isclose(box.center().x(), x, abs_tol=1.0), said
    assert any(w.endswith(f" {unit}") and w.split()[0].isdecimal() for w in words), "the scale bar"
