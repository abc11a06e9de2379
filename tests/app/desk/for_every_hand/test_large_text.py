"""Large text, by choice or by the system: the desk gives way and nothing is cut."""

from itertools import product

import pytest
from PySide6.QtGui import QFont, QFontMetricsF
from PySide6.QtWidgets import QApplication, QMenu, QScrollArea

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.document.preferences import TEXT_SIZES
from app.desk.frame.desk import Desk
from app.desk.frame.strip_cell import fitting
from app.desk.widgets.look import LABEL, LIGHT, Look
from app.edit.strings import string_entries
from tests.app.desk.conftest import OpenDesk, in_low_window, sample, unpainted

LOW = 768 - 28
"""A low screen's height without its panel, pixels; common practice, no source."""


def test_the_window_stays_as_low_as_it_was_from_job_to_job(open_desk: OpenDesk, subtests: pytest.Subtests) -> None:
    desk = unpainted(open_desk(sample("one-slip")))
    for size, (wide, high) in product((1.0, 2.0), ((1366, 768), (1280, 800), (1920, 1080))):
        desk.preferences.set_text(size)
        desk.frame.resize(wide, high)
        for name in ("bolted-left", "one-slip", "redrilled-left", "turned-left-old-slot", "one-slip"):
            with subtests.test(f"text {size}, {wide} by {high}, {name}"):
                desk.job_files.new(sample(name))
                desk.cards.open("Measure")
                for _ in range(3):
                    QApplication.processEvents()
                assert desk.frame.height() == high


def test_a_reading_to_look_at_again_leaves_room_for_the_table(open_desk: OpenDesk) -> None:
    """One is seen whole and the next begins, and the window stays as low as it was."""
    desk = unpainted(open_desk(sample("one-slip")))
    desk.frame.resize(1280, 800)
    for size in TEXT_SIZES:
        desk.preferences.set_text(size)
        for _ in range(4):
            QApplication.processEvents()
        measure = desk.card
        assert isinstance(measure, MeasureCard)
        assert desk.frame.height() == 800, size
        assert measure.notes.look_again.isVisible(), size
        assert measure.table.viewport().height() > 1.3 * measure.table.rowHeight(0), size


