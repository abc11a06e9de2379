"""The desk against WCAG 2.2 (W3C, 12 December 2024), level AA: contrast of text and of marks, focus, targets, reflow.

What is painted is judged by its pixels: the **ground** is the commonest colour of a part, its **strength** the contrast
of whatever stands out from it most.
"""

from collections.abc import Iterator
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
from app.desk.widgets.look import DARK, LIGHT, Palette
from app.desk.widgets.signs import Sign, paint_sign
from export.drawing.marks import Purpose, Tone
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, sample
from tests.app.desk.for_every_hand.test_accessible import CARDS, is_control
from tests.app.desk.widgets.test_look import contrast
from tests.short_list import short_list

TEXT_RATIO, MARK_RATIO, TARGET = 4.5, 3.0, 24
"""WCAG 2.2: success criteria 1.4.3 (contrast, minimum), 1.4.11 (non-text contrast), 2.5.8 (target size, CSS pixels)."""
DIALOGS = ["About the job…", "Keys", "Before a bridge is moved"]
PALETTES = pytest.mark.parametrize("p", [LIGHT, DARK], ids=["light", "dark"])
THEMES = pytest.mark.parametrize("theme", ["light", "dark"])
GROUNDS = ("card", "paper", "row", "look_ground", "body", "board", "bridge")


def settle() -> None:
    for _ in range(3):
        QApplication.processEvents()


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


def all_of(desk: Desk, card: str) -> list[QWidget]:
    """What a card and the frame about it show."""
    desk.frame.resize(1280, 2600)  # nothing is scrolled away
    desk.cards.open(card)
    settle()
    return [found for found in desk.frame.findChildren(QWidget) if found.window() is desk.frame and in_sight(found)]


# 1.4.3: words


def words_of(widget: QWidget) -> str:
    if isinstance(widget, QComboBox):
        return widget.currentText()
    return widget.text() if isinstance(widget, QLabel | QAbstractButton | QLineEdit) else ""


@THEMES
def test_words_stand_out(open_desk: OpenDesk, theme: str) -> None:
    desk = open_desk(sample("one-slip"))
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of its words
    faint = {}
    for card in CARDS:
        worded = [widget for widget in all_of(desk, card) if words_of(widget).strip() and widget.isEnabled()]
        assert len(worded) > 8, card
        whole = desk.frame.grab().toImage()
        for widget in worded:
            if (ratio := strength(whole.copy(place_of(widget)))) < TEXT_RATIO:
                faint[card, words_of(widget)] = ratio
    assert faint == {}


@THEMES
@pytest.mark.parametrize("command", DIALOGS)
def test_words_in_a_dialog_stand_out(desk: Desk, command: str, theme: str) -> None:
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of its words
    dialog = opened(desk, command)
    worded = [w for w in dialog.findChildren(QWidget) if words_of(w).strip() and w.isEnabled() and in_sight(w)]
    assert worded
    assert {words_of(w): s for w in worded if (s := strength(seen(w))) < TEXT_RATIO} == {}


@THEMES
@pytest.mark.parametrize("kind", [QLineEdit, QPlainTextEdit])
def test_what_stands_in_an_empty_field_stands_out(
    desk: Desk, theme: str, kind: type[QLineEdit] | type[QPlainTextEdit]
) -> None:
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of its words
    field = kind(desk)
    field.setPlaceholderText("Name of the printer")
    field.resize(300, 40)  # room for all of it
    field.show()
    settle()
    within = field.grab().toImage().copy(field.rect().adjusted(4, 4, -4, -4))  # not its edge
    assert strength(within) >= TEXT_RATIO


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


def opened(desk: Desk, command: str) -> QDialog:
    desk.menu_actions[command].trigger()
    settle()
    return next(found for found in desk.findChildren(QDialog) if found.isVisible())


# 1.4.11: what can be operated, and marks that carry meaning


def edged(widget: QWidget) -> bool:
    """Whether a control is told from its ground by an edge."""
    plain = widget.property("role") in ("plain", "name", "cell")
    return isinstance(widget, QLineEdit | QComboBox | QPushButton | QCheckBox | QRadioButton) and not plain


@THEMES
def test_the_edges_of_controls_stand_out(open_desk: OpenDesk, theme: str) -> None:
    desk = open_desk(sample("one-slip"))
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of its words
    weak = {}
    for card in CARDS:
        found = [widget for widget in all_of(desk, card) if edged(widget) and widget.isEnabled()]
        inside = desk.card.findChildren(QWidget)
        assert found or not any(edged(w) and w.isVisible() and w.isEnabled() for w in inside), card
        whole = desk.frame.grab().toImage()
        for widget in found:
            middle, wide = widget.height() // 2, min(widget.width(), 24)
            box = whole.copy(place_of(widget)).copy(0, middle, wide, 1)  # across the edge at the left, half-way up
            if (ratio := strength(box)) < MARK_RATIO:
                weak[card, widget.accessibleName()] = ratio
    assert weak == {}


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


