"""The Measure card, filled as a person fills it: type, Enter, next."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.measure.table.reading_row import SHARES
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.buttons import INSET
from app.desk.widgets.inputs.fields import TypedLine
from app.desk.widgets.look import SIDE
from app.edit import edits
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, press, sample, type_into


def type_value(card: MeasureCard, text: str, *, enter: bool = True) -> None:
    """Type into the table; the first key opens the line, as the table's keys do."""
    type_into(card.table, text[0])
    line = open_line(card)
    type_into(line, text[1:])
    if enter:
        press(line, Qt.Key.Key_Return)


def open_line(card: MeasureCard) -> TypedLine:
    """The line that is open in the table; one that was closed is only waiting to be deleted."""
    return next(line for line in card.table.findChildren(TypedLine) if line.isVisible())


def value(desk: Desk, at: int) -> object:
    return desk.document.job.readings[at].value


def test_a_value_then_enter_takes_the_next_in_hand(desk: Desk, card: MeasureCard) -> None:
    type_value(card, "44.6")
    assert value(desk, 0) == 44.6
    assert card.table.chosen == desk.document.job.readings[1].id


def test_two_values_in_a_row_without_the_mouse(desk: Desk, card: MeasureCard) -> None:
    type_value(card, "44.6")
    type_value(card, "56 1/2 mm")
    assert (value(desk, 0), value(desk, 1)) == (44.6, "56 1/2 mm")


def test_a_value_is_in_force_while_it_is_typed(desk: Desk, card: MeasureCard) -> None:
    type_value(card, "44.7", enter=False)
    assert value(desk, 0) == 44.7


def test_escape_takes_back_what_was_typed(desk: Desk, card: MeasureCard) -> None:
    before = desk.document.job
    type_value(card, "44.7", enter=False)
    press(open_line(card), Qt.Key.Key_Escape)
    assert desk.document.job == before


def test_all_keys_of_a_value_are_undone_at_once_and_by_name(desk: Desk, card: MeasureCard) -> None:
    before = desk.document.job
    type_value(card, "46.25")
    assert desk.menu_actions["Undo"].text() == "Undo nut, edge to edge 46.25"
    desk.document.stack.undo()
    assert desk.document.job == before


def test_arrow_keys_walk_the_table(desk: Desk, card: MeasureCard) -> None:
    press(card.table, Qt.Key.Key_Down)
    press(card.table, Qt.Key.Key_Down)
    press(card.table, Qt.Key.Key_Up)
    assert card.table.chosen == desk.document.job.readings[1].id


def test_a_wrong_entry_stays_with_a_sentence_and_the_last_good_value_in_force(desk: Desk, card: MeasureCard) -> None:
    type_value(card, "9x")
    card.table.go(0)
    assert value(desk, 0) == 44.4
    assert card.table.readings.rows[0].value == "9x"
    assert "“9x” ends in a unit that is not known here" in card.wrong.body.text()
    assert card.wrong.isVisible()


def test_a_wrong_entry_stays_in_hand_with_its_sentence(card: MeasureCard) -> None:
    type_value(card, "4a3")
    assert card.table.at == 0
    assert card.wrong.isVisible()
    assert "“4a3” is not a length" in card.wrong.body.text()


def test_escape_after_a_refused_entry_brings_back_what_stood_there(desk: Desk, card: MeasureCard) -> None:
    before = desk.document.job
    type_value(card, "4a3")
    press(card.table, Qt.Key.Key_Escape)
    assert (card.table.readings.rows[0].value, desk.document.job) == ("44.4", before)
    assert not card.wrong.isVisible()


def test_a_refused_entry_is_told_of_wherever_one_is(card: MeasureCard) -> None:
    type_value(card, "4a3")
    card.table.go(12)
    assert card.wrong.head.text() == "An entry is still to be mended"
    assert card.wrong.isVisible()


def test_enter_passes_over_rows_without_a_number(card: MeasureCard) -> None:
    rows = card.table.readings.rows
    at = next(i for i, row in enumerate(rows) if not row.takes_value)
    card.table.go(at - 1)
    type_value(card, str(rows[at - 1].value))
    assert card.table.at == next(i for i in range(at, len(rows)) if rows[i].takes_value)


def test_figures_typed_on_a_row_without_a_number_go_nowhere(desk: Desk, card: MeasureCard) -> None:
    before = desk.document.job
    at = next(i for i, row in enumerate(card.table.readings.rows) if not row.takes_value)
    card.table.go(at)
    type_into(card.table, "44")
    assert (card.table.at, desk.document.job) == (at, before)


