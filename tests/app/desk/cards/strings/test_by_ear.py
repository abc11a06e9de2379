"""What was heard: what is wrong with a line is said under the button that was pressed; a trial saddle is asked for."""

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QAbstractButton, QApplication

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk


def test_what_is_wrong_moves_no_button(strings: StringsCard) -> None:
    ear = strings.by_ear
    add = next(found for found in ear.findChildren(QAbstractButton) if found.text() == "Add what was heard")
    before = add.mapTo(ear, QPoint(0, 0)).y()
    add.click()
    for _ in range(3):
        QApplication.processEvents()
    assert ear.wrong.isVisible()
    assert add.mapTo(ear, QPoint(0, 0)).y() == before


def test_the_trial_saddles_ends_are_asked_for(desk: Desk, strings: StringsCard) -> None:
    before = len(desk.document.job.readings)
    strings.by_ear.measure.click()
    assert desk.cards.is_open("Measure")
    asked = desk.document.job.readings[before:]
    assert {r.of[1] for r in asked} == {"trial.1.left", "trial.1.right"}
    assert desk.cards.get_as("Measure", MeasureCard).table.chosen == asked[0].id
    desk.document.stack.undo()
    assert len(desk.document.job.readings) == before


def test_from_the_trial_saddles_last_reading_the_way_leads_back_to_what_is_heard(
    desk: Desk, strings: StringsCard
) -> None:
    desk.frame.resize(1366, 768)
    strings.by_ear.measure.click()
    on = desk.measure.notes.on_button
    assert on.text() == "All readings taken: back to By ear"
    assert on.accessibleDescription() == "All readings are taken; opens By ear"
    desk.measure.notes.go_on()
    assert desk.cards.is_open("Strings")
    for _ in range(5):
        QApplication.processEvents()
    ear = strings.by_ear
    assert ear.isVisible()
    assert not ear.visibleRegion().isEmpty()
    assert on.text() == "All readings taken: on to Strings"