@THEMES
def test_the_key_under_the_table_stands_out(open_desk: OpenDesk, theme: str) -> None:
    """Both marks of it: the line that each lies on as well."""
    desk = open_desk(sample("one-slip"))
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of its words
    desk.cards.open("Measure")
    settle()
    key = desk.measure.findChild(QWidget, "fits key")
    assert key is not None
    line = seen(key).copy(25, key.height() // 2 + 1, 2, 3)  # where nothing but the line is
    assert strength(line) >= MARK_RATIO


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
    settle()
    return changed(with_focus, seen(widget, 3)) >= 2 * (TARGET - 4)


def bring_into_sight(widget: QWidget) -> None:
    """Scroll to a widget, as the tab key does."""
    area = widget.parentWidget()
    while area is not None and not isinstance(area, QScrollArea):
        area = area.parentWidget()
    if area is not None:
        area.ensureWidgetVisible(widget)
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
    pairs, counts = np.unique(np.stack((before[differ], after[differ])), axis=1, return_counts=True)
    told = [contrast(f"#{a:06x}", f"#{b:06x}") >= MARK_RATIO for a, b in pairs.T]
    return int(counts[told].sum()) if told else 0


@THEMES
@pytest.mark.parametrize("job", [sample("one-slip"), short_list()], ids=["one slip", "short list"])
def test_the_focus_is_seen(open_desk: OpenDesk, theme: str, job: Job) -> None:
    """The short list has findings on its Measure card, beside no reading to look at again."""
    desk = open_desk(job)
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of its words
    refuge = QWidget(desk.frame)  # somewhere for the focus to be that shows nothing
    refuge.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    refuge.setGeometry(0, 0, 1, 1)
    refuge.show()
    unseen = {}
    for card in CARDS:
        desk.cards.open(card)
        settle()
        if missed := unseen_focus(desk, refuge):
            unseen[card] = missed
    assert unseen == {}


@pytest.mark.parametrize("command", DIALOGS)
def test_the_focus_is_seen_in_a_dialog(desk: Desk, command: str) -> None:
    dialog = opened(desk, command)
    refuge = QWidget(dialog)
    refuge.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    refuge.setGeometry(0, 0, 1, 1)
    refuge.show()
    assert unseen_focus(dialog, refuge) == []


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


@pytest.mark.parametrize("name", ["one-slip", "tie-bridge"])
def test_targets_are_large_enough(open_desk: OpenDesk, name: str) -> None:
    desk = open_desk(sample(name))
    small = {}
    for card in CARDS:
        desk.cards.open(card)
        settle()
        places = targets(desk.frame)
        assert len(places) > 8, card
        if found := too_small(places):
            small[card] = found
    assert small == {}


@pytest.mark.parametrize("command", DIALOGS)
def test_targets_in_a_dialog_are_large_enough(desk: Desk, command: str) -> None:
    assert too_small(targets(opened(desk, command))) == []


def test_lines_of_tables_are_large_enough(desk: Desk) -> None:
    seen_heights = {}
    for card in CARDS:
        desk.cards.open(card)
        settle()
        for view in desk.card.findChildren(QAbstractItemView):
            if view.isVisible() and view.accessibleName() and view.model() is not None and view.model().rowCount():
                seen_heights[card, view.accessibleName()] = view.visualRect(view.model().index(0, 0)).height()
    assert seen_heights
    assert {where: high for where, high in seen_heights.items() if high < TARGET} == {}


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


@pytest.mark.parametrize("name", ["one-slip", "tie-bridge"])
def test_nothing_is_scrolled_sideways_at_twice_the_size(open_desk: OpenDesk, name: str) -> None:
    desk = open_desk(sample(name))
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    found = {}
    for card in CARDS:
        desk.cards.open(card)
        settle()
        assert desk.frame.width() == 1280, card
        if areas := sideways(desk.frame):
            found[card] = areas
    assert found == {}


@pytest.mark.parametrize("command", DIALOGS)
def test_no_dialog_is_scrolled_sideways_at_twice_the_size(desk: Desk, command: str) -> None:
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    dialog = opened(desk, command)
    assert dialog.width() <= 1280
    assert sideways(dialog) == []


def sideways(inside: QWidget) -> list[str]:
    """What has more to show at its side than there is room for."""
    areas = [found for found in inside.findChildren(QAbstractScrollArea) if found.isVisible()]
    return [area.accessibleName() for area in areas if area.horizontalScrollBar().maximum() > 0]