def test_a_width_no_instrument_has_is_refused_where_it_stands(desk: Desk, card: MeasureCard) -> None:
    type_value(card, "444")
    card.table.go(0)
    assert value(desk, 0) == 44.4
    assert "no instrument’s is under 15 or over 130 mm" in card.wrong.body.text()


def test_inches_stay_inches(desk: Desk, card: MeasureCard) -> None:
    type_value(card, "1 3/4 in")
    assert value(desk, 0) == "1 3/4 in"
    assert card.table.readings.rows[0].value == "1 3/4 in"


def test_a_struck_reading_is_greyed_and_can_be_brought_back(desk: Desk, card: MeasureCard) -> None:
    card.commands.strike_or_bring_back()
    assert desk.document.job.readings[0].struck
    assert card.table.readings.rows[0].said() == "struck out"
    card.commands.strike_or_bring_back()
    assert not desk.document.job.readings[0].struck


def test_the_line_under_the_title_says_how_to_take_the_reading_in_hand(card: MeasureCard) -> None:
    assert card.under.text().startswith("Open the caliper from “nut, treble” to “nut, bass”")


def test_behind_the_last_fret_of_a_laying_the_rule_is_not_left_lying(desk: Desk, card: MeasureCard) -> None:
    """derived: the list has frets 1 to 12 along the one edge, then along the other, each edge in a laying of its own"""
    frets = [r for r in desk.document.job.readings if r.kind == "fret"]
    said = {}
    for r in frets:
        card.table.go_to(r.id)
        said[r.fret, r.on] = card.under.text().endswith("Leave the rule lying for the next fret.")
    assert {key for key, stays in said.items() if not stays} == {(12, "left"), (12, "right")}
    assert len(said) > 4


