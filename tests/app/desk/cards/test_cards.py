"""The Strings, Bridge and start cards, worked as a person works them."""

from msgspec.structs import replace
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.card import keep_still
from app.desk.cards.form import Form
from app.desk.cards.start.start_card import StartCard
from app.desk.cards.strings.string_cells import BESIDE
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.cards.strings.strings_model import MAKE
from app.desk.frame.desk import Desk
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.inputs.fields import Field, TypedLine
from app.desk.widgets.look import LABEL
from app.edit import edits
from app.edit.strings import string_entries
from export.drawing.marks import Path
from geometry.job import Action, Bridge, Job, Pins
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, choose, field, fill, let_rounds_pass, press, sample, type_into

# the strings


def test_a_diameter_is_typed_in_the_table(desk: Desk, strings: StringsCard) -> None:
    strings.table.go(0, 3)
    type_into(strings.table, "1")
    line = next(found for found in strings.table.findChildren(TypedLine) if found.isVisible())
    type_into(line, "3")
    press(line, Qt.Key.Key_Return)
    assert desk.document.job.strings is not None
    assert desk.document.job.strings.list[0].diameter == "0.013 in"
    assert strings.table.currentIndex().row() == 1


def test_a_wrong_diameter_stays_with_a_sentence(desk: Desk, strings: StringsCard) -> None:
    before = desk.document.job
    strings.table.go(0, 3)
    type_into(strings.table, "x")
    press(next(found for found in strings.table.findChildren(TypedLine) if found.isVisible()), Qt.Key.Key_Return)
    assert desk.document.job == before
    assert strings.table.currentIndex().row() == 0
    assert strings.wrong.isVisible()
    assert "“x” is not a length" in strings.wrong.text()


def test_one_height_that_is_typed_stands_alone_and_the_missing_ones_are_named(lend_desk: LendDesk) -> None:
    job = sample("turned-left")
    desk = lend_desk(replace(job, readings=tuple(r for r in job.readings if r.kind != "height")))
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    fill(field(desk.card, "Fret 12, bass"), "2.6 mm")
    strings = desk.document.job.strings
    assert strings is not None
    assert strings.action == Action(fret12=("2.6 mm", None))
    assert field(desk.card, "Fret 1, bass").line.text() == ""
    assert desk.document.layout is not None
    said = next(f.text for f in desk.document.layout.findings if f.code == "heights.assumed")
    assert said.startswith(
        "The string’s heights over fret 1 at bass, fret 1 at treble and fret 12 at treble are missing"
    )


def test_a_height_that_was_read_has_no_field_and_the_others_keep_theirs(lend_desk: LendDesk) -> None:
    job = sample("turned-left")
    three = tuple(r for r in job.readings if (r.at, r.on) != ("fret 1", "right"))
    desk = lend_desk(replace(job, readings=three))
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    assert field(desk.card, "Fret 1, treble").isVisibleTo(desk.card)
    assert not field(desk.card, "Fret 12, bass").isVisibleTo(desk.card)
    assert "fret 12, bass" in desk.card.heights.read.text()


def test_pairs_have_fields_of_their_own_and_single_strings_have_none(lend_desk: LendDesk) -> None:
    for key, shown in (("steel 12-54", False), ("steel twelve 10-46", True)):
        desk = lend_desk(string_entries.take_set(sample("leaning-neck"), key))
        desk.cards.open("Strings")
        assert isinstance(desk.card, StringsCard)
        assert field(desk.card, "At the saddle, the two of a pair").isVisibleTo(desk.card) == shown
    fill(field(desk.card, "At the saddle, the two of a pair"), "2.8")
    strings = desk.document.job.strings
    assert strings is not None
    assert strings.saddle is not None
    assert strings.saddle.pair == 2.8


def drawn(strings: StringsCard) -> dict[str, set[str]]:
    """The purposes of what is drawn in the picture of cents, by what it stands for."""
    assert strings.picture.plot is not None
    lines = [mark for mark in strings.picture.plot.drawing.marks if isinstance(mark.shape, Path)]
    return {of: {mark.purpose for mark in lines if mark.of == of} for of in {mark.of for mark in lines}}


