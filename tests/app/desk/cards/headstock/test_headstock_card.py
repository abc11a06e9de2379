"""The Headstock card in the window: its view of the plan, its sections, fittings, markers and holes."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QWidget

from app.desk.cards.headstock.headstock_card import HeadstockCard
from app.desk.cards.headstock.headstock_section import HOW, EntryPart
from app.desk.cards.headstock.sections import USUAL
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.document.put_reading import put_reading
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Tick
from app.desk.widgets.inputs.fields import Field
from app.edit import edits
from app.edit.headstock import hardware_entries, tuner_entries
from geometry.job import FaceMarkers, Hardware, Job, SideMarkers
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.cards.measure.test_measure_card import type_value
from tests.app.desk.conftest import OpenDesk, field, fill, sample


@pytest.fixture
def desk(lend_desk: LendDesk) -> Desk:
    desk = lend_desk(sample("redrilled-left"))
    desk.cards.open("Headstock")
    return desk


@pytest.fixture
def card(desk: Desk) -> HeadstockCard:
    card = desk.cards.get_as("Headstock", HeadstockCard)
    for section in card.sections.values():
        section.fold.set_open(True)
    return card


def button(card: HeadstockCard, name: str) -> QPushButton:
    return next(b for b in card.findChildren(QPushButton) if name in (b.text(), b.accessibleName()) and b.isVisible())


def test_it_is_a_step_between_bridge_and_sheets(desk: Desk) -> None:
    assert [step for step in desk.header.steps.buttons][-3:] == ["Bridge", "Headstock", "Sheets"]


def test_the_plan_shows_the_headstock_while_it_is_open_and_goes_back(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("redrilled-left"))
    desk.cards.open("Bridge")
    plan = desk.board.plan
    before = plan.view
    desk.cards.open("Headstock")
    assert plan.view.scale > 2 * before.scale
    assert -180 < plan.view.centre[0] < 0  # derived: between the headstock's end and the nut
    desk.cards.open("Bridge")
    assert plan.view == before


def test_a_view_put_there_by_hand_comes_back(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("redrilled-left"))
    plan = desk.board.plan
    plan.set_view(replace(plan.view, centre=(400.0, 10.0), scale=1.5), by_hand=True)
    before = plan.view
    desk.cards.open("Headstock")
    assert plan.view != before
    desk.cards.open("Sheets")
    assert plan.view == before


def test_folded_sections_say_what_is_known(card: HeadstockCard) -> None:
    said = {name: section.fold.under.text() for name, section in card.sections.items()}
    assert said == {
        "headstock": "Solid; 6 old posts, 4 old screws.",
        "tuners": "6 posts on 2 plates.",
        "markers": "Dots on the bass edge.",
        "holes": "None yet.",
    }


def test_points_read_are_taken_up(lend_desk: LendDesk) -> None:
    job = sample("redrilled-left")
    desk = lend_desk(replace(job, hardware=Hardware()))
    desk.cards.open("Headstock")
    card = desk.cards.get_as("Headstock", HeadstockCard)
    button(card, "Take up the headstock’s points").click()
    head = desk.document.job.hardware.headstock
    before = job.hardware.headstock
    assert head is not None
    assert before is not None
    assert head.outline == before.outline
    assert list(head.posts) == list(before.posts)
    assert not card.take.isVisible()
    desk.document.stack.undo()
    assert desk.document.job.hardware == Hardware()


def test_another_fitting_is_taken_and_taken_back(desk: Desk, card: HeadstockCard) -> None:
    row = card.fittings.rows["first post"]
    assert row.says.text().startswith("2 old holes used again, wider than the post, 8 plugs, cuts an old hole by ")
    assert card.fittings.rows["middle post"].taken.isVisible()
    row.button.click()
    assert desk.document.job.hardware.tuners is not None
    assert desk.document.job.hardware.tuners.keep == "first post"
    assert row.taken.isVisible()
    assert not row.button.isVisible()
    desk.document.stack.undo()
    assert card.fittings.rows["middle post"].taken.isVisible()


def test_tuners_are_typed_as_the_trade_says_them(desk: Desk, card: HeadstockCard) -> None:
    fill(field(card, "Posts on each plate, bass side"), "2 2")
    fill(field(card, "From post to post"), "36")
    tuners = desk.document.job.hardware.tuners
    assert tuners is not None
    assert tuners.left == (2, 2)  # a left-handed neck's bass side, as one sights along it
    assert tuners.spacing == 36


@pytest.mark.parametrize(
    ("name", "typed", "says"),
    [
        ("Posts on each plate, bass side", "three", "does not tell plates"),
        ("Posts on each plate, bass side", "0", "has no post"),
        ("From post to post", "7", "spacing"),
        ("Outline, points in order", "1 2 99", "There is no point headstock 99"),
        ("Edge dots, before frets", "3 5 x", "does not tell frets"),
        ("Edge dots, two before frets", "4", "which has none"),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence_and_changes_nothing(
    desk: Desk, card: HeadstockCard, name: str, typed: str, says: str
) -> None:
    before = desk.document.job
    fill(field(card, name), typed)
    assert says in field(card, name).wrong.text()
    assert desk.document.job == before


def test_markers_come_and_go_and_keep_two_at_frets_that_stay(desk: Desk, card: HeadstockCard) -> None:
    fill(field(card, "Edge dots, before frets"), "3 5 7")
    assert side(desk.document.job).frets == (3, 5, 7)
    assert side(desk.document.job).twice == ()
    tick = next(box for box in card.findChildren(Tick) if box.text() == "Dots in the board’s face")
    tick.click()
    markers = desk.document.job.hardware.markers
    assert markers is not None
    assert markers.face == FaceMarkers()


def side(job: Job) -> SideMarkers:
    assert job.hardware.markers is not None
    assert job.hardware.markers.side is not None
    return job.hardware.markers.side


def test_holes_are_added_described_and_taken_off(desk: Desk, card: HeadstockCard) -> None:
    button(card, "Add a hole").click()
    for name, text in (("Hole 1, where", "heel, strap pin"), ("Hole 1, diameter", "4"), ("Hole 1, plug", "6")):
        fill(field(card, name), text)
    (hole,) = desk.document.job.hardware.holes
    assert (hole.where, hole.diameter, hole.plug) == ("heel, strap pin", 4, 6)
    fill(field(card, "Hole 1, plug"), "3")
    assert "thinner than its hole" in field(card, "Hole 1, plug").wrong.text()
    button(card, "Take hole 1 off the list").click()
    assert desk.document.job.hardware.holes == ()


def test_a_finding_leads_to_its_field(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("redrilled-left"), "Headstock")
    QApplication.processEvents()  # the window has the keys by then
    card = desk.cards.get_as("Headstock", HeadstockCard)
    card.sections["tuners"].fold.set_open(False)
    desk.go_to("field:hardware.tuners.roller")
    assert card.sections["tuners"].fold.is_open
    assert field(card, "Roller").line.hasFocus()


def test_a_click_on_a_new_post_unfolds_the_tuners_and_says_how_well_it_is_known(desk: Desk) -> None:
    card, board = desk.cards.get_as("Headstock", HeadstockCard), desk.board
    layout = desk.document.layout
    assert layout is not None
    assert layout.hardware.headstock is not None
    post = layout.hardware.headstock.posts[0]
    at = board.plan.to_pixels(
        (post.at[0] - (post.bushing or 0.0) / 2 - 1.2, post.at[1])
    )  # by its bushing, off the old hole
    QTest.mouseMove(board.plan, at.toPoint())
    QTest.mouseClick(board.plan, Qt.MouseButton.LeftButton, pos=at.toPoint())
    assert board.pointer.over == "post:1"
    assert card.sections["tuners"].fold.is_open
    said = board.answers.about_post("1")
    assert said is not None
    assert said[1].startswith("post of string 6, ±")
    assert board.answers.about_post("7") is None


def row(card: HeadstockCard, name: str) -> Field:
    """The field as it is now: rows that were made anew leave the old ones behind for a moment."""
    return next(found for found in card.findChildren(Field) if found.name.text() == name and found.isVisible())


def test_a_plates_screws_and_an_old_holes_depth_are_typed(desk: Desk, card: HeadstockCard) -> None:
    before = desk.document.job.hardware.tuners
    assert before is not None
    assert before.plate is not None
    count = len(before.plate.screws)
    fill(row(card, f"Plate screw {count + 1}, along"), "-7")
    fill(row(card, f"Plate screw {count + 1}, across"), "1/8 in")
    after = desk.document.job.hardware.tuners
    assert after is not None
    assert after.plate is not None
    assert after.plate.screws == (*before.plate.screws, (-7, "1/8 in"))
    fill(row(card, f"Plate screw {count + 1}, along"), "")
    assert desk.document.job.hardware.tuners == before
    fill(field(card, "Old screw hole 1, depth"), "12")
    head = desk.document.job.hardware.headstock
    assert head is not None
    assert head.screws["screw.1"].depth == 12
    fill(field(card, "Old screw hole 1, depth"), "70")
    assert "depth" in field(card, "Old screw hole 1, depth").wrong.text()


def test_how_deep_posts_lie_is_typed_on_a_slotted_headstock(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("slotted-neck-screw"))
    desk.cards.open("Headstock")
    card = desk.cards.get_as("Headstock", HeadstockCard)
    card.sections["tuners"].fold.set_open(True)
    fill(field(card, "Posts below the face"), "8")
    assert desk.document.job.hardware.tuners is not None
    assert desk.document.job.hardware.tuners.below == 8
    fill(field(card, "Posts below the face"), "16")
    assert "would reach 19.18 mm below the headstock’s face" in field(card, "Posts below the face").wrong.text()
    assert desk.document.job.hardware.tuners.below == 8


def test_the_headstock_is_left_out_and_comes_back(desk: Desk, card: HeadstockCard) -> None:
    before = desk.document.job
    button(card, "Leave out headstock and tuners").click()
    assert desk.document.job.hardware.headstock is None
    assert desk.document.job.hardware.tuners is None
    assert desk.document.job.points == before.points
    assert not [b for b in card.findChildren(QPushButton) if b.text().startswith("Leave out") and b.isVisible()]
    assert card.take.isVisible()
    desk.document.stack.undo()
    assert desk.document.job == before


def test_a_headstock_without_a_place_moves_nothing(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("five-pairs"))
    desk.cards.open("Bridge")
    before = desk.board.plan.view
    desk.cards.open("Headstock")
    assert desk.board.plan.view == before
    desk.cards.open("Bridge")
    assert desk.board.plan.view == before


def test_a_hole_whose_rims_were_not_read_says_that_its_size_is_the_usual_one(open_desk: OpenDesk) -> None:
    """derived: 8 mm are 5/16 in on a rule of 64ths."""
    job = edits.set_unit(sample("redrilled-left"), "in")
    job = replace(job, readings=tuple(r for r in job.readings if r.kind != "rims"), hardware=Hardware())
    desk = open_desk(hardware_entries.take_up(job))
    desk.cards.open("Headstock")
    card = desk.cards.get_as("Headstock", HeadstockCard)
    card.sections["headstock"].fold.set_open(True)
    assert field(card, "Old post hole 1, diameter").line.text() == "5/16"
    notes = [label for label in card.findChildren(QLabel) if label.text() == USUAL and label.isVisibleTo(card)]
    assert len(notes) == 10
    fill(field(card, "Old post hole 1, diameter"), "3/8")
    notes = [label for label in card.findChildren(QLabel) if label.text() == USUAL and label.isVisibleTo(card)]
    assert len(notes) == 9


@pytest.fixture
def begun(lend_desk: LendDesk) -> HeadstockCard:
    """A headstock of which nothing is known, its section unfolded."""
    job = sample("redrilled-left")
    of_head = ("head.", "headslot.", "post.", "screw.")
    readings = tuple(r for r in job.readings if not any(name.startswith(of_head) for name in (*r.of, *r.from_)))
    points = {name: point for name, point in job.points.items() if not name.startswith(of_head)}
    desk = lend_desk(replace(job, hardware=Hardware(), readings=readings, points=points, unit="in"))
    desk.cards.open("Headstock")
    card = desk.cards.get_as("Headstock", HeadstockCard)
    card.found.fold.set_open(True)
    return card


def entry(card: HeadstockCard) -> EntryPart:
    assert card.found.entry is not None
    return card.found.entry


def test_a_headstock_of_which_nothing_is_known_says_how_to_begin(begun: HeadstockCard) -> None:
    assert begun.found.fold.under.text() == "Nothing read yet."
    assert [label.text() for label in begun.findChildren(QLabel) if "Measure card" in label.text()] == [HOW]
    offered = [entry(begun).what.itemText(at) for at in range(entry(begun).what.count())]
    assert offered == ["Old post holes", "The headstock’s outline", "A slot in the headstock", "Old screw holes"]
    assert [one.text() for one in begun.found.findChildren(QPushButton) if one.isVisible()][-3:] == [
        "Read",
        "Point",
        "Type a list",
    ]


def test_all_posts_of_two_rows_are_entered_by_reading(begun: HeadstockCard) -> None:
    """The readings stand on the Measure card; typed, they are six posts with the diameter that their rims tell."""
    document = begun.document
    button(begun, "Read: old post holes").click()
    asked = [r for r in document.job.readings if r.of and r.of[-1].startswith("post.")]
    assert len(asked) == 12
    for reading in asked:
        put_reading(document, reading.id, "2 5/16 ; 2 23/32", "")
    head = document.job.hardware.headstock
    assert head is not None
    assert {name: hole.diameter for name, hole in head.posts.items()} == {
        f"post.{number}": "13/32 in" for number in range(1, 7)
    }
    begun.refresh()
    assert begun.found.fold.under.text() == "Solid; 6 old posts, no old screws."


def test_a_post_is_pointed_at_on_the_bare_plan(begun: HeadstockCard) -> None:
    begun.pointing.connect(lambda _says, done: done(((-60.0, 20.0), (-90.0, 20.0))))
    button(begun, "Point: old post holes").click()
    head = begun.document.job.hardware.headstock
    assert head is not None
    assert list(head.posts) == ["post.1", "post.2"]
    entry(begun).ways.pointed("posts", ((60.0, 20.0),))
    assert "behind the nut is not on the headstock" in entry(begun).wrong.text()


def test_an_outline_is_typed_as_a_list_from_both_corners(begun: HeadstockCard) -> None:
    entry(begun).what.setCurrentIndex(1)
    button(begun, "Type a list: the headstock’s outline").click()
    typed = entry(begun).ways.list
    assert typed is not None
    assert typed.how.currentData() == "nut"
    typed.text.setPlainText("1 ; 1/4 ; 2\n2 ; 6 1/2 ; 7\n3 ; 7 ; 6 1/2\n4 ; 2 ; 1/4")
    typed.add.click()
    head = begun.document.job.hardware.headstock
    assert head is not None
    assert head.outline == ("head.1", "head.2", "head.3", "head.4")


def test_readings_that_the_card_asks_for_lead_back_to_it(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("redrilled-left"))
    desk.cards.open("Headstock")
    card = desk.cards.get_as("Headstock", HeadstockCard)
    on = desk.measure.notes.on_button
    assert on.text() == "All readings taken: on to Strings"
    card.measuring.emit(desk.document.job.readings[0].id)
    assert desk.cards.is_open("Measure")
    assert (on.text(), on.accessibleName()) == ("All readings taken: back to Headstock",) * 2
    assert on.accessibleDescription() == "All readings are taken; opens the Headstock card"
    on.click()
    assert desk.cards.is_open("Headstock")
    assert on.text() == "All readings taken: on to Strings"  # once: the next readings lead on
    card.measuring.emit(desk.document.job.readings[0].id)
    desk.job_files.new(sample("leaning-neck"))
    assert on.text() == "All readings taken: on to Strings"


def test_the_way_leads_back_though_one_of_the_readings_was_typed_wrong_at_first(begun: HeadstockCard) -> None:
    """Read on the card, typed with Enter: a reading that is to be looked at meanwhile leaves the way back as it was."""
    button(begun, "Read: old post holes").click()
    desk = begun.window()
    assert isinstance(desk, QWidget)
    card = desk.findChild(MeasureCard)
    assert card is not None
    notes, rims = card.notes, ("2 5/16 ; 2 23/32", "2 1/2 ; 2 29/32")
    type_value(card, "1 5/16 ; 2 23/32")
    for at in range(1, 12):
        type_value(card, rims[at % 2])
    assert notes.again.head
    assert notes.on_button.isHidden()
    wrong = next(r for r in begun.document.job.readings if r.value == ("1 5/16 in", "2 23/32 in"))
    card.table.go_to(wrong.id)
    type_value(card, rims[0])
    assert (notes.again.head, notes.on_button.isHidden()) == ("", False)
    assert notes.on_button.text() == "All readings taken: back to Headstock"


def test_tuners_that_are_just_as_the_fields_stand_can_be_taken(begun: HeadstockCard) -> None:
    begun.sections["tuners"].fold.set_open(True)
    before = begun.document.job
    assert before.hardware.tuners is None
    button(begun, "Take these tuners").click()
    begun.refresh()
    assert begun.document.job.hardware.tuners == tuner_entries.begun(begun.document.job)
    assert not [b for b in begun.findChildren(QPushButton) if b.text() == "Take these tuners" and b.isVisible()]
