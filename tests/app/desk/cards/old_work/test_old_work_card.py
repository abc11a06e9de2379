"""The Old work card in the window: its sections, pointing on the plan, lists, and what the move does."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.old_work.old_section import CLEAR, METAL, OldSection
from app.desk.cards.old_work.old_work_card import SECTIONS, OldWorkCard
from app.desk.frame.desk import Desk
from app.desk.plan.pointing.clicked_places import Placing
from app.desk.widgets.inputs.choice import Tick
from app.edit.bridge import standing_entries
from app.edit.old_work.old_kinds import OldKind
from app.say import how_to
from geometry.layout import XY
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import field, fill, make_whole, press, sample, type_into
from tests.app.desk.for_every_hand.test_nothing_cut import crossed, cut, settle


@pytest.fixture
def desk(lend_desk: LendDesk) -> Desk:
    return lend_desk(sample("bolted-left"), "Old work")


@pytest.fixture
def card(desk: Desk) -> OldWorkCard:
    return desk.cards.get_as("Old work", OldWorkCard)


def opened(card: OldWorkCard, kind: OldKind) -> OldSection:
    """A section, unfolded."""
    section = card.sections[kind]
    section.fold.set_open(True)
    return section


def click(desk: Desk, at: XY) -> None:
    """Click on the plan."""
    spot = desk.board.plan.to_pixels(at)
    QTest.mouseClick(desk.board.plan, Qt.MouseButton.LeftButton, pos=QPoint(round(spot.x()), round(spot.y())))


def test_it_is_a_step_between_measuring_and_strings(desk: Desk) -> None:
    assert [step for step in desk.header.steps.buttons][:3] == ["Measure", "Old work", "Strings"]


def test_folded_sections_say_what_is_known(card: OldWorkCard) -> None:
    said = {kind: section.fold.under.text() for kind, section in card.sections.items()}
    assert list(said) == list(SECTIONS)
    assert said["pins"] == "2 holes read, 4 assumed between them."
    assert said["slot"] == "Nothing read yet."
    assert not card.sections["pins"].fold.is_open


def test_assumed_holes_are_marked_as_such(card: OldWorkCard) -> None:
    card.sections["pins"].fold.set_open(True)
    assert card.sections["pins"].rows.assumed.text().startswith("4 between them assumed")
    fill(field(card, "Holes in the row"), "2")
    assert not card.sections["pins"].rows.assumed.isVisible()


def test_the_question_for_the_row_leads_to_its_field_and_is_gone_once_answered(lend_desk: LendDesk) -> None:
    job = sample("bolted-left")
    assert job.old is not None
    desk = lend_desk(replace(job, old=replace(job.old, row=None)))
    card = desk.cards.get_as("Old work", OldWorkCard)

    def asked() -> list[str]:
        layout = desk.document.layout
        return [found.where for found in layout.findings if found.code == "old.row"] if layout else []

    (where,) = asked()
    desk.go_to(where)
    assert card.sections["pins"].fold.is_open
    assert field(card, "Holes in the row").isAncestorOf(desk.focusWidget())
    fill(field(card, "Holes in the row"), "6")
    assert asked() == []


def test_sizes_are_typed_and_taken_back(desk: Desk, card: OldWorkCard) -> None:
    for kind in SECTIONS:
        card.sections[kind].fold.set_open(True)
    for name, text in (("Old pin hole 1, diameter", "5.4"), ("Old hole 1, depth", "12"), ("Brace 2, width", "9")):
        fill(field(card, name), text)
    old = desk.document.job.old
    assert old is not None
    assert (old.pins["pin.1"].diameter, old.holes["hole.1"].depth, old.braces["2"].width) == (5.4, 12.0, 9.0)
    for _ in range(3):
        desk.document.stack.undo()
    assert desk.document.job == sample("bolted-left")


def test_corners_are_pointed_at_in_order_until_enter(desk: Desk, card: OldWorkCard) -> None:
    opened(card, "area").point.click()
    plan, before = desk.board.plan, desk.document.job
    for at in ((700.0, -40.0), (730.0, -40.0), (725.0, -70.0), (600.0, -90.0)):
        click(desk, at)
    assert isinstance(desk.board.pointer.state, Placing)
    assert "4 so far. Enter ends" in desk.board.pointer.says
    press(plan, Qt.Key.Key_Backspace)
    press(plan, Qt.Key.Key_Return)
    old, layout = desk.document.job.old, desk.document.layout
    assert old is not None
    assert layout is not None
    assert len(old.areas["2"].of) == 3
    first = layout.points[old.areas["2"].of[0]]
    # derived: a pixel of the plan is so many mm wide
    assert abs(complex(first.x, first.y) - (700 - 40j)) < 1.5 / plan.view.scale + 0.1
    desk.document.stack.undo()
    assert desk.document.job == before


def test_escape_gives_pointing_up(desk: Desk, card: OldWorkCard) -> None:
    before = desk.document.job
    opened(card, "plate").point.click()
    click(desk, (700.0, -40.0))
    press(desk.board.plan, Qt.Key.Key_Escape)
    press(desk.board.plan, Qt.Key.Key_Return)
    assert desk.document.job == before


def test_too_few_points_are_told_on_the_card(desk: Desk, card: OldWorkCard) -> None:
    opened(card, "plate").point.click()
    click(desk, (700.0, -40.0))
    press(desk.board.plan, Qt.Key.Key_Return)
    assert "at least 3 points are needed, but there are 1" in card.wrong.text()
    assert card.wrong.isVisible()


def test_a_list_is_typed_and_a_wrong_line_is_named(desk: Desk, card: OldWorkCard) -> None:
    section = card.sections["holes"]
    section.fold.set_open(True)
    section.typed.click()
    assert section.list is not None
    type_into(section.list.text, "2 ; 700")
    section.list.add.click()
    assert "Line 1 has not three parts" in section.list.wrong.text()
    type_into(section.list.text, " ; 12 bass")
    section.list.add.click()
    assert not section.list.isVisible()
    assert desk.document.job.old is not None
    assert list(desk.document.job.old.holes) == ["hole.1", "hole.2"]


def test_readings_are_asked_for_on_the_measure_card(desk: Desk, card: OldWorkCard) -> None:
    card.sections["holes"].fold.set_open(True)
    card.sections["holes"].read.click()
    measure = desk.card
    assert isinstance(measure, MeasureCard)
    chosen = next(reading for reading in desk.document.job.readings if reading.id == measure.table.chosen)
    assert (chosen.of, chosen.kind, chosen.value) == (("hole.2",), "along", None)


def test_undo_of_what_was_asked_for_here_comes_back_here(desk: Desk, card: OldWorkCard) -> None:
    """Pressed on the Measure card, where the rows are gone, and pressed here."""
    before = desk.document.job
    for pressed_on in ("Measure", "Old work"):
        opened(card, "plate").read.click()
        desk.cards.open(pressed_on)
        desk.menu_actions["Undo"].trigger()
        assert desk.document.job == before
        assert desk.cards.is_open("Old work"), pressed_on


def test_seen_from_inside_is_said_once(desk: Desk) -> None:
    desk.cards.open("Measure")
    measure = desk.measure
    measure.add()
    adding = measure.adding
    assert adding is not None
    adding.kind.setCurrentIndex(adding.kind.findData("distance"))
    adding.inside.click()
    adding.add_button.click()
    added = next(reading for reading in desk.document.job.readings if reading.id == measure.table.chosen)
    assert added.inside
    assert how_to.take(added, "left", "mm").endswith("bass and treble stay the instrument’s own.")
    measure.add()
    assert adding.inside.isChecked()
    desk.job_files.new(sample("leaning-neck"))
    assert not desk.document.from_inside


def test_what_the_move_does_leads_to_its_place(desk: Desk, card: OldWorkCard) -> None:
    lines = {made.line.part: made for made in card.move_list.lines}
    assert {"move", "scar", "finish", "holes", "plugs", "under", "looks"} <= set(lines)
    under = lines["under"]
    under.click()
    assert under.line.at is not None
    seen = desk.board.detail.view.centre
    assert abs(complex(*seen) - complex(*under.line.at)) < 1e-6


def test_what_was_not_said_to_be_read_inside_is_mended_by_one_button(lend_desk: LendDesk) -> None:
    job = sample("bolted-left")
    outside = tuple(replace(reading, inside=False) for reading in job.readings if not reading.inside)
    wrong = tuple(replace(reading, inside=False) for reading in job.readings if reading.inside)
    ties = tuple(reading for reading in wrong if reading.of[0].startswith("pin."))
    assert ties
    desk = lend_desk(replace(job, readings=outside + tuple(reading for reading in wrong if reading not in ties)))
    desk.go_to("field:old.inside")
    card = desk.card
    assert isinstance(card, OldWorkCard)
    assert desk.focusWidget() is card.say_inside
    card.say_inside.click()
    assert not card.say_inside.isVisible()
    found = {finding.code for finding in (desk.document.layout.findings if desk.document.layout else ())}
    assert "old.from_inside" not in found
    assert "old.untied" in found


def test_what_metal_keeps_clear_of_is_said_to_count_from_its_middle(card: OldWorkCard) -> None:
    section = card.sections["metal"]
    section.fold.set_open(True)
    says = [label.text() for label in section.findChildren(QLabel) if label.text() == METAL]
    assert len(says) == 1
    assert "round its middle" in CLEAR
    assert field(card, "The next metal, kept clear round its middle").isVisibleTo(card)
    kept = field(card, "Metal 1, kept clear round its middle")
    fill(kept, "1/2 in")
    job = card.document.job
    assert job.old is not None
    assert job.old.metal["metal.1"].keep_out == "1/2 in"


def test_leaving_out_is_undone(desk: Desk, card: OldWorkCard) -> None:
    card.sections["metal"].fold.set_open(True)
    card.sections["metal"].leave.click()
    assert desk.document.job.old is not None
    assert desk.document.job.old.metal == {}
    desk.document.stack.undo()
    assert desk.document.job == sample("bolted-left")


def test_every_control_has_a_name_of_its_own(card: OldWorkCard) -> None:
    sections = [opened(card, kind) for kind in card.sections]
    names = [button.accessibleName() for section in sections for button in (section.read, section.point)]
    assert len(set(names)) == len(names)
    assert all(names)


def test_nothing_is_cut_with_everything_unfolded(desk: Desk, card: OldWorkCard, subtests: pytest.Subtests) -> None:
    for section in card.sections.values():
        section.fold.set_open(True)
    card.sections["area"].typed.click()
    for size in (1.0, 1.5, 2.0):
        desk.preferences.set_text(size)
        settle()
        with subtests.test(size=size):
            assert list(cut(desk.frame)) == []
            assert list(crossed(desk.frame)) == []


def test_another_job_puts_a_list_away(desk: Desk, card: OldWorkCard) -> None:
    section = card.sections["holes"]
    section.fold.set_open(True)
    section.typed.click()
    assert section.list is not None
    assert section.list.isVisible()
    desk.document.start(sample("turned-left"))
    assert not section.list.isVisible()


def test_where_no_size_is_asked_there_is_no_room_for_one(card: OldWorkCard) -> None:
    """Of a footprint nothing is asked but its corners."""
    section = card.sections["footprint"]
    section.fold.set_open(True)
    settle()
    low = section.fold.under.mapTo(card, QPoint(0, section.fold.under.height())).y()
    assert section.read.mapTo(card, QPoint(0, 0)).y() - low < 20


def test_all_kinds_of_old_work_are_in_sight_at_once(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("floating-five"))  # nothing of it was read
    desk.frame.resize(1280, 800)
    desk.cards.open("Old work")
    settle()
    card = desk.card
    assert isinstance(card, OldWorkCard)
    heads = [section.fold.head for section in card.sections.values()]
    assert [head.text() for head in heads if head.visibleRegion().boundingRect() != head.rect()] == []


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_a_list_shows_five_lines_at_every_text_size(desk: Desk, card: OldWorkCard, size: float) -> None:
    section = card.sections["holes"]
    section.fold.set_open(True)
    if size == 1.0:
        desk.preferences.set_text(2.0)  # and back, while it is open
    section.typed.click()
    desk.preferences.set_text(size)
    settle()
    assert section.list is not None
    text = section.list.text
    assert text.viewport().height() >= 5 * text.fontMetrics().lineSpacing()
    assert text.viewport().height() < 7 * text.fontMetrics().lineSpacing()


def test_whether_the_old_bridge_is_off_is_told_here_and_undone(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("leaning-neck"), "Old work")
    card = desk.cards.get_as("Old work", OldWorkCard)
    tick = card.form.fields["bridge_off"]
    assert isinstance(tick, Tick)
    assert not tick.isChecked()
    tick.click()
    assert desk.document.job.bridge_off is True
    desk.cards.open("Strings")
    desk.menu_actions["Undo"].trigger()
    assert desk.cards.is_open("Old work")
    assert not tick.isChecked()


def test_a_bridge_that_only_stands_is_not_asked_whether_it_is_off(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("floating-five"), "Old work")
    card = desk.cards.get_as("Old work", OldWorkCard)
    make_whole(card)
    assert not card.form.fields["bridge_off"].isVisible()


def test_where_the_marks_of_old_feet_are_told(lend_desk: LendDesk) -> None:
    job = sample("floating-five")
    assert job.floating is not None
    marks = {name for name in job.points if name.startswith("mark.")}
    bare = replace(
        job,
        floating=replace(job.floating, marks=()),
        points={name: point for name, point in job.points.items() if name not in marks},
        readings=tuple(reading for reading in job.readings if not marks.intersection(reading.of)),
    )
    desk = lend_desk(bare, "Old work")
    card = desk.cards.get_as("Old work", OldWorkCard)

    def told() -> list[QPushButton]:
        buttons = card.findChildren(QPushButton)
        return [one for one in buttons if one.text().startswith("The old feet’s marks") and one.isVisible()]

    assert told() == []
    desk.document.edit("a mark", standing_entries.another_mark(bare))
    (button,) = told()
    assert button.text() == "The old feet’s marks are told on the Bridge card"
    assert card.sections["footprint"].fold.under.text() == "None; the old feet’s marks are on the Bridge card."
    button.click()
    assert desk.cards.is_open("Bridge")
    assert desk.focusWidget() is field(desk.card, "Points round each").line
