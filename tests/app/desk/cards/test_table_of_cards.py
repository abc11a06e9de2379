"""A card is a module and one entry in the table of cards; turning the job's hand over renames fields and no more."""

import pytest
from PySide6.QtCore import Qt

from app.desk.cards import table_of_cards
from app.desk.cards.card import Card
from app.desk.cards.card_context import CardContext
from app.desk.cards.form import Form
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.cards.table_of_cards import CARDS, CardEntry
from app.desk.frame.desk import Desk
from app.edit import edits
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, make_whole, press, sample


class NoteCard(Card):
    """A card as somebody might add it."""

    title = "Note"

    def __init__(self, context: CardContext) -> None:
        super().__init__(context.document, context.look)
        self.form = Form(context.document, self.column, self)
        self.form.text("Note", lambda job: job.note, _put_note, key="note")

    def refresh(self) -> None:
        self.form.refresh()

    def go_to(self, where: str) -> bool:
        return self.form.go_to(where)


def _put_note(job: Job, text: str) -> Job:
    return edits.replace(job, note=text)


@pytest.fixture
def with_note(open_desk: OpenDesk, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setattr(table_of_cards, "CARDS", (*CARDS, CardEntry("Note", NoteCard, ("note",))))
    return open_desk(sample("leaning-neck"))


def test_an_entry_makes_a_step_and_a_line_of_the_menu(with_note: Desk) -> None:
    with_note.header.steps.buttons["Note"].click()
    assert isinstance(with_note.card, NoteCard)
    with_note.cards.open("Bridge")
    with_note.menu_actions["Note"].trigger()
    assert with_note.cards.is_open("Note")
    with_note.header.steps.buttons["Note"].setFocus()
    press(with_note.header.steps.buttons["Note"], Qt.Key.Key_Left)
    assert with_note.cards.is_open("Sheets")


def test_a_finding_leads_to_its_fields(with_note: Desk) -> None:
    with_note.go_to("field:note")
    assert isinstance(with_note.card, NoteCard)
    assert with_note.card.focusWidget() is not None
    assert with_note.card.focusWidget().accessibleName() == "Note"


def test_each_block_of_the_job_file_is_on_one_card() -> None:
    blocks = [block for entry in CARDS for block in entry.blocks]
    assert len(blocks) == len(set(blocks))


def test_the_other_hand_renames_the_fields_by_side(strings: StringsCard) -> None:
    make_whole(strings)
    document, fields = strings.document, strings.heights.fields
    left, right = fields["fret 1", "left"], fields["fret 1", "right"]
    assert (left.name.text(), right.name.text()) == ("Fret 1, treble", "Fret 1, bass")  # right-handed: bass is right
    document.edit("left-handed", edits.replace(document.job, hand="left"))
    assert (left.name.text(), right.name.text()) == ("Fret 1, bass", "Fret 1, treble")
    assert left.line.accessibleName() == "Fret 1, bass"
    document.stack.undo()
    assert left.name.text() == "Fret 1, treble"


def test_the_other_hand_leaves_what_is_just_typed(strings: StringsCard) -> None:
    make_whole(strings)
    document, field = strings.document, strings.heights.fields["fret 12", "left"]
    field.line.setFocus()
    field.line.setText("wide")
    field.line.settled.emit()
    document.edit("left-handed", edits.replace(document.job, hand="left"))
    assert field.line.text() == "wide"
    assert field.wrong.text()
