"""Rows of the Headstock card come and go round the field in hand, which keeps the focus, its text and its place."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QScrollArea, QWidget

from app.desk.cards.card import ROUNDS
from app.desk.cards.headstock.headstock_card import HeadstockCard
from app.desk.cards.headstock.sections import USUAL
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Choice, Tick
from app.desk.widgets.inputs.fields import Field
from geometry.job import Headstock, Job
from tests.app.desk.conftest import OpenDesk, press, sample, type_into


def opened(open_desk: OpenDesk, job: Job, section: str) -> tuple[Desk, HeadstockCard]:
    desk = open_desk(job, "Headstock")
    QApplication.processEvents()
    card = desk.cards.get_as("Headstock", HeadstockCard)
    card.sections[section].fold.set_open(True)
    QApplication.processEvents()
    return desk, card


def settled() -> None:
    """Words that wrap have found their height, and what is scrolled to stands."""
    QTest.qWait(6 * ROUNDS[-1])


def row(card: HeadstockCard, name: str) -> Field:
    return next(found for found in card.findChildren(Field) if found.name.text() == name and found.isVisible())


def high(card: HeadstockCard, widget: QWidget) -> int:
    area = card.findChild(QScrollArea)
    assert isinstance(area, QScrollArea)
    return widget.mapTo(area.viewport(), QPoint(0, 0)).y()


def typed_one_by_one(card: HeadstockCard, name: str, text: str) -> None:
    """Each key goes to where the focus is, as on a real desk."""
    line = row(card, name).line
    line.setFocus(Qt.FocusReason.TabFocusReason)
    settled()
    at = high(card, line)
    for sign in text:
        held = QApplication.focusWidget()
        assert held is line, f"before “{sign}” the focus is on {held.accessibleName() if held else None}"
        type_into(held, sign)
        settled()
        assert abs(high(card, line) - at) <= 1
    assert QApplication.focusWidget() is line
    assert line.text() == text


def without_tuners(job: Job) -> Job:
    return replace(job, hardware=replace(job.hardware, tuners=None))


def test_the_first_tuners_are_typed_to_their_end(open_desk: OpenDesk) -> None:
    desk, card = opened(open_desk, without_tuners(sample("redrilled-left")), "tuners")
    typed_one_by_one(card, "Posts on each plate, bass side", "1 1 1")
    assert desk.document.job.hardware.tuners is not None
    assert desk.document.job.hardware.tuners.left == (1, 1, 1)
    assert not any(b.text() == "Take these tuners" and b.isVisible() for b in card.findChildren(QPushButton))


@pytest.mark.parametrize("name", ["From post to post", "Plate screws, hole", "Plate screw 1, along"])
def test_so_they_are_by_any_field_in_an_empty_job(open_desk: OpenDesk, name: str) -> None:
    desk, card = opened(open_desk, Job(), "tuners")
    typed_one_by_one(card, name, "23.5")
    assert desk.document.job.hardware.tuners is not None


def test_tuners_that_are_taken_leave_the_focus_beside_the_button(open_desk: OpenDesk) -> None:
    _, card = opened(open_desk, Job(), "tuners")
    take = next(b for b in card.findChildren(QPushButton) if b.text() == "Take these tuners")
    take.setFocus(Qt.FocusReason.TabFocusReason)
    settled()
    at = high(card, row(card, "Plate screw 1, along").line)
    press(take, Qt.Key.Key_Space)
    settled()
    assert QApplication.focusWidget() is row(card, "Plate screw 1, along").line
    assert abs(high(card, row(card, "Plate screw 1, along").line) - at) <= 1


@pytest.mark.parametrize("text", ["Dots in the board’s edge", "Dots in the board’s face"])
def test_a_tick_keeps_the_focus_while_its_rows_come_and_go(open_desk: OpenDesk, text: str) -> None:
    _, card = opened(open_desk, Job(), "markers")
    tick = next(box for box in card.findChildren(Tick) if box.text() == text)
    tick.setFocus(Qt.FocusReason.TabFocusReason)
    settled()
    at = high(card, tick)
    for many in (True, False, True):
        press(tick, Qt.Key.Key_Space)
        settled()
        assert tick.isChecked() == many
        assert QApplication.focusWidget() is tick
        assert abs(high(card, tick) - at) <= 1
        assert any("dots, before frets" in f.name.text() and f.isVisible() for f in card.findChildren(Field)) == many


def test_an_old_holes_diameter_is_typed_to_its_end(open_desk: OpenDesk) -> None:
    job = sample("redrilled-left")
    head = job.hardware.headstock
    assert head is not None
    name = next(iter(head.posts))
    read = tuple(r for r in job.readings if name not in r.of or r.kind != "rims")
    at = tuple(r for r in job.readings if name in r.of and r.kind == "rims")
    kept = (*read, *(replace(r, kind="distance", value=None) for r in at))
    _, card = opened(open_desk, replace(job, readings=kept), "headstock")
    found = next(f for f in card.findChildren(Field) if f.name.text() == "Old post hole 1, diameter")
    told = any(USUAL in w.text() and w.isVisible() for w in card.findChildren(type(found.name)))
    assert told
    typed_one_by_one(card, "Old post hole 1, diameter", "8.75")


def test_points_of_edges_and_slots_are_typed_to_their_end(open_desk: OpenDesk) -> None:
    job = sample("redrilled-left")
    head = job.hardware.headstock
    assert head is not None
    bare = Headstock(outline=head.outline, posts=head.posts, screws=head.screws)
    _, card = opened(open_desk, replace(job, hardware=replace(job.hardware, headstock=bare)), "headstock")
    middle = next(box for box in card.findChildren(Choice) if box.accessibleName() == "Middle line")
    assert middle.count() == 1
    typed_one_by_one(card, "Two points on the middle", "1 2 3")
    assert [middle.itemText(at) for at in range(middle.count())] == ["square on the nut", "through two points"]
    assert middle.currentText() == "square on the nut"


def test_a_slot_that_is_typed_offers_another_below_it(open_desk: OpenDesk) -> None:
    _, card = opened(open_desk, without_tuners(sample("slotted-neck-screw")), "headstock")
    head = sample("slotted-neck-screw").hardware.headstock
    assert head is not None
    shown = [f.name.text() for f in card.findChildren(Field) if f.name.text().startswith("Slot ") and f.isVisible()]
    assert shown == [f"Slot {at}, points in order" for at in range(1, len(head.slots) + 2)]
