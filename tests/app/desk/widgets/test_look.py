"""The palette: text can be read, and the desk's own colours are those that were agreed."""

import re
from functools import cache

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QRadioButton, QSlider, QStyle, QStyleOptionButton, QStyleOptionSlider
from pytestqt.qtbot import QtBot

from app.desk.widgets.look import DARK, LIGHT, Look, Palette
from app.desk.widgets.style_sheet import apply_look, style_sheet


@cache
def luminance(name: str) -> float:
    """Relative luminance. Source: WCAG 2.2, relative luminance (threshold 0.04045, IEC 61966-2-1:1999)."""
    parts = [int(name[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(a: str, b: str) -> float:
    """Contrast ratio. Source: WCAG 2.2, definition of contrast ratio."""
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_ends_of_its_range() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)  # WCAG 2.2: "ranging from 1 to 21"
    assert contrast("#123456", "#123456") == 1


THEMES = pytest.mark.parametrize("p", [LIGHT, DARK], ids=["light", "dark"])


@THEMES
@pytest.mark.parametrize("text", ["ink", "quiet", "measured", "worked_out", "before", "look"])
@pytest.mark.parametrize("ground", ["card", "paper", "row"])
def test_text_is_readable(p: Palette, text: str, ground: str) -> None:
    assert contrast(getattr(p, text), getattr(p, ground)) >= 4.5  # WCAG 2.2, success criterion 1.4.3


@THEMES
@pytest.mark.parametrize("text", ["ink", "measured", "worked_out", "before", "look", "quiet"])
def test_text_is_readable_on_the_instrument(p: Palette, text: str) -> None:
    assert contrast(getattr(p, text), p.body) >= 4.5


@THEMES
@pytest.mark.parametrize("text", ["ink", "look"])
def test_text_is_readable_on_what_is_to_be_looked_at(p: Palette, text: str) -> None:
    assert contrast(getattr(p, text), p.look_ground) >= 4.5


@THEMES
@pytest.mark.parametrize("ground", ["card", "row", "look_ground", "paper", "body"])
def test_the_edge_of_what_can_be_operated_can_be_seen(p: Palette, ground: str) -> None:
    assert contrast(p.field, getattr(p, ground)) >= 3  # WCAG 2.2, success criterion 1.4.11


@THEMES
def test_a_scrollbar_can_be_seen(p: Palette) -> None:
    handles = re.findall(r"QScrollBar::handle[^{]*\{ background: (#\w+);", style_sheet(Look(p)))
    assert len(handles) == 2  # at rest, and under the pointer
    assert all(contrast(handle, p.card) >= 3 for handle in handles)


@THEMES
def test_the_focus_can_be_seen(p: Palette) -> None:
    assert contrast(p.worked_out, p.card) >= 3


@THEMES
def test_the_main_button_is_readable(p: Palette) -> None:
    assert contrast(p.card, p.ink) >= 4.5


def test_the_colours_that_mean_something() -> None:
    assert (LIGHT.measured, LIGHT.worked_out, LIGHT.before, LIGHT.look, LIGHT.paper) == (
        "#1F2A33",
        "#0B6B66",
        "#7A5F3A",
        "#B23A1E",
        "#FBFAF5",
    )
    assert (DARK.measured, DARK.worked_out, DARK.before, DARK.look, DARK.paper) == (
        "#E9EBEC",
        "#6FD0C8",
        "#CDB58C",
        "#FF9E80",
        "#1B1F22",
    )


def test_text_grows_with_its_factor() -> None:
    assert "12.00pt" in style_sheet(Look(LIGHT, 1.0))  # 16 px at 96 dots an inch
    assert "24.00pt" in style_sheet(Look(LIGHT, 2.0))


@pytest.mark.parametrize("kind", [QCheckBox, QRadioButton])
def test_ticks_grow_with_the_text(qtbot: QtBot, kind: type[QCheckBox | QRadioButton]) -> None:
    element, sides = QStyle.SubElement, []
    for scale in (1.0, 2.0):
        button = kind("Seam’s line")
        qtbot.addWidget(button)
        button.setStyleSheet(style_sheet(Look(LIGHT, scale)))
        button.ensurePolished()
        told = QStyleOptionButton()
        button.initStyleOption(told)
        where = element.SE_CheckBoxIndicator if kind is QCheckBox else element.SE_RadioButtonIndicator
        sides.append(button.style().subElementRect(where, told, button).width())
    assert sides[1] - 2 == pytest.approx(2 * (sides[0] - 2))  # derived: the edge of 1 px on both sides does not grow


@pytest.mark.parametrize("scale", [1.0, 1.25, 2.0])
def test_painted_words_grow_with_the_texts_factor(scale: float) -> None:
    look = Look(LIGHT, scale)
    assert look.px(14.0) == 14.0 * scale
    assert look.font(16.0).pointSizeF() == 12.0 * scale  # 16 px at 96 dots an inch


@THEMES
def test_what_cannot_be_pressed_now_can_still_be_read(p: Palette) -> None:
    off = re.findall(r":disabled [{].*?[ {]color: (#......)", style_sheet(Look(p)))
    assert len(off) >= 3
    assert all(contrast(text, p.card) >= 4.5 for text in off)


def test_a_sliders_handle_grows_with_the_text(qtbot: QtBot) -> None:
    """derived: 16 px at the usual size"""
    high = []
    for scale in (1.0, 2.0):
        apply_look(Look(LIGHT, scale))
        slider = QSlider(Qt.Orientation.Horizontal)
        qtbot.addWidget(slider)
        slider.ensurePolished()
        option = QStyleOptionSlider()
        slider.initStyleOption(option)
        handle = QStyle.SubControl.SC_SliderHandle
        slider.resize(slider.sizeHint().expandedTo(slider.minimumSizeHint()))
        assert slider.minimumSizeHint().height() >= 16 * scale + 8  # all of the handle is seen
        high.append(slider.style().subControlRect(QStyle.ComplexControl.CC_Slider, option, handle, slider).width())
    assert high[0] >= 16
    assert high[1] >= 2 * 16
