"""The desk against WCAG 2.2 (W3C, 12 December 2024), level AA: contrast of text and of marks, focus, targets, reflow.

What is painted is judged by its pixels: the **ground** is the commonest colour of a part, its **strength** the contrast
of whatever stands out from it most.
"""

from collections.abc import Iterator
from functools import cache
from itertools import product
from typing import get_args

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QPushButton,
    QRadioButton,
    QScrollArea,
    QWidget,
)

from app.desk.frame.desk import Desk
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.painting.styles import Style, pen_of, tone_colour
from app.desk.widgets.look import DARK, LIGHT, Palette, Theme
from app.desk.widgets.signs import Sign, paint_sign
from export.drawing.marks import Purpose, Tone
from tests.app.desk.conftest import OpenDesk, sample, unpainted
from tests.app.desk.for_every_hand.test_accessible import CARDS, is_control
from tests.app.desk.widgets import test_look
from tests.short_list import short_list

TEXT_RATIO, MARK_RATIO, TARGET = 4.5, 3.0, 24
"""WCAG 2.2: success criteria 1.4.3 (contrast, minimum), 1.4.11 (non-text contrast), 2.5.8 (target size, CSS pixels)."""
DIALOGS = ["About the job…", "Keys", "Before a bridge is moved"]
PALETTES = pytest.mark.parametrize("p", [LIGHT, DARK], ids=["light", "dark"])
THEMES: tuple[Theme, ...] = "light", "dark"
GROUNDS = ("card", "paper", "row", "look_ground", "body", "board", "bridge")


contrast = cache(test_look.contrast)


def settle() -> None:
    for _ in range(3):
        QApplication.processEvents()


def each_card(desk: Desk) -> Iterator[str]:
    """Open each card, one after the other."""
    for card in CARDS:
        desk.cards.open(card)
        settle()
        yield card


def each_dialog(desk: Desk) -> Iterator[tuple[str, QDialog]]:
    """Open each dialog, one after the other."""
    for command in DIALOGS:
        desk.menu_actions[command].trigger()
        settle()
        dialog = next(found for found in desk.findChildren(QDialog) if found.isVisible())
        yield command, dialog
        dialog.close()


def refuge(inside: QWidget) -> QWidget:
    """Somewhere for the focus to be that shows nothing."""
    made = QWidget(inside)
    made.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    made.setGeometry(0, 0, 1, 1)
    made.show()
    return made


# what is painted

Array = NDArray[np.uint32]


def pixels(image: QImage) -> Array:
    """The colours of an image, (height, width), as 0xRRGGBB."""
    plain = image.convertToFormat(QImage.Format.Format_RGB32)
    line = plain.bytesPerLine() // 4
    found = np.frombuffer(plain.constBits(), dtype=np.uint32).reshape(plain.height(), line)
    return np.asarray(found[:, : plain.width()] & 0xFFFFFF)


def strength(image: QImage) -> float:
    """The contrast of what stands out most from the commonest colour."""
    found, counts = np.unique(pixels(image), return_counts=True)
    ground = f"#{found[counts.argmax()]:06x}"
    return max(contrast(f"#{name:06x}", ground) for name in found)


def seen(widget: QWidget, more: int = 0) -> QImage:
    """A widget as it stands in its window, with so many pixels round it."""
    return widget.window().grab(place_of(widget, more)).toImage()


def place_of(widget: QWidget, more: int = 0) -> QRect:
    """Where a widget stands in its window, with so many pixels round it."""
    window = widget.window()
    there = QRect(widget.mapTo(window, QPoint(0, 0)), widget.size()).adjusted(-more, -more, more, more)
    return there & window.rect()


def in_sight(widget: QWidget) -> bool:
    """Whether a widget is seen whole: nothing of it is scrolled away."""
    return widget.isVisible() and widget.visibleRegion().boundingRect() == widget.rect()


def all_of(desk: Desk) -> list[QWidget]:
    """What the open card and the frame about it show."""
    return [found for found in desk.frame.findChildren(QWidget) if found.window() is desk.frame and in_sight(found)]


# 1.4.3: words


def words_of(widget: QWidget) -> str:
    if isinstance(widget, QComboBox):
        return widget.currentText()
    return widget.text() if isinstance(widget, QLabel | QAbstractButton | QLineEdit) else ""


