"""The plots on the cards: painted as wide as the card, told to who does not see them, gone where nothing is known."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QScrollArea

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.plot_picture import PlotPicture
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.desk.widgets.look import DARK, LIGHT, Look
from export.drawing.marks import Circle
from geometry.job import Job
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import choose


def painted(picture: PlotPicture) -> int:
    """How many pixels are not the ground's."""
    image = picture.grab().toImage()
    ground = image.pixelColor(0, image.height() - 1)
    return sum(
        image.pixelColor(x, y) != ground for x in range(0, image.width(), 2) for y in range(0, image.height(), 2)
    )


def test_they_say_what_they_show(strings: StringsCard, desk: Desk) -> None:
    assert strings.picture.accessibleName() == "Cents at each fret"
    assert strings.picture.accessibleDescription().startswith("Farthest out of tune: string 1 ")
    assert strings.fits.accessibleDescription().startswith("12 fret readings; farthest from the fit is fret ")
    desk.cards.open("Bridge")
    bridge = desk.cards.get_as("Bridge", BridgeCard)
    assert bridge.doubt.accessibleDescription().startswith("The saddle’s ± in mm, and the share that each adds.")


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_they_are_painted_as_large_as_the_words_are(strings: StringsCard, scale: float) -> None:
    for palette in (LIGHT, DARK):
        strings.picture.show_look(Look(palette, scale))
        assert strings.picture.sizeHint().height() == pytest.approx(50.0 * 96 / 25.4 * scale, abs=1)
        assert strings.picture.plot is not None
        assert strings.picture.plot.size[0] * strings.picture.pixels == pytest.approx(strings.picture.width(), abs=1)
        assert painted(strings.picture) > 500


def test_nothing_known_nothing_shown(lend_desk: LendDesk) -> None:
    desk = lend_desk(Job())
    desk.cards.open("Strings")
    strings = desk.cards.get_as("Strings", StringsCard)
    assert not strings.picture.isVisible()
    assert not strings.fits.isVisible()
    assert not strings.cents_heading.isVisible()
    desk.cards.open("Bridge")
    assert not desk.cards.get_as("Bridge", BridgeCard).doubt.isVisible()


def test_the_doubt_follows_an_edit(bridge: BridgeCard, desk: Desk) -> None:
    """Typed compensation is exact: the strings' share falls to nothing."""
    assert "with the strings ±2.2, 93 %" in bridge.doubt.accessibleDescription()
    desk.cards.open("Strings")
    choose(desk.cards.get("Strings"), "Compensation", "typed for each string")
    desk.cards.open("Bridge")
    assert "with the strings ±2.2, 93 %" in bridge.doubt.accessibleDescription()
    strings = desk.document.job.strings
    assert strings is not None
    desk.document.edit("typed", replace(desk.document.job, strings=replace(strings, compensation=(2.0,) * 6)))
    said = bridge.doubt.accessibleDescription()
    assert said.count("with the strings ±0.6, 0 %") == 2


def test_a_pressed_fret_reading_is_gone_to(desk: Desk, strings: StringsCard) -> None:
    area = strings.findChild(QScrollArea)
    assert area is not None
    area.ensureWidgetVisible(strings.fits)
    assert strings.fits.plot is not None
    mark = next(
        m for m in strings.fits.plot.drawing.marks if m.of.startswith("reading:") and isinstance(m.shape, Circle)
    )
    assert isinstance(mark.shape, Circle)
    (x, y), pixels = mark.shape.centre, strings.fits.pixels
    at = QPointF(x * pixels, strings.fits.height() - y * pixels).toPoint()
    QTest.mouseClick(strings.fits, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    assert desk.cards.is_open("Measure")
    assert desk.measure.table.chosen == mark.of.partition(":")[2]
