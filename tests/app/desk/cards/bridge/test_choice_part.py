"""The choice of place on the Bridge card: looked for on a thread, seen on the plan, taken, and out of date in time."""

import threading
import time
from functools import cache
from typing import Any

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QPushButton
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.place.choice_part import ChoicePart, PlaceLine
from app.desk.cards.bridge.place.slides import Slides
from app.desk.frame.desk import Desk
from app.edit import edits
from app.edit.bridge import choice_entries
from geometry import choice
from geometry.choice.choose import ChosenPlace
from geometry.job import Job, Moved
from geometry.survey import survey
from geometry.units import Length, Unit, mm
from geometry.work_out import work_out
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, field, fill, let_rounds_pass, press, sample


@cache
def places_of_the_sample() -> tuple[ChosenPlace, ...]:
    """What is found for the sample as it is: the same each time, so that it is looked for once."""
    job = sample("leaning-neck")
    return choice.choose(job, survey(job), work_out(job), lambda: False)


@pytest.fixture
def part(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> ChoicePart:
    """The part, shown, on the Bridge card; what it finds for the sample as it is was found before."""
    known, anew = places_of_the_sample(), choice.choose

    def choose(job: Job, *about: Any) -> tuple[ChosenPlace, ...]:
        return known if job is sample("leaning-neck") else anew(job, *about)

    monkeypatch.setattr(choice, "choose", choose)
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
    assert desk.document.job.bridge.moved == replace(
        place.moved,
        along=round(mm(place.moved.along), 1),
        across=round(mm(place.moved.across), 1),
        turn=round(place.moved.turn, 2),
    )
    assert part.places, "a place that is taken does not put the others out of date"
    assert part.under.text().startswith("Moved 2.2 mm to the nut")
    desk.document.stack.undo()
    assert desk.document.job == before


@pytest.mark.parametrize(
    ("length", "unit", "kept"),
    [  # derived: 0.496 mm is 1.25 of a 64th, 0.397 mm; 3.3 mm is 8.3 of them, an eighth
        (0.496, "in", "1/64 in"),
        (-3.3, "in", "-1/8 in"),
        (0.1, "in", 0.0),
        (-0.496, "mm", -0.5),
        (-3.3, "cm", "-0.33 cm"),
    ],
)
def test_a_place_is_kept_as_the_rule_lays_it_off(length: float, unit: Unit, kept: Length) -> None:
    assert choice_entries.ruled(length, unit) == kept


def test_in_inches_a_place_that_is_taken_reads_in_64ths(lend_desk: LendDesk) -> None:
    job = edits.set_unit(sample("leaning-neck"), "in")
    desk = lend_desk(choice_entries.take_found(job, Moved(along=-2.2, across=0.496, turn=0.1234)))
    desk.cards.open("Bridge")
    typed = [
        field(desk.card, name).line.text() for name in ("Along, + to the tail", "Turned (°), + treble end to the nut")
    ]
    assert typed == ["-3/32", "0.12"]  # derived: 2.2 mm is 5.54 64ths, nearest 6
    slider = desk.card.findChildren(Slides)[0].sliders["along"]
    assert slider.maximum() == int(mm(job.choice.along) / 25.4 * 64)  # a step for each 64th
    slider.setFocus()
    slider.setValue(3)
    assert field(desk.card, "Along, + to the tail").line.text() == "3/64"


def test_another_reading_puts_the_places_out_of_date(desk: Desk, part: ChoicePart, qtbot: QtBot) -> None:
    searched(part, qtbot)
    job = desk.document.job
    first = replace(job.readings[0], value=44.9)
    desk.document.edit("another value", replace(job, readings=(first, *job.readings[1:])))
    assert part.places == ()
    assert part.says.text() == "The job has changed since: look again."
    assert desk.board.pictures.options.choices == ()


def test_a_search_that_is_stopped_shows_nothing(part: ChoicePart, monkeypatch: pytest.MonkeyPatch) -> None:
    """It finds them all just as it is stopped."""
    begun = threading.Event()

    def choose(*about: Any) -> tuple[ChosenPlace, ...]:
        begun.set()
        while not about[-1]():
            time.sleep(0.001)
        return places_of_the_sample()

    monkeypatch.setattr(choice, "choose", choose)
    part.look_for.click()
    assert not part.look_for.isEnabled()
    assert begun.wait(10)
    (search,) = [thread for thread in threading.enumerate() if thread.name == "choosing"]
    part.cancel.click()
    search.join(10)
    assert not search.is_alive()
    QApplication.processEvents()  # what it found would be told by now
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
    names = ("cent out of tune", "mm of uneven margins", "100 mm² of scar", "old hole not used again")
    for name in (*names, "mm lacking at brace, plate, metal"):
        fill(field(part, f"Points for each {name}"), "0")
    last = field(part, "Points for each mm askew to the seam")
    fill(last, "0")
    assert desk.document.job.choice.weights.looks == 0.5
    assert "nothing counts" in last.wrong.text()


def test_without_a_bridge_it_says_what_comes_first(lend_desk: LendDesk) -> None:
    desk = lend_desk(replace(sample("leaning-neck"), bridge=None))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    desk.card.glued.choice.set_open(True)
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


def test_what_is_found_is_no_wider_than_the_card(open_desk: OpenDesk, qtbot: QtBot, subtests: pytest.Subtests) -> None:
    """In inches, where the figures take most room; what is wider is cut off, for a card never scrolls sideways."""
    desk = open_desk(replace(sample("leaning-neck"), unit="in"))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    part = desk.card.glued.choice
    part.set_open(True)
    assert len(searched(part, qtbot)) > 2
    area = desk.card.area
    inside = area.widget()
    assert inside is not None
    for size in (1.0, 2.0):
        desk.preferences.set_text(size)
        let_rounds_pass()
        with subtests.test(size=size):
            assert len(part.inside.findChildren(PlaceLine)) > 2
            assert inside.width() == area.viewport().width()
            assert inside.minimumSizeHint().width() <= inside.width()


def test_whether_the_slot_goes_with_the_bridge_is_not_asked_in_the_word_for_the_way_along(part: ChoicePart) -> None:
    slot = next(box for box in part.findChildren(QComboBox) if box.accessibleName() == "The slot")
    assert [slot.itemText(at) for at in range(slot.count())] == ["stays with the strings", "moves with the bridge"]


def test_places_found_for_one_job_are_not_offered_in_the_next(desk: Desk, part: ChoicePart, qtbot: QtBot) -> None:
    searched(part, qtbot)
    desk.document.start(sample("one-slip"))
    assert part.places == ()
