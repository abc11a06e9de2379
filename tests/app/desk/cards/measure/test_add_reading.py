"""Adding a reading: its kind and its points, chosen from lists that are those of the job as it stands."""

import msgspec
import pytest
from PySide6.QtCore import QPoint
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QApplication

from app.desk.cards.measure.add_reading import AddReading
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.frame.desk import Desk
from app.edit.measure import new_reading
from geometry import words
from tests.app.desk.conftest import OpenDesk, sample


def opened(card: MeasureCard) -> AddReading:
    card.add()
    assert card.adding is not None
    return card.adding


def test_a_reading_of_the_same_thing_goes_after_the_first_of_it(desk: Desk, card: MeasureCard) -> None:
    adding = opened(card)
    adding.kind.setCurrentIndex(adding.kind.findData("off"))
    for box, name in zip(adding.points, ("nut.left", "end.left", "seam.1"), strict=False):
        box.setCurrentIndex(box.findData(name))
    adding.side.setCurrentIndex(adding.side.findData("right"))
    adding.add_button.click()
    wanted = ("off", ("nut.left", "end.left"), ("seam.1",), "right")
    at = [i for i, one in enumerate(desk.document.job.readings) if (one.kind, one.from_, one.of, one.side) == wanted]
    assert len(at) == 2
    assert at[1] == at[0] + 1
    assert card.table.chosen == desk.document.job.readings[at[1]].id


def test_an_angle_is_added_after_the_one_in_hand_and_read_with_a_bevel_gauge(desk: Desk, card: MeasureCard) -> None:
    adding = opened(card)
    adding.kind.setCurrentIndex(adding.kind.findData("angle"))
    for box, name in zip(adding.points, ("nut.left", "end.left", "old.1", "old.2"), strict=True):
        box.setCurrentIndex(box.findData(name))
    adding.add_button.click()
    made = desk.document.job.readings[1]
    assert (made.kind, made.from_, made.of) == ("angle", ("nut.left", "end.left"), ("old.1", "old.2"))
    with_ = card.panel.with_
    assert [with_.itemData(at) for at in range(with_.count())] == ["bevel gauge"]
    card.typing.settle(made.id, "88")
    assert desk.document.job.readings[1].value == 88
    card.table.go_to(desk.document.job.readings[0].id)
    assert with_.findData("rule 0.5") >= 0


def test_a_new_reading_that_makes_no_sense_is_refused_in_place(card: MeasureCard) -> None:
    adding = opened(card)
    for box in adding.points[:2]:
        box.setCurrentIndex(box.findData("nut.left"))
    adding.add_button.click()
    assert adding.wrong.text() == "“Nut, treble” is chosen twice; choose another."
    assert adding.wrong.isVisible()


def test_another_job_puts_the_question_away(desk: Desk, card: MeasureCard) -> None:
    """Its points are of the job before, and called as by that job's hand."""
    adding = opened(card)
    desk.document.start(sample("turned-left"))
    assert not adding.isVisible()
    assert card.panel.isVisible()


def test_points_are_called_anew_when_the_job_is_turned_over(desk: Desk, card: MeasureCard) -> None:
    adding = opened(card)
    assert adding.points[0].currentText() == "Nut, treble"
    kept = adding.points[0].currentData()
    desk.document.edit("hand", msgspec.structs.replace(desk.document.job, hand="left"))
    assert adding.points[0].currentText() == "Nut, bass"
    assert adding.points[0].currentData() == kept


def test_a_point_chosen_twice_is_named_as_the_hand_has_it() -> None:
    said = new_reading.twice(("nut.left", "end.left", "nut.left"), "left")
    assert said == "“Nut, bass” is chosen twice; choose another"
    assert new_reading.twice(("nut.left", "end.left"), "left") == ""


def test_the_list_of_kinds_stays_in_one_place(card: MeasureCard) -> None:
    """What is pressed again and again does not run away from the pointer."""
    adding, tops = opened(card), []
    for at in range(adding.kind.count()):
        adding.kind.setCurrentIndex(at)
        for _ in range(4):
            QApplication.processEvents()
        tops.append(adding.kind.mapTo(card, QPoint(0, 0)).y())
    assert set(tops) == {tops[0]}


@pytest.mark.parametrize("text", [1.0, 1.5, 2.0])
def test_points_have_room_beside_what_is_asked(open_desk: OpenDesk, text: float) -> None:
    desk = open_desk(sample("leaning-neck"))
    desk.preferences.set_text(text)
    adding = opened(desk.measure)
    adding.kind.setCurrentIndex(adding.kind.findData("angle"))  # its first question is the longest there is
    for _ in range(4):
        QApplication.processEvents()
    box = adding.points[2]
    letters = QFontMetricsF(box.font())
    assert letters.horizontalAdvance("Board end, treble") <= box.width() - 18 - 12 * text


def test_off_the_nut_the_side_is_the_headstocks_or_the_bodys(desk: Desk, card: MeasureCard) -> None:
    """What is chosen is true of the line that is chosen, and told so in the table."""
    adding = opened(card)
    adding.kind.setCurrentIndex(adding.kind.findData("off"))
    for box, name in zip(adding.points, ("nut.left", "nut.right", "post.1"), strict=False):
        box.setCurrentIndex(box.findData(name))
    said = [adding.side.itemText(at) for at in range(adding.side.count())]
    assert said == ["Body side", "Headstock side"]
    adding.side.setCurrentIndex(1)
    adding.add_button.click()
    of_post = next(one.id for one in desk.document.job.readings if one.of == ("post.1",))
    card.typing.settle(of_post, "48")
    made = next(one for one in desk.document.job.readings if one.id == of_post)
    assert words.value_and_side(made, "mm", "right") == "48 headstock"
    opened(card)
    for box, name in zip(adding.points, ("nut.left", "end.left"), strict=False):
        box.setCurrentIndex(box.findData(name))
    assert [adding.side.itemText(at) for at in range(adding.side.count())] == ["Treble side", "Bass side"]
