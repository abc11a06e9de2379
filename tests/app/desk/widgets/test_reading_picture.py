"""The pictures of how the straightedge and the rule are held: one for each kind of reading, none blank."""

from itertools import combinations
from typing import get_args

import pytest
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from app.desk.widgets.look import DARK, LIGHT, Look
from app.desk.widgets.reading_picture import ReadingPicture
from geometry.job.measured.kinds import Kind
from geometry.job.measured.readings import Place

KINDS: tuple[Kind, ...] = get_args(Kind)
PLACES: tuple[Place, ...] = get_args(Place)
SHOWN: list[tuple[Kind, Place | None]] = [
    *((kind, None) for kind in KINDS if kind != "height"),
    *(("height", place) for place in PLACES),
]
LOOKS = pytest.mark.parametrize("look", [Look(LIGHT), Look(DARK, 1.5)], ids=["light", "dark and larger"])


def picture(qtbot: QtBot, look: Look, kind: Kind, place: Place | None) -> QImage:
    widget = ReadingPicture(look)
    qtbot.addWidget(widget)
    widget.resize(widget.sizeHint())
    widget.show_kind(kind, "how it is read", place)
    return widget.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)


@LOOKS
@pytest.mark.parametrize(("kind", "place"), SHOWN)
def test_every_kind_has_a_picture(qtbot: QtBot, look: Look, kind: Kind, place: Place | None) -> None:
    image = picture(qtbot, look, kind, place)
    ground = image.pixel(image.width() // 2, 3)
    drawn = [
        (x, y) for x in range(8, image.width() - 8) for y in range(8, image.height() - 8) if image.pixel(x, y) != ground
    ]
    assert len(drawn) > 100 * look.text_scale
    assert max(x for x, _ in drawn) - min(x for x, _ in drawn) > image.width() / 3


def test_no_two_pictures_are_alike(qtbot: QtBot) -> None:
    """But the heights at frets, which are read alike."""
    images = {shown: picture(qtbot, Look(LIGHT), *shown) for shown in SHOWN if shown != ("height", "fret 12")}
    assert [pair for pair in combinations(images, 2) if images[pair[0]] == images[pair[1]]] == []


def test_a_picture_grows_with_the_text(qtbot: QtBot) -> None:
    small, large = (picture(qtbot, Look(LIGHT, scale), "off", None) for scale in (1.0, 2.0))
    assert (large.width(), large.height()) == (2 * small.width(), 2 * small.height())
