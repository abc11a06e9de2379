"""A left-handed instrument measured in 64ths of an inch, every answer typed by keys, with one slip of the rule."""

import msgspec
import numpy as np
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from app.desk.cards.start.start_card import StartCard
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.fields import TypedLine
from geometry import units
from geometry.job import Reading
from tests.app.desk.conftest import OpenDesk, choose, press, type_into
from tests.campaign.invented.crooked import Wish, drawn
from tests.campaign.invented.hands import sixty_fourths, true_values
from tests.campaign.invented.instruments import Instrument

SLIP = 8
"""64ths of an inch that one reading is out by: derived: 8/64 × 25.4 = 3.2 mm."""


def left_handed() -> Instrument:
    """An invented left-handed instrument of six strings with a long scale."""
    for seed in range(200):
        found = drawn(np.random.default_rng(seed), Wish())
        if found.hand == "left" and found.strung.count == 6 and found.scale[0] > 600:
            return found
    raise AssertionError("none of the seeds gives one")


def typed(reading: Reading, instrument: Instrument, slip: int) -> str:
    """What the hand types: 64ths of an inch without their unit, for it is the job's; in line: yes."""
    if reading.kind == "inline":
        return "yes"
    counts = [round(value / units.INCH * 64) + slip for value in true_values(reading, instrument)]
    return " ; ".join(sixty_fourths(count).removesuffix(" in") for count in counts)


def begin(desk: Desk, what: str) -> None:
    """Answer the five questions with the keys."""
    card = desk.card
    assert isinstance(card, StartCard)
    press(card.hands["left"], Qt.Key.Key_Space)
    assert card.hands["left"].isChecked()
    choose(card, "Measuring list", what)
    choose(card, "Unit", "Inches, 64ths")
    choose(card, "Caliper", "No caliper")
    press(card, Qt.Key.Key_Return)


def type_all(desk: Desk, instrument: Instrument, slipped: str) -> None:
    """Type one value after the other; Enter leads from each to the next."""
    table, seen = desk.measure.table, 0
    for row in table.readings.rows:
        assert table.chosen == row.reading.id
        text = typed(row.reading, instrument, SLIP if row.reading.id == slipped else 0)
        type_into(table, text[0])
        line = next(found for found in table.findChildren(TypedLine) if found.isVisible())
        type_into(line, text[1:])
        assert line.width() >= line.fontMetrics().horizontalAdvance(text)
        press(line, Qt.Key.Key_Return)
        seen += 1
    assert seen == len(desk.document.job.readings)
    assert all(reading.taken for reading in desk.document.job.readings)


class Measured(msgspec.Struct, frozen=True):
    """A list of readings, `count` of them, with a slip in the one between the two points of `between`; `named`: how
    many are accused at most.
    """

    what: str
    count: int
    between: tuple[str, str]
    named: int


def with_a_slip(desk: Desk, instrument: Instrument, list_of: Measured) -> str:
    """Type a whole list with one slip, and see that the screen finds it; which reading it is in."""
    begin(desk, list_of.what)
    job = desk.document.job
    assert (job.hand, job.unit, len(job.readings)) == ("left", "in", list_of.count)
    (slipped,) = (r.id for r in job.readings if r.kind == "distance" and r.of == list_of.between)
    type_all(desk, instrument, slipped)
    QApplication.processEvents()
    is_found(desk, slipped, list_of.named)
    return slipped


def is_found(desk: Desk, slipped: str, named: int) -> None:
    layout = desk.document.layout
    assert layout is not None
    accused = {*layout.survey.suspects, *(one for group in layout.survey.groups for one in group)}
    assert slipped in accused, layout.survey
    assert len(accused) <= named
    note = desk.measure.notes
    assert note.look_again.isVisible()
    assert " mm" not in note.look_again.body.text()
    assert "0." not in note.look_again.body.text()  # a bench of 64ths is told 64ths
    note.go_button.click()
    assert desk.measure.table.chosen in accused
    group = desk.measure.table.readings.rows[desk.measure.table.at].group
    press(desk.measure.table, Qt.Key.Key_Left)
    press(desk.measure.table, Qt.Key.Key_Left)
    head = desk.measure.table.readings.head_at(desk.measure.table.currentIndex().row())
    assert head is not None
    assert (head.group, head.folded, head.suspect) == (group, True, True)


def test_a_slip_is_found(open_desk: OpenDesk) -> None:
    """In the shortest list; in the two longer ones it is found on the way from the rule to paper."""
    desk, instrument = open_desk(None), left_handed()
    # derived: six lengths between four corners leave one over, so that none of them can be told from the others
    slipped = with_a_slip(desk, instrument, Measured("Bridge only", 18, ("nut.left", "end.right"), 6))
    reading = next(r for r in desk.document.job.readings if r.id == slipped)
    desk.measure.typing.settle(slipped, typed(reading, instrument, 0))
    layout = desk.document.layout
    assert layout is not None
    assert layout.survey.verdict == "clean"