def test_words_edges_and_marks_on_the_cards_stand_out(open_desk: OpenDesk) -> None:
    """1.4.3 of words, and 1.4.11 of the edges of controls and of the key under the table."""
    desk = open_desk(sample("one-slip"))
    desk.frame.resize(1280, 2600)  # nothing is scrolled away
    faint = {}
    for theme in THEMES:
        desk.preferences.set_theme(theme)
        for card in each_card(desk):
            shown, whole = [widget for widget in all_of(desk) if widget.isEnabled()], desk.frame.grab().toImage()
            worded = [widget for widget in shown if words_of(widget).strip()]
            assert len(worded) > 8, card
            for widget in worded:
                if (ratio := strength(whole.copy(place_of(widget)))) < TEXT_RATIO:
                    faint[theme, card, words_of(widget)] = ratio
            with_edges = [widget for widget in shown if edged(widget)]
            inside = desk.card.findChildren(QWidget)
            assert with_edges or not any(edged(w) and w.isVisible() and w.isEnabled() for w in inside), card
            for widget in with_edges:
                middle, wide = widget.height() // 2, min(widget.width(), 24)
                box = whole.copy(place_of(widget)).copy(0, middle, wide, 1)  # across the edge at the left, half-way up
                if (ratio := strength(box)) < MARK_RATIO:
                    faint[theme, card, widget.accessibleName()] = ratio
            if card == "Measure" and (ratio := strength(line_in_the_key(desk))) < MARK_RATIO:
                faint[theme, card, "the key under the table"] = ratio
    assert faint == {}