def test_all_is_chosen_in_the_cell_that_is_typed_into_and_elsewhere_all_rows(desk: Desk, card: MeasureCard) -> None:
    """As the platform has it: Select all is the line's while one is typed into, else the table's."""
    card.table.setFocus()
    press(card.table, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    assert len(card.table.all_chosen) == len(desk.document.job.readings)
    card.table.go(0)
    type_value(card, "43.5", enter=False)
    line = open_line(card)
    press(line, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    assert line.selectedText() == line.text() == "43.5"
    assert card.table.all_chosen == [desk.document.job.readings[0].id]


def test_the_instrument_is_chosen_for_the_reading_in_hand(desk: Desk, card: MeasureCard) -> None:
    card.panel.fineness.emit("rule 1")
    assert desk.document.job.readings[0].with_ == "rule 1"


def test_a_typed_fineness_is_kept_as_sure_of(desk: Desk, card: MeasureCard) -> None:
    card.panel.fineness.emit("± 0.3")
    assert (desk.document.job.readings[0].within, desk.document.job.readings[0].with_) == (0.3, None)


def test_a_column_of_values_is_pasted_down_the_table(desk: Desk, card: MeasureCard) -> None:
    QGuiApplication.clipboard().setText("44.5\n56.7\n450")
    press(card.table, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert [value(desk, at) for at in range(3)] == [44.5, 56.7, 450]


def test_what_cannot_be_pasted_is_said_and_changes_nothing(desk: Desk, card: MeasureCard) -> None:
    before = desk.document.job
    QGuiApplication.clipboard().setText("44.5\nabc")
    press(card.table, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert desk.document.job == before
    assert card.wrong.body.text().startswith("Line 2 of what was pasted: ")


def test_the_misread_reading_is_marked_with_one_sentence_of_why(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    card = desk.measure
    suspects = [row.reading.id for row in card.table.readings.rows if row.suspect]
    assert len(suspects) == 1
    assert card.notes.look_again.head.text() == "Look again: old footprint 2, off bass edge"
    said = "more than the others allow: they say 42.3 ±0.6 mm bass. Read it again, or strike it out."
    assert said in card.notes.look_again.body.text()


def test_a_job_with_a_slip_opens_with_it_in_hand(open_desk: OpenDesk) -> None:
    card = open_desk(sample("one-slip")).measure
    assert card.table.readings.rows[card.table.at].suspect


def test_the_note_strikes_out_the_reading_that_it_names(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    card = desk.measure
    (suspect,) = [row.reading.id for row in card.table.readings.rows if row.suspect]
    card.table.go(3)
    card.notes.out_button.click()
    assert [r.id for r in desk.document.job.readings if r.struck] == [suspect]
    assert card.table.chosen == suspect
    assert not card.notes.look_again.isVisible()


def test_the_note_and_the_mark_on_the_plan_lead_to_the_reading(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    card = desk.measure
    (suspect,) = [row.reading for row in card.table.readings.rows if row.suspect]
    card.table.go(3)
    card.notes.go_button.click()
    assert card.table.chosen == suspect.id
    card.table.go(3)
    desk.board.touched.emit(f"point:{suspect.of[0]}")
    assert card.table.chosen == suspect.id


def test_the_reading_in_hand_stays_in_sight_when_the_table_gets_lower(open_desk: OpenDesk) -> None:
    card = open_desk(sample("one-slip")).measure
    card.table.go(12)
    card.say_next("Seam 1 to seam 2: a slip there would show.")
    QApplication.processEvents()
    at = card.table.visualRect(card.table.currentIndex())
    assert card.table.viewport().rect().contains(at)


def test_what_follows_from_a_contradiction_is_held_back(open_desk: OpenDesk) -> None:
    """The nut 40 mm from the board's end on one side bends the whole neck; only the contradiction itself is told."""
    job = sample("leaning-neck")
    (end,) = [r.id for r in job.readings if r.of == ("nut.left", "end.left")]
    card = open_desk(edits.set_value(job, end, "343")).measure
    assert card.notes.look_again.isVisible()
    assert not card.findings.isVisible()


def test_a_reading_whose_value_is_none_waits(open_desk: OpenDesk) -> None:
    job = edits.add(Job(), "distance", ("nut.left", "nut.right"))
    desk = open_desk(job)
    assert desk.measure.table.readings.rows[0].said() == "still to be measured"


@pytest.mark.parametrize("by", ["name", "fits", "Home", "End"])
def test_what_is_typed_goes_to_the_value_whatever_of_the_line_was_pressed(
    desk: Desk, card: MeasureCard, by: str
) -> None:
    table = card.table
    at = next(at for at, row in enumerate(table.readings.rows) if row.takes_value and at > 3)
    table.go(at)
    line = table.currentIndex().row()
    if by in ("name", "fits"):
        table.go(at - 1)
        column = 0 if by == "name" else table.readings.columnCount() - 1
        spot = table.visualRect(table.readings.index(line, column)).center()
        QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    else:
        press(table, Qt.Key.Key_Home if by == "Home" else Qt.Key.Key_End)
    name = table.chosen
    assert name == table.readings.rows[at].reading.id
    type_value(card, "455.5")
    assert next(r.value for r in desk.document.job.readings if r.id == name) == 455.5


def test_of_readings_that_share_a_slip_no_part_of_it_is_told(open_desk: OpenDesk) -> None:
    """The slip is 3.2 mm; 0.03 mm of it fall to the one and 2.0 mm to the other, which says nothing of either."""
    desk = open_desk(edits.set_value(sample("leaning-neck"), "r28", "29.2"))
    layout = desk.document.layout
    assert layout is not None
    (group,) = layout.survey.groups
    rows = {row.reading.id: row for row in desk.measure.table.readings.rows}
    assert [rows[name].said() for name in group] == [SHARES.format(turn + 1, len(group)) for turn in range(len(group))]
    assert "mm less" in rows["r27"].said() or "mm more" in rows["r27"].said()


def test_what_stands_under_the_table_keeps_to_one_edge(card: MeasureCard) -> None:
    card.notes.on_button.show()
    card.notes.say_64ths(2)
    for _ in range(3):
        QApplication.processEvents()
    edges = {
        card.notes.on_button.mapTo(card, QPoint(0, 0)).x(),
        card.notes.tools_button.mapTo(card, QPoint(INSET, 0)).x(),
        card.panel.called.mapTo(card, QPoint(0, 0)).x(),
        card.panel.with_.mapTo(card, QPoint(0, 0)).x(),
    }
    assert edges == {SIDE}
    ends = {
        card.picture.mapTo(card, QPoint(card.picture.width(), 0)).x(),
        card.panel.add_button.mapTo(card, QPoint(card.panel.add_button.width() - INSET, 0)).x(),
    }
    assert ends == {card.width() - SIDE}


def test_all_of_an_entry_that_was_refused_is_taken_in_hand_and_not_all_readings(card: MeasureCard) -> None:
    type_value(card, "43x")
    assert card.notes.wrong.isVisible()
    press(card.table, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    assert open_line(card).selectedText() == "43x"
    assert len(card.table.all_chosen) == 1
