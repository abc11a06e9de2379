"""The strip: where room is short the ± of a figure is the last to go, and nothing is lost."""

from itertools import product

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from app.desk.document.preferences import TEXT_SIZES
from app.desk.frame.desk import Desk
from app.desk.frame.strip_cell import Cell, shorter_and_shorter
from tests.app.desk.conftest import OpenDesk, press, sample, unpainted


def test_parts_are_left_off_from_the_end() -> None:
    said = shorter_and_shorter("±1.8 mm, bass longer, the slot leans the wrong way")
    assert said == ["±1.8 mm, bass longer, the slot leans the wrong way", "±1.8 mm, bass longer", "±1.8 mm"]


def test_cents_go_before_millimetres() -> None:
    assert shorter_and_shorter("±2.3 mm · 5.9 cents · not settled")[1:] == ["±2.3 mm · 5.9 cents", "±2.3 mm"]


def shown_at(open_desk: OpenDesk, job: str, wide: int, high: int, size: float) -> Desk:
    desk = open_desk(sample(job))
    sized(desk, wide, high, size)
    return desk


def sized(desk: Desk, wide: int, high: int, size: float) -> None:
    desk.frame.resize(wide, high)
    desk.preferences.set_text(size)
    for _ in range(4):
        QApplication.processEvents()
    assert (desk.frame.width(), desk.frame.height()) == (wide, high)


def whole(cell: Cell) -> bool:
    """Whether all of a cell is in sight, and says its figure with its ± in words that are not cut."""
    title, rest = cell.words
    said = cell.figure.rest == rest or rest in shorter_and_shorter(cell.figure.rest)
    return cell.isVisible() and said and title in (cell.figure.title, cell.figure.short)


@pytest.mark.parametrize("size", TEXT_SIZES)
def test_every_figure_is_there_whole_or_a_press_away(desk: Desk, size: float) -> None:
    strip, jobs = desk.strip, ("one-slip", "bolted-left", "leaning-neck")
    unpainted(desk)
    for (wide, high), job in product(((1280, 800), (1366, 768), (1920, 1080)), jobs):
        desk.document.start(sample(job))
        while strip.at:  # from the first figures on, as in a window just opened
            strip.turn_over()
        sized(desk, wide, high, size)
        cells = strip.cells[: strip._count]
        met = {cell.figure.title for cell in cells if whole(cell)}
        assert strip.more.isVisible() == (len(met) < len(cells)), wide
        presses = 0
        while len(met) < len(cells) and presses < len(cells):
            strip.more.click()
            QApplication.processEvents()
            met |= {cell.figure.title for cell in cells if whole(cell)}
            presses += 1
        assert met == {cell.figure.title for cell in cells}, wide
        assert presses <= 3, wide


def test_what_is_out_of_sight_is_counted_with_the_worst_of_its_signs(open_desk: OpenDesk) -> None:
    strip = shown_at(open_desk, "one-slip", 1366, 768, 2.0).strip
    out = [cell for cell in strip.cells if not cell.isVisible()]
    assert strip.more.text() == f"{len(out)} more"
    assert any(cell.figure.mark == "look" for cell in out)
    assert strip.more.accessibleName() == f"{len(out)} more findings, look again"


def test_the_tab_key_leads_to_the_figures_out_of_sight(open_desk: OpenDesk) -> None:
    desk = shown_at(open_desk, "one-slip", 1366, 768, 2.0)
    strip = desk.strip
    shown = [cell for cell in strip.cells if cell.isVisible()]
    shown[0].setFocus(Qt.FocusReason.TabFocusReason)
    for _ in shown:
        press(QApplication.focusWidget() or shown[0], Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is strip.more
    press(strip.more, Qt.Key.Key_Space)
    assert not any(cell.isVisible() for cell in shown)
    assert all(whole(cell) for cell in strip.cells if cell.isVisible())
    assert QApplication.focusWidget() is strip.more


def test_after_the_last_the_first_are_shown_again(open_desk: OpenDesk) -> None:
    strip = shown_at(open_desk, "bolted-left", 1366, 768, 2.0).strip
    while strip.more.text() != "Back":
        strip.more.click()
        QApplication.processEvents()
    strip.more.click()
    assert whole(strip.cells[0])
    assert strip.more.text() != "Back"


def test_words_are_left_off_the_last_figures_first(open_desk: OpenDesk) -> None:
    strip = shown_at(open_desk, "small-four", 1280, 800, 1.0).strip
    cells = strip.cells[: strip._count]
    said = [cell.words[1] == cell.figure.rest for cell in cells]
    assert not all(said)
    assert said[:2] == [True, True]  # fret 12 to the slot, with its cents
    spare = strip.row.geometry().width() - sum(cell.sizeHint().width() + 24 for cell in cells) + 24
    first = next(cell for cell, whole_words in zip(cells, said, strict=True) if not whole_words)
    short = first.short
    assert spare < first.wide_without(0, short=short) - first.wide_without(first.left_off, short=short)


@pytest.mark.parametrize("size", [1.5, 2.0])
def test_a_window_that_was_wide_can_be_made_narrow_again(open_desk: OpenDesk, size: float) -> None:
    desk = shown_at(open_desk, "one-slip", 1920, 1080, size)
    assert not desk.strip.more.isVisible()
    sized(desk, 1280, 800, size)
    assert desk.frame.width() == 1280
    assert desk.strip.more.isVisible()


def test_titles_stay_whole_while_a_part_behind_each_figure_may_go(open_desk: OpenDesk) -> None:
    desk = shown_at(open_desk, "bolted-left", 1280, 800, 1.0)
    cells = desk.strip.cells[: desk.strip._count]
    assert all(cell.words[0] == cell.figure.title for cell in cells)
    sized(desk, 1120, 800, 1.0)  # less wide, some are told in short, and then no title is cut off
    assert any(cell.short for cell in cells)
    assert all(cell.words[0] in (cell.figure.title, cell.figure.short) for cell in cells)


def test_what_is_shown_of_several_parts_asks_for_no_more_than_its_room(open_desk: OpenDesk) -> None:
    strip = shown_at(open_desk, "bolted-left", 1280, 800, 2.0).strip
    assert strip.more.isVisible()
    parts = 0
    while parts == 0 or strip.at:
        shown = [cell for cell in strip.cells if cell.isVisible()]
        assert sum(cell.sizeHint().width() + 24 for cell in shown) - 24 <= strip.row.geometry().width()
        strip.more.click()
        QApplication.processEvents()
        parts += 1
    assert parts > 1


def test_the_window_does_not_grow_when_all_figures_come_into_sight(open_desk: OpenDesk) -> None:
    desk = shown_at(open_desk, "one-slip", 1366, 768, 2.0)
    assert desk.strip.more.isVisible()
    desk.document.start(sample("redrilled-left"))
    QApplication.processEvents()
    assert not desk.strip.more.isVisible()
    assert desk.frame.width() == 1366
