"""The choice of place on the Bridge card: looked for on a thread, seen on the plan, taken, and out of date in time."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.place.choice_part import ChoicePart, PlaceLine
from app.desk.frame.desk import Desk
from geometry.job import Moved
from tests.app.desk.conftest import OpenDesk, field, fill, press, sample


@pytest.fixture
def part(desk: Desk) -> ChoicePart:
    """The part, shown, on the Bridge card."""
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    desk.card.glued.choice.set_open(True)
    return desk.card.glued.choice


def searched(part: ChoicePart, qtbot: QtBot) -> list[PlaceLine]:
    part.look_for.click()
    qtbot.waitUntil(lambda: bool(part.places), timeout=10000)
    return part.inside.findChildren(PlaceLine)


def test_places_are_found_and_drawn_while_the_card_is_open(desk: Desk, part: ChoicePart, qtbot: QtBot) -> None:
    lines = searched(part, qtbot)
    assert [line.accessibleName().split(";")[0] for line in lines][:2] == [
        "True to the strings",
        "Best by your weights",
    ]
    assert desk.board.pictures.options.choices == part.places
    assert desk.board.plan.drawing is not None
    drawn = {mark.of for mark in desk.board.plan.drawing.marks}
    assert "choice:true to the strings" in drawn
    desk.cards.open("Measure")
    assert desk.board.pictures.options.choices == ()


def test_a_place_is_taken_and_taken_back(desk: Desk, part: ChoicePart, qtbot: QtBot) -> None:
    lines = searched(part, qtbot)
    place = part.places[1]
    before = desk.document.job
    button = next(b for b in lines[1].findChildren(QPushButton) if b.text() == "Take this place")
    button.setFocus()
    assert part.looked_at == place.best_at[0]
    press(button, Qt.Key.Key_Space)
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.moved == place.moved
    assert part.places, "a place that is taken does not put the others out of date"
    assert part.under.text().startswith("Moved 2.2 mm to the nut")
    desk.document.stack.undo()
    assert desk.document.job == before


def test_another_reading_puts_the_places_out_of_date(desk: Desk, part: ChoicePart, qtbot: QtBot) -> None:
    searched(part, qtbot)
    job = desk.document.job
    first = replace(job.readings[0], value=44.9)
    desk.document.edit("another value", replace(job, readings=(first, *job.readings[1:])))
    assert part.places == ()
    assert part.says.text() == "The job has changed since: look again."
    assert desk.board.pictures.options.choices == ()


def test_a_search_that_is_stopped_shows_nothing(part: ChoicePart, qtbot: QtBot) -> None:
    part.look_for.click()
    assert not part.look_for.isEnabled()
    part.cancel.click()
    qtbot.wait(50)
    assert part.places == ()
    assert part.look_for.isEnabled()


def test_another_job_takes_the_places_away(desk: Desk, part: ChoicePart, qtbot: QtBot) -> None:
    searched(part, qtbot)
    desk.commands.new()
    assert part.places == ()


def test_it_can_be_moved_by_hand_and_every_number_follows(desk: Desk, part: ChoicePart) -> None:
    before = desk.document.layout
    fill(field(part, "Along, + to the tail"), "-1.5")
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.moved == Moved(along=-1.5)
    after = desk.document.layout
    assert before is not None
    assert after is not None
    assert before.bridge is not None
    assert after.bridge is not None
    assert after.bridge.corners[0][0] == pytest.approx(before.bridge.corners[0][0] - 1.5, abs=1e-6)
    fill(field(part, "Along, + to the tail"), "0")
    assert desk.document.job.bridge.moved is None


def test_weights_that_are_all_nought_are_refused_in_a_sentence(desk: Desk, part: ChoicePart) -> None:
    names = ("One cent out of tune", "One mm of uneven margins", "100 mm² of scar", "An old hole not used again")
    for name in (*names, "One mm lacking at brace, plate, metal"):
        fill(field(part, name), "0")
    last = field(part, "One mm askew to the seam")
    fill(last, "0")
    assert desk.document.job.choice.weights.looks == 0.5
    assert "nothing counts" in last.wrong.text()


def test_without_a_bridge_it_says_what_comes_first(open_desk: OpenDesk) -> None:
    desk = open_desk(replace(sample("leaning-neck"), bridge=None))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    desk.card.glued.choice.look_for.click()
    assert desk.card.glued.choice.says.text().startswith("There is nothing to choose yet")


def test_the_fields_are_gone_to(desk: Desk) -> None:
    desk.go_to("field:choice.cents")
    assert isinstance(desk.card, BridgeCard)
    assert desk.card.glued.choice.is_open


def test_the_bridge_is_slid_and_every_number_follows(desk: Desk, part: ChoicePart) -> None:
    before, job = desk.document.layout, desk.document.job
    slider = part.slides.sliders["along"]
    slider.setSliderDown(True)
    slider.sliderPressed.emit()
    for step in (-10, -30, -50):
        slider.setSliderPosition(step)
    slider.setSliderDown(False)
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.moved == Moved(along=-1.5)  # half of the range of 3 mm
    assert field(part, "Along, + to the tail").line.text() == "-1.5"
    after = desk.document.layout
    assert before is not None
    assert after is not None
    assert after.old.scar_widths != before.old.scar_widths
    desk.document.stack.undo()
    assert desk.document.job == job, "a drag is one step"
    assert slider.value() == 0


def test_the_sliders_are_moved_by_keys_a_step_each(desk: Desk, part: ChoicePart) -> None:
    slider = part.slides.sliders["turn"]
    slider.setFocus()
    press(slider, Qt.Key.Key_Right)
    press(slider, Qt.Key.Key_Right)
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.moved == Moved(turn=0.02)
    desk.document.stack.undo()
    assert desk.document.job.bridge is not None
    assert desk.document.job.bridge.moved == Moved(turn=0.01)


def test_a_bridge_that_hides_the_old_one_is_taken(desk: Desk) -> None:
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    cover = desk.card.glued.cover
    assert cover.isVisibleTo(desk.card)
    cover.set_open(True)
    assert "the slot stays where it is" in cover.words.text()
    before = desk.document.layout
    cover.take.click()
    after = desk.document.layout
    assert before is not None
    assert after is not None
    assert before.old.scar_widths
    assert not after.old.scar_widths
    assert before.saddle is not None
    assert after.saddle is not None
    assert after.saddle.front == before.saddle.front
    assert not cover.isVisibleTo(desk.card)


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_what_is_found_is_no_wider_than_the_card(open_desk: OpenDesk, qtbot: QtBot, size: float) -> None:
    """In inches, where the figures take most room; what is wider is cut off, for a card never scrolls sideways."""
    desk = open_desk(replace(sample("leaning-neck"), unit="in"))
    desk.preferences.set_text(size)
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    part = desk.card.glued.choice
    part.set_open(True)
    assert len(searched(part, qtbot)) > 2
    qtbot.wait(50)
    area = desk.card.area
    inside = area.widget()
    assert inside is not None
    assert inside.width() == area.viewport().width()
    assert inside.minimumSizeHint().width() <= inside.width()