def test_choosing_a_string_shows_it_everywhere(desk: Desk, strings: StringsCard) -> None:
    strings.table.go(3, 0)
    assert strings.string == "4"
    assert drawn(strings)["string:4"] == {"mark", "hidden"}  # full as it will be, dashed with no compensation
    assert drawn(strings)["string:3"] == {"dimension"}
    assert desk.board.pictures.strong == frozenset(("string:4",))


def test_clicking_a_string_on_the_plan_chooses_it_in_the_table(desk: Desk, strings: StringsCard) -> None:
    desk.board.touched.emit("string:5")
    assert strings.table.currentIndex().row() == 4


def test_a_click_on_a_line_of_cents_chooses_its_string(strings: StringsCard) -> None:
    picture = strings.picture
    assert picture.plot is not None
    marks = [mark for mark in picture.plot.drawing.marks if mark.of == "string:6" and isinstance(mark.shape, Path)]
    x, y, _ = marks[-1].shape.vertices[-1]  # type: ignore[union-attr]  # those that are paths
    at = QPointF(x * picture.pixels, picture.height() - y * picture.pixels).toPoint()
    QTest.mouseClick(picture, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    assert strings.string == "6"
    assert strings.table.currentIndex().row() == 5


def test_the_cents_are_live_while_a_height_is_typed(desk: Desk, strings: StringsCard) -> None:
    for reading in desk.document.job.readings:
        if reading.kind == "height":
            desk.document.edit("striking out", edits.strike(desk.document.job, reading.id))
    before = strings.picture.plot
    fill(field(strings, "Fret 12, bass"), "3.5", enter=False)
    assert strings.picture.plot != before


def test_typing_compensation_makes_nothing_surer_until_it_is_typed(desk: Desk, strings: StringsCard) -> None:
    layout = desk.document.layout
    assert layout is not None
    assert layout.saddle is not None
    box = next(b for b in strings.findChildren(QWidget) if b.accessibleName() == "Compensation")
    box.activated.emit(box.findData("typed"))  # type: ignore[attr-defined]  # a choice
    assert desk.document.job.strings is not None
    assert desk.document.job.strings.compensation == (None,) * 6
    assert desk.document.layout is not None
    assert desk.document.layout.saddle is not None
    assert desk.document.layout.saddle.pm95 == layout.saddle.pm95
    assert strings.source.text().startswith("Type what was heard or measured; the rest stays worked out. ")
    model = strings.table.strings
    assert model.text(0, 4) == f"{layout.strings[0].compensation:.1f}"
    desk.document.edit("a compensation", model.made(0, 4, "2.4"))
    assert "counts as known, without a ± of its own" in strings.source.text()
    assert desk.document.layout.strings[0].compensation_from == "typed"


# a field


def test_a_field_takes_any_unit_and_says_what_it_understood(desk: Desk, bridge: BridgeCard) -> None:
    width = field(bridge, "Width at the wings")
    fill(width, "1 1/16 in", enter=False)
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.width == "1 1/16 in"
    assert width.hint.text() == "= 26.99 mm"  # derived: 17/16 × 25.4 = 26.9875


def test_a_wrong_entry_stays_and_the_last_good_value_is_in_force(desk: Desk, bridge: BridgeCard) -> None:
    before = desk.document.job
    width = field(bridge, "Width at the wings")
    fill(width, "260")
    assert desk.document.job == before
    assert width.line.text() == "260"
    assert width.wrong.isVisible()
    assert "The bridge’s width is 260 mm, but must lie between 5 and 120 mm" in width.wrong.text()


def test_mending_a_wrong_entry_takes_the_sentence_away(desk: Desk, bridge: BridgeCard) -> None:
    width = field(bridge, "Width at the wings")
    fill(width, "260")
    fill(width, "27")
    assert not width.wrong.isVisible()
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.width == 27


def test_escape_in_a_field_takes_back(desk: Desk, bridge: BridgeCard) -> None:
    before = desk.document.job
    width = field(bridge, "Width at the wings")
    fill(width, "31", enter=False)
    press(width.line, Qt.Key.Key_Escape)
    assert desk.document.job == before


def test_arrow_keys_step_by_the_fineness_typed(desk: Desk, bridge: BridgeCard) -> None:
    width = field(bridge, "Width at the wings")
    fill(width, "26.5", enter=False)
    press(width.line, Qt.Key.Key_Up)
    assert width.line.text() == "26.6"
    press(width.line, Qt.Key.Key_PageDown)
    assert width.line.text() == "25.6"
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.width == 25.6


def test_enter_moves_to_the_next_field(bridge: BridgeCard) -> None:
    fill(field(bridge, "Length, wing to wing"), "150")
    assert field(bridge, "Width at the wings").line.hasFocus()


def test_undo_in_a_field_undoes_the_job(desk: Desk, bridge: BridgeCard) -> None:
    before = desk.document.job
    fill(field(bridge, "Width at the wings"), "31")
    desk.menu_actions["Undo"].trigger()
    assert desk.document.job == before
    assert before.bridge is not None
    assert field(bridge, "Width at the wings").line.text() == f"{before.bridge.width:g}"


# the bridge


def test_a_bridge_is_begun_only_when_asked(lend_desk: LendDesk) -> None:
    job = sample("leaning-neck")
    desk = lend_desk(Job(points=job.points, readings=job.readings, strings=job.strings))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    before = desk.document.job.bridge
    desk.card.glued.begin.click()
    assert before is None
    assert desk.document.job.bridge == Bridge(pins=Pins())
    assert not desk.card.glued.begin.isVisible()


def test_what_begins_a_bridge_stands_at_the_head_of_the_card_and_once(lend_desk: LendDesk) -> None:
    job = sample("leaning-neck")
    desk = lend_desk(Job(points=job.points, readings=job.readings, strings=job.strings))
    desk.frame.resize(1366, 690)
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    for _ in range(4):
        QApplication.processEvents()
    begin = desk.card.glued.begin
    assert begin.visibleRegion().boundingRect() == begin.rect()
    assert begin.text() == "Take usual sizes as a start"
    layout = desk.document.layout
    assert layout is not None
    (missing,) = (finding for finding in layout.findings if finding.code == "bridge.missing")
    assert begin.text() in missing.text  # which is said everywhere but here, where the button is
    assert missing.text not in [line.finding.text for line in desk.card.findings.lines]
    choose(desk.card, "How is it held?", "by the strings alone")
    assert not begin.isVisible()


def test_the_card_opens_at_its_first_field(bridge: BridgeCard) -> None:
    assert any(line.isVisible() for line in bridge.findings.lines)
    held = bridge.focusWidget()
    assert isinstance(held, Choice)
    assert held.accessibleName() == "How is it held?"
    assert held.visibleRegion().boundingRect() == held.rect()


def test_a_finding_leads_to_its_place(desk: Desk, bridge: BridgeCard) -> None:
    bridge.findings.lines[0].click()
    assert desk.board.pictures.strong != frozenset()


# a new job


def test_three_answers_lead_straight_to_the_first_reading(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    start = desk.card
    assert isinstance(start, StartCard)
    start.hands["left"].click()
    start.begin.click()
    assert desk.card.title == "Measure"
    assert desk.document.job.hand == "left"
    assert desk.measure.table.chosen == "r1"
    assert desk.focusWidget() is desk.measure.table


def test_a_bridge_that_is_off_is_asked_for_and_other_heights_are_read(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    start = desk.card
    assert isinstance(start, StartCard)
    start.lists.setCurrentIndex(start.lists.findData("neck and bridge"))
    before = start.about.text()
    start.off.click()
    assert start.about.text() != before
    start.begin.click()
    assert {r.at for r in desk.document.job.readings if r.kind == "height"} == {"board end", "saddle"}


def test_the_bridges_thickness_is_typed_on_each_side(desk: Desk, bridge: BridgeCard) -> None:
    fill(field(bridge, "Thickness at the slot, bass"), "9.2")
    fill(field(bridge, "Thickness at the slot, treble"), "8.8")
    made = desk.document.job.bridge
    assert made is not None
    assert made.thickness == ((8.8, 9.2) if desk.document.job.bass == "right" else (9.2, 8.8))
    fill(field(bridge, "Thickness at the slot, treble"), "9.2")
    made = desk.document.job.bridge
    assert made is not None
    assert made.thickness == 9.2


def test_enter_presses_the_button_that_has_the_focus(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    sample_button = next(b for b in desk.findChildren(QPushButton) if b.text() == "Leaning neck")
    sample_button.setFocus()
    press(sample_button, Qt.Key.Key_Return)
    assert desk.document.job.title == "Leaning neck"
    desk.document.edit("no bridge", replace(desk.document.job, bridge=None, saddle=None))
    desk.cards.open("Bridge")
    begin = next(b for b in desk.card.findChildren(QPushButton) if b.text() == "Take usual sizes as a start")
    begin.setFocus()
    press(begin, Qt.Key.Key_Return)
    assert desk.document.job.bridge is not None


def test_the_first_reading_is_drawn_before_anything_is_measured(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    assert isinstance(desk.card, StartCard)
    desk.card.begin.click()
    drawing = desk.board.plan.drawing
    assert drawing is not None
    assert any(mark.of == "reading:r1" for mark in drawing.marks)


def test_a_form_says_nothing_twice(strings: StringsCard) -> None:
    assert isinstance(strings.form, Form)
    names = [found.name.text() for found in strings.findChildren(Field)]
    assert len(names) == len(set(names))


def test_pointing_at_a_pixel_of_the_plan_is_pointing_at_a_millimetre(desk: Desk) -> None:
    plan = desk.board.plan
    at = QPoint(300, 300)
    assert plan.to_pixels(plan.to_mm(at.toPointF())).toPoint() == at


def test_strings_are_added_and_removed(desk: Desk, strings: StringsCard) -> None:
    strings.add_button.click()
    assert desk.document.job.strings is not None
    assert [s.name for s in desk.document.job.strings.list] == ["1", "2", "3", "4", "5", "6", "7"]
    strings.table.go(6, 0)
    strings.remove_button.click()
    assert [s.name for s in desk.document.job.strings.list] == ["1", "2", "3", "4", "5", "6"]


def test_what_is_known_of_one_string_is_typed_for_the_chosen_one(desk: Desk, strings: StringsCard) -> None:
    strings.table.go(5, 0)
    fill(field(strings, "Core"), "0.018 in")
    assert desk.document.job.strings is not None
    assert desk.document.job.strings.list[5].core == "0.018 in"
    strings.table.go(4, 0)
    assert field(strings, "Core").line.text() == ""


def test_the_field_typed_into_stays_where_it_is(lend_desk: LendDesk) -> None:
    """Findings and the picture of cents come up above the spread as soon as it is given."""
    job = sample("leaning-neck")
    assert job.strings is not None
    desk = lend_desk(replace(job, strings=replace(job.strings, saddle=None)))
    desk.frame.resize(1280, 800)
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    QApplication.processEvents()
    spread = field(desk.card, "At the saddle")
    assert desk.card.go_to("field:strings.saddle.spread")
    QApplication.processEvents()
    before = spread.line.mapTo(desk.card, QPoint(0, 0)).y()
    fill(spread, "55.5", enter=False)
    QApplication.processEvents()
    assert desk.card.picture.isVisible()
    assert spread.line.mapTo(desk.card, QPoint(0, 0)).y() == before


def test_a_finding_leads_to_its_field(lend_desk: LendDesk) -> None:
    job = sample("leaning-neck")
    assert job.strings is not None
    desk = lend_desk(replace(job, strings=replace(job.strings, saddle=None)))
    desk.strip.went_to.emit("field:strings.saddle.spread")
    assert isinstance(desk.card, StringsCard)
    assert desk.frame.focusWidget() is field(desk.card, "At the saddle").line


def test_frets_that_count_are_typed_in_runs(desk: Desk, strings: StringsCard) -> None:
    fill(field(strings, "Frets that count"), "1-3, 7: 2")
    assert desk.document.job.strings is not None
    assert desk.document.job.strings.weights == {1: 1.0, 2: 1.0, 3: 1.0, 7: 2.0}
    assert string_entries.weighed(desk.document.job) == "1-3, 7: 2"
    fill(field(strings, "Frets that count"), "3-1")
    assert "names no frets" in field(strings, "Frets that count").wrong.text()
    assert desk.document.job.strings.weights == {1: 1.0, 2: 1.0, 3: 1.0, 7: 2.0}
    field(strings, "Frets that count").line.selectAll()
    press(field(strings, "Frets that count").line, Qt.Key.Key_Delete)
    assert desk.document.job.strings.weights is None


def test_the_set_that_is_replaced_is_compared(desk: Desk, strings: StringsCard) -> None:
    desk.document.edit("replaces", string_entries.put_replaced(desk.document.job, "steel 13-58"))
    assert string_entries.replaced(desk.document.job) == "steel 13-58"
    assert any("against" in line.finding.text or "replace" in line.finding.text for line in strings.told.lines)
    desk.document.edit("replaces", string_entries.put_replaced(desk.document.job, "now"))
    assert string_entries.replaced(desk.document.job) == "now"
    desk.document.edit("replaces", string_entries.put_replaced(desk.document.job, ""))
    assert string_entries.replaced(desk.document.job) == ""


def test_the_nut_is_moved_as_the_strings_want_or_as_typed(desk: Desk, strings: StringsCard) -> None:
    desk.document.edit("nut", string_entries.put_nut_moves(desk.document.job, "worked out"))
    assert string_entries.block(desk.document.job).nut_compensation == "worked out"
    assert field(strings, "Nut set back by").line.text() == ""
    fill(field(strings, "Nut set back by"), "-0.4")
    assert string_entries.block(desk.document.job).nut_compensation == -0.4
    assert string_entries.nut_moves(desk.document.job) == "typed"


def test_a_list_that_climbs_is_turned_round(lend_desk: LendDesk) -> None:
    job = sample("leaning-neck")
    desk = lend_desk(string_entries.turn_round(job))
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    assert any("Turn the list round" in line.finding.text for line in desk.card.findings.lines)
    assert desk.card.turn_button.isVisible()
    desk.card.turn_button.click()
    assert desk.document.job == job
    assert not desk.card.turn_button.isVisible()


def test_what_was_heard_waits_for_the_trial_saddle(desk: Desk, strings: StringsCard) -> None:
    ear = strings.by_ear
    type_into(ear.cents, "-4.5")
    ear._add()
    assert ear.wrong.text() == "Trial saddle 1 is not measured yet; add readings to its two ends first."
    job = desk.document.job
    for at, side in enumerate(("left", "right")):
        job = edits.add(job, "distance", (f"end.{side}", f"trial.1.{side}"))
        job = edits.set_value(job, job.readings[-1].id, f"{190 + at}")
    desk.document.edit("trial saddle", job)
    ear._add()
    assert [line.text() for line in ear.findChildren(QLabel) if line.text().startswith("String 1,")] == [
        "String 1, fret 12 against its harmonic: 4.5 cents flat, on trial saddle 1"
    ]
    next(b for b in ear.findChildren(QPushButton) if b.text() == "Remove").click()
    assert desk.document.job.strings is not None
    assert desk.document.job.strings.heard == ()


# large words


def test_large_words_have_room_in_the_table_of_strings(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"))
    desk.frame.resize(1366, 768)
    desk.preferences.set_text(2.0)
    desk.cards.open("Strings")
    QApplication.processEvents()
    assert isinstance(desk.card, StringsCard)
    table, letters = desk.card.table, QFontMetricsF(desk.look.font(LABEL))
    for column in range(table.strings.columns):
        head = str(table.strings.headerData(column, Qt.Orientation.Horizontal))
        assert letters.horizontalAdvance(head) <= table.columnWidth(column) - 2 * BESIDE
    for row in range(table.strings.count):
        assert letters.horizontalAdvance(table.strings.text(row, MAKE)) <= table.columnWidth(MAKE) - 2 * BESIDE


def test_a_fold_without_a_sentence_keeps_no_room_for_one(desk: Desk) -> None:
    fold = Fold("Choice of saddle", desk.look, desk)
    assert fold.under.isHidden()
    fold.say("Nothing yet.")
    assert not fold.under.isHidden()


# where a card opens


def test_a_card_opens_at_its_top_though_the_field_that_had_the_focus_is_gone(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("leaning-neck"))
    desk.frame.resize(1280, 800)
    desk.cards.open("Bridge")
    QApplication.processEvents()
    for name in ("floating-five", "slanted-separate"):  # the first from another card, the next from this one
        if name == "floating-five":
            desk.cards.open("Measure")
        desk.document.start(sample(name))
        desk.cards.open("Bridge")
        QApplication.processEvents()
        (area,) = desk.card.findChildren(QScrollArea)
        assert area.verticalScrollBar().maximum() > 0
        assert area.verticalScrollBar().value() == 0


def test_a_card_that_was_scrolled_opens_where_it_was_left(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("leaning-neck"))
    desk.frame.resize(1280, 800)
    desk.cards.open("Bridge")
    QApplication.processEvents()
    line = field(desk.card, "Thickness").line
    line.setFocus()
    (area,) = desk.card.findChildren(QScrollArea)
    area.ensureWidgetVisible(line)
    left_at = area.verticalScrollBar().value()
    assert left_at > 0
    desk.cards.open("Sheets")
    desk.cards.open("Bridge")
    QApplication.processEvents()
    assert desk.card.focusWidget() is line
    assert area.verticalScrollBar().value() == left_at
    assert not line.visibleRegion().isEmpty()


# what can be chosen


def test_the_usual_sets_are_said_whole_where_they_are_chosen(strings: StringsCard) -> None:
    box = next(box for box in strings.findChildren(Choice) if box.findText("Six strings, steel 12-54") >= 0)
    box.widen_list()  # as it does when it opens; there are no lists on this platform
    letters = QFontMetricsF(box.view().font())
    room = box.view().minimumWidth() - 26  # the list's padding and its lines', twice 8, and a scroll bar of 10
    assert all(letters.horizontalAdvance(box.itemText(at)) <= room for at in range(box.count()))


def test_a_line_that_is_clicked_at_the_foot_comes_wholly_into_sight(qtbot: QtBot, strings: StringsCard) -> None:
    (area,) = strings.findChildren(QScrollArea)
    bar, viewport = area.verticalScrollBar(), area.viewport()
    inside = area.widget()
    assert inside is not None
    line = next(
        found
        for found in strings.findChildren(TypedLine)
        if found.isVisible() and found.mapTo(inside, QPoint(0, 0)).y() > viewport.height()
    )
    bar.setValue(line.mapTo(inside, line.rect().center()).y() - viewport.height())
    assert line.visibleRegion().boundingRect().height() < line.height()
    QTest.mouseClick(line, Qt.MouseButton.LeftButton, pos=QPoint(5, 3))
    qtbot.waitUntil(lambda: line.visibleRegion().boundingRect() == line.rect())
    assert line.hasFocus()


def test_a_field_in_sight_stays_so_where_the_foot_takes_room(qtbot: QtBot, desk: Desk, strings: StringsCard) -> None:
    (area,) = strings.findChildren(QScrollArea)
    viewport = area.viewport()
    line = next(found for found in strings.findChildren(TypedLine) if found.isVisible())
    line.setFocus()
    let_rounds_pass()
    bar = area.verticalScrollBar()
    bar.setValue(bar.value() + line.mapTo(viewport, QPoint(0, line.height())).y() - viewport.height() + 2)
    desk.notice.say("A sentence.")
    qtbot.waitUntil(lambda: line.visibleRegion().boundingRect() == line.rect())


def test_what_keeps_a_field_in_its_place_takes_back_no_scroll(qtbot: QtBot, lend_desk: LendDesk) -> None:
    """A card that changes holds its field in place while words find their height; who scrolls meanwhile stays there."""
    card = lend_desk(sample("leaning-neck"), "Bridge").card
    assert isinstance(card, BridgeCard)
    card.held.setFocus()
    bar = card.area.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 400)
    let_rounds_pass()  # the field with the focus was brought into sight
    keep_still(card, card.refresh)
    bar.setValue(400)
    let_rounds_pass()
    assert bar.value() == 400