def test_why_to_look_again_is_said_when_asked_where_room_is_scarce(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    notes = desk.measure.notes
    desk.preferences.set_text(1.0)
    QApplication.processEvents()
    assert notes.look_again.body.isVisible()
    assert not notes.why_button.isVisible()
    desk.preferences.set_text(2.0)
    QApplication.processEvents()
    assert not notes.look_again.body.isVisible()
    notes.why_button.click()
    assert notes.look_again.body.isVisible()
    desk.preferences.set_text(1.0)
    QApplication.processEvents()
    assert notes.look_again.body.isVisible()
    assert not notes.why_button.isVisible()


def test_a_low_window_says_in_few_words_why_to_look_again(open_desk: OpenDesk) -> None:
    desk = in_low_window(open_desk, "one-slip", 1.0)
    notes = desk.measure.notes
    assert notes.look_again.body.isVisible()
    assert notes.look_again.body.text() == "Reads 3.2 mm more than the others allow."
    notes.why_button.click()
    assert notes.look_again.body.text().startswith("Reads 3.2 mm more than the others allow: they say 42.3 ±")
    notes.why_button.click()
    assert notes.look_again.body.text() == "Reads 3.2 mm more than the others allow."


def test_adding_a_reading_leaves_the_window_as_low_as_it_was(open_desk: OpenDesk, subtests: pytest.Subtests) -> None:
    desk = unpainted(open_desk(sample("one-slip")))
    measure = desk.measure
    for size, (wide, high) in product((1.0, 1.5, 2.0), ((1280, 800), (1366, 768))):
        with subtests.test(f"text {size}, {wide} by {high}"):
            desk.frame.resize(wide, high)
            desk.preferences.set_text(size)
            measure.panel.add_button.click()
            assert measure.adding is not None
            for at in range(measure.adding.kind.count()):
                measure.adding.kind.setCurrentIndex(at)
                for _ in range(3):
                    QApplication.processEvents()
                assert desk.frame.height() == high, measure.adding.kind.currentText()
            measure.adding.cancel_button.click()
            assert measure.notes.isVisible()


def test_strings_in_the_other_order_leave_the_card_as_wide_as_it_is(open_desk: OpenDesk) -> None:
    desk = open_desk(string_entries.turn_round(sample("floating-five")))
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    desk.cards.open("Strings")
    QApplication.processEvents()
    assert isinstance(desk.card, StringsCard)
    assert desk.card.turn_button.isVisible()
    area = desk.card.findChildren(QScrollArea)[0]
    inside = area.widget()
    assert inside is not None
    assert inside.minimumSizeHint().width() <= area.viewport().width()


def test_the_figures_along_the_bottom_grow_with_the_text_while_running(desk: Desk) -> None:
    desk.preferences.set_text(1.0)
    QApplication.processEvents()
    low = desk.strip.cells[0].height()
    desk.preferences.set_text(1.5)
    QApplication.processEvents()
    assert desk.strip.cells[0].height() == pytest.approx(1.5 * low, abs=1)


def test_a_larger_system_font_makes_all_text_larger(desk: Desk, qapp: QApplication) -> None:
    desk.preferences.follow_system()
    before, scales = qapp.font(), {}
    try:
        for points in (9, 11, 14, 18):
            font = QFont("Source Sans Pro")
            font.setPointSizeF(points)
            qapp.setFont(font)
            scales[points] = desk.look.text_scale
    finally:
        qapp.setFont(before)
    assert scales[9] == scales[11]
    assert scales[11] < scales[14] < scales[18]
    assert scales[18] == pytest.approx(18 / 11, abs=0.05)


@pytest.mark.parametrize(
    ("room", "said"),
    [(400, "±1.5 mm · 4.1 cents"), (80, "±1.5 mm"), (20, "±…")],
)
def test_a_figure_says_what_it_has_room_for(qapp: QApplication, room: float, said: str) -> None:  # noqa: ARG001
    letters = QFontMetricsF(Look(LIGHT).font(LABEL))
    found = fitting(("±1.5 mm · 4.1 cents", "±1.5 mm"), letters, room)
    assert found == said
    assert letters.horizontalAdvance(found) <= room


def test_every_menu_is_one_column_on_a_low_screen(desk: Desk) -> None:
    """What is higher than the screen Qt folds into columns, in the middle of what belongs together."""
    for size in TEXT_SIZES:
        desk.preferences.set_text(size)
        for menu in desk.frame.findChildren(QMenu):
            open_menu(menu)
            assert menu.height() <= LOW, (menu.title(), size)
            assert len({menu.actionGeometry(action).x() for action in menu.actions()}) <= 1, (menu.title(), size)


def open_menu(menu: QMenu) -> None:
    """Make it as it is when it opens; the offscreen platform has no pop-ups."""
    menu.aboutToShow.emit()
    menu.ensurePolished()
    menu.resize(menu.sizeHint())


@pytest.mark.qt_log_ignore("does not support", extend=True)
@pytest.mark.parametrize("size", [1.0, 2.0])
def test_no_words_of_a_menu_run_up_to_their_keys(desk: Desk, size: float) -> None:
    """Nor does a menu grow each time it opens."""
    desk.preferences.set_text(size)
    for title in ("&File", "&Edit", "&View", "&Plan"):
        menu = next(menu for menu in desk.frame.findChildren(QMenu) if menu.title() == title)
        wide = []
        for _ in range(3):
            menu.popup(menu.pos())
            wide.append(menu.actionGeometry(menu.actions()[0]).width())
            menu.hide()
        letters, actions = menu.fontMetrics(), menu.actions()
        keys = max(letters.horizontalAdvance(action.shortcut().toString()) for action in actions)
        words = max(letters.horizontalAdvance(action.text().replace("&", "")) for action in actions)
        padding = 32 + 20 + round(16 * size)  # derived: as the style sheet has it
        assert wide[0] - padding - keys - words >= 24, title
        assert len(set(wide)) == 1, title
