"""The signs are told apart by their shapes, with no colour at all."""

from itertools import combinations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.desk.widgets.look import LIGHT
from app.desk.widgets.signs import Sign, paint_sign

BLACK = replace(LIGHT, **{name: "#000000" for name in ("quiet", "worked_out", "look", "ink")})


def painted(sign: Sign) -> bytes:
    image = QImage(26, 26, QImage.Format.Format_Grayscale8)
    image.fill(QColor("white"))
    painter = QPainter(image)
    paint_sign(painter, sign, QRectF(0, 0, 26, 26), BLACK)
    painter.end()
    return bytes(image.constBits())


@pytest.mark.parametrize(("one", "other"), list(combinations(Sign, 2)))
def test_no_two_signs_have_one_shape(one: Sign, other: Sign) -> None:
    differing = sum(abs(a - b) > 128 for a, b in zip(painted(one), painted(other), strict=True))
    assert differing > 15, (one, other)