def line_in_the_key(desk: Desk) -> QImage:
    """What a mark in the key under the table lies on, where nothing but the line is."""
    key = desk.measure.findChild(QWidget, "fits key")
    assert key is not None
    return seen(key).copy(25, key.height() // 2 + 1, 2, 3)


def test_words_in_a_dialog_stand_out(desk: Desk) -> None:
    for theme in THEMES:
        desk.preferences.set_theme(theme)
        for command, dialog in each_dialog(desk):
            worded = [w for w in dialog.findChildren(QWidget) if words_of(w).strip() and w.isEnabled() and in_sight(w)]
            assert worded
            faint = {words_of(w): s for w in worded if (s := strength(seen(w))) < TEXT_RATIO}
            assert faint == {}, (theme, command)


def test_what_stands_in_an_empty_field_stands_out(desk: Desk) -> None:
    for theme, kind in product(THEMES, (QLineEdit, QPlainTextEdit)):
        desk.preferences.set_theme(theme)
        field = kind(desk)
        field.setPlaceholderText("Name of the printer")
        field.resize(300, 40)  # room for all of it
        field.show()
        settle()
        within = field.grab().toImage().copy(field.rect().adjusted(4, 4, -4, -4))  # not its edge
        assert strength(within) >= TEXT_RATIO, (theme, kind)


def test_words_that_are_too_faint_would_be_found(desk: Desk) -> None:
    label = desk.header.findChildren(QWidget)[0]
    faint = QLabel("Nut", label.window())
    faint.setStyleSheet(f"color: {LIGHT.outline}; background: {LIGHT.board};")
    faint.setGeometry(100, 300, 60, 24)
    faint.show()
    settle()
    assert strength(seen(faint)) < TEXT_RATIO


@PALETTES
def test_words_on_the_plan_stand_out(p: Palette) -> None:
    tones: tuple[Tone, ...] = get_args(Tone)
    weak = {
        (tone, ground): ratio
        for tone, ground in product(tones, ("card", "paper", "body", "bridge"))
        if (ratio := contrast(tone_colour(tone, p).name(), getattr(p, ground))) < TEXT_RATIO
    }
    assert weak == {}


# 1.4.11: what can be operated, and marks that carry meaning


def edged(widget: QWidget) -> bool:
    """Whether a control is told from its ground by an edge."""
    plain = widget.property("role") in ("plain", "name", "cell")
    return isinstance(widget, QLineEdit | QComboBox | QPushButton | QCheckBox | QRadioButton) and not plain


def style(purpose: Purpose, tone: Tone) -> Style:
    return Style(purpose, tone, False, 1.0, "", False)


@PALETTES
def test_lines_on_the_plan_stand_out(p: Palette) -> None:
    """A line is told from what it bounds: from paper, body and bridge; a body's edge from the board as well."""
    purposes: tuple[Purpose, ...] = get_args(Purpose)
    tones: tuple[Tone, ...] = get_args(Tone)
    weak = {}
    for purpose, tone in product(purposes, tones):
        line = pen_of(style(purpose, tone), p, 4.0).color().name()
        for ground in ("paper", "body", "board", "bridge"):
            if (ratio := contrast(line, getattr(p, ground))) < MARK_RATIO:
                weak[purpose, tone, ground] = ratio
    assert weak == {}


@PALETTES
@pytest.mark.parametrize("mark", ["field", "outline", "worked_out", "look", "quiet", "before", "ink"])
@pytest.mark.parametrize("ground", ["card", "paper", "row", "look_ground", "body"])
def test_marks_stand_out(p: Palette, mark: str, ground: str) -> None:
    assert contrast(getattr(p, mark), getattr(p, ground)) >= MARK_RATIO


@PALETTES
def test_a_tool_stands_out_by_its_edge(p: Palette) -> None:
    assert all(contrast(p.steel_line, getattr(p, ground)) >= MARK_RATIO for ground in ("card", "row", "steel"))


@PALETTES
@pytest.mark.parametrize("sign", [sign for sign in Sign if sign is not Sign.EMPTY])
@pytest.mark.parametrize("ground", ["card", "row", "look_ground"])
def test_signs_stand_out(p: Palette, sign: Sign, ground: str) -> None:
    image = QImage(15, 15, QImage.Format.Format_RGB32)
    image.fill(QColor(getattr(p, ground)))
    painter = QPainter(image)
    paint_sign(painter, sign, QRectF(0, 0, 15, 15), p)
    painter.end()
    assert strength(image) >= MARK_RATIO


# 2.4.7: the focus is seen


def focusable(inside: QWidget) -> Iterator[QWidget]:
    """All that the tab key comes to: of two that are alike, one may stand where no ring is shown."""
    for widget in inside.findChildren(QWidget):
        here = widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isEnabled() and widget.isVisible()
        if here and widget.focusProxy() is None and widget.window() is inside.window() and widget.accessibleName():
            yield widget


def unseen_focus(inside: QWidget, elsewhere: QWidget) -> list[str]:
    """The controls whose look is the same with and without the focus, to within what an eye can tell. One that seems so
    is looked at twice: what is told late may have pushed it out of sight just then.
    """
    same = [widget for widget in list(focusable(inside)) if not shows_focus(widget, elsewhere)]
    return [f"{type(w).__name__} {w.accessibleName()}" for w in same if not shows_focus(w, elsewhere)]


def shows_focus(widget: QWidget, elsewhere: QWidget) -> bool:
    bring_into_sight(widget)
    widget.setFocus(Qt.FocusReason.TabFocusReason)
    settle()
    assert widget.hasFocus(), widget.accessibleName()
    with_focus = seen(widget, 3)
    elsewhere.setFocus(Qt.FocusReason.TabFocusReason)
    return changed(with_focus, seen(widget, 3)) >= 2 * (TARGET - 4)


def bring_into_sight(widget: QWidget) -> None:
    """Scroll to a widget, as the tab key does."""
    area = widget.parentWidget()
    while area is not None and not isinstance(area, QScrollArea):
        area = area.parentWidget()
    if area is not None:
        before = area.verticalScrollBar().value()
        area.ensureWidgetVisible(widget)
        if area.verticalScrollBar().value() != before:
            settle()


def changed(one: QImage, other: QImage) -> int:
    """How many pixels differ at 3:1 at least, the ratio that 1.4.11 asks of a focus ring; none can be told where the
    size has just changed.
    """
    assert not one.isNull()
    if one.size() != other.size():
        return 0
    before, after = pixels(one), pixels(other)
    differ = before != after
    pairs, counts = np.unique(before[differ].astype(np.uint64) << 24 | after[differ], return_counts=True)
    told = [contrast(f"#{pair >> 24:06x}", f"#{pair & 0xFFFFFF:06x}") >= MARK_RATIO for pair in map(int, pairs)]
    return int(counts[told].sum()) if told else 0


def test_the_focus_is_seen(desk: Desk, subtests: pytest.Subtests) -> None:
    """The short list has findings on its Measure card, beside no reading to look at again."""
    elsewhere = refuge(desk.frame)
    for theme, (name, job) in product(THEMES, (("one slip", sample("one-slip")), ("short list", short_list()))):
        with subtests.test(f"{theme}, {name}"):
            desk.document.start(job)
            desk.preferences.set_theme(theme)
            assert {card: missed for card in each_card(desk) if (missed := unseen_focus(desk, elsewhere))} == {}


def test_the_focus_is_seen_in_a_dialog(desk: Desk) -> None:
    for command, dialog in each_dialog(desk):
        assert unseen_focus(dialog, refuge(dialog)) == [], command


# 2.5.8: targets


def targets(inside: QWidget) -> list[tuple[str, QRect]]:
    """What can be pressed, with its place in the window; the parts that other controls are made of are theirs."""
    found = []
    for widget in inside.findChildren(QWidget):
        part = isinstance(widget.parent(), QComboBox) or isinstance(widget, Plan | QAbstractItemView)
        if (
            is_control(widget)
            and not part
            and widget.isVisible()
            and widget.isEnabled()
            and widget.window() is inside.window()
        ):
            name = f"{type(widget).__name__} {widget.accessibleName()}"
            found.append((name, QRect(widget.mapTo(widget.window(), QPoint(0, 0)), widget.size())))
    return found


def too_small(places: list[tuple[str, QRect]]) -> list[str]:
    """The targets under 24 by 24 pixels whose circle of 24, about their middle, would meet another target or its
    circle; for the circles their squares are taken, which is stricter.
    """

    def ring(box: QRect) -> QRect:
        square = QRect(0, 0, TARGET, TARGET)
        square.moveCenter(box.center())
        return square

    def reach(box: QRect) -> list[QRect]:
        return [box] if min(box.width(), box.height()) >= TARGET else [box, ring(box)]

    small = [place for place in places if min(place[1].width(), place[1].height()) < TARGET]
    return [
        f"{name} {box.width()} by {box.height()}, beside {other}"
        for name, box in small
        for other, there in places
        if there is not box and any(ring(box).intersects(part) for part in reach(there))
    ]


def line_heights(desk: Desk) -> dict[str, int]:
    """The height of the first line of each table and list that is seen."""
    views = [view for view in desk.card.findChildren(QAbstractItemView) if view.isVisible() and view.accessibleName()]
    models = [(view, view.model()) for view in views]
    return {v.accessibleName(): v.visualRect(m.index(0, 0)).height() for v, m in models if m and m.rowCount()}


def test_targets_and_lines_of_tables_are_large_enough(desk: Desk, subtests: pytest.Subtests) -> None:
    unpainted(desk)
    for name in ("leaning-neck", "one-slip", "tie-bridge"):
        with subtests.test(name):
            desk.document.start(sample(name))
            small: dict[str, list[str]] = {}
            high: dict[tuple[str, str], int] = {}
            for card in each_card(desk):
                places = targets(desk.frame)
                assert len(places) > 8, card
                if found := too_small(places):
                    small[card] = found
                high |= {(card, called): height for called, height in line_heights(desk).items()}
            assert small == {}
            assert high
            assert {where: height for where, height in high.items() if height < TARGET} == {}


def test_targets_in_a_dialog_are_large_enough(desk: Desk) -> None:
    for command, dialog in each_dialog(desk):
        assert too_small(targets(dialog)) == [], command


def test_lines_of_menus_are_large_enough(desk: Desk) -> None:
    menus = [menu for menu in desk.frame.findChildren(QMenu) if menu.actions()]
    assert len(menus) > 3
    for menu in menus:
        for action in menu.actions():
            if not action.isSeparator():
                assert menu.actionGeometry(action).height() >= TARGET, action.text()


def test_a_target_that_is_too_small_would_be_found() -> None:
    close = [
        ("one", QRect(0, 0, 20, 20)),
        ("other", QRect(21, 0, 30, 30)),
    ]  # derived: 24 about its middle reach to 22 px
    apart = [("one", QRect(0, 0, 20, 20)), ("other", QRect(24, 0, 30, 30))]
    assert len(too_small(close)) == 1
    assert too_small(apart) == []


# 1.4.10: nothing is scrolled sideways


def test_nothing_is_scrolled_sideways_at_twice_the_size(desk: Desk, subtests: pytest.Subtests) -> None:
    unpainted(desk)
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    for name in ("one-slip", "tie-bridge"):
        with subtests.test(name):
            desk.document.start(sample(name))
            for card in each_card(desk):
                assert desk.frame.width() == 1280, card
                assert sideways(desk.frame) == [], card


def test_no_dialog_is_scrolled_sideways_at_twice_the_size(desk: Desk) -> None:
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    for command, dialog in each_dialog(desk):
        assert dialog.width() <= 1280, command
        assert sideways(dialog) == [], command


def sideways(inside: QWidget) -> list[str]:
    """What has more to show at its side than there is room for."""
    areas = [found for found in inside.findChildren(QAbstractScrollArea) if found.isVisible()]
    return [area.accessibleName() for area in areas if area.horizontalScrollBar().maximum() > 0]
