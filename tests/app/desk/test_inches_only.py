"""In a job in inches no card tells millimetres where the person typed none."""

import re
from collections.abc import Iterator
from typing import get_args

import pytest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPlainTextEdit, QWidget

from app.desk.cards.table_of_cards import steps
from app.edit.bridge import separate_entries, standing_entries
from app.edit.edits import set_unit
from app.edit.headstock import hardware_entries, tuner_entries
from app.edit.start.new_job import begin
from app.edit.strings import solid_entries
from geometry.job import Held, Job
from tests.app.desk.conftest import OpenDesk, make_whole

METRIC = re.compile(r"(?<![A-Za-z-])[mc]m\b")
UNDERSTOOD = re.compile(r"= −?[\d.]+ mm")
"""A length in inches is told again in mm right under it: that it was understood, with a fraction, shows so."""
MAY = (
    "Steel rule, ",  # what the person reads with is what it is, whatever the job's unit
    "Rule ",
    "Caliper",
    "Every template carries scales in mm and inches",  # both stand on each sheet
    "320x450 mm or 13x19 in",  # sheets that are bought so; both are told
    "5 mm (0.2 in) or more",  # both are told
    "named -mm",  # the ending of a file's name
)


def everything() -> Iterator[Job]:
    """New jobs for each way a bridge is held, with all begun that a card can begin."""
    for held in get_args(Held):
        job = begin(unit="in", held=held, measuring="neck and bridge")
        for which in ("side", "face"):
            job = hardware_entries.wants(which)[1](job, True)
        job = tuner_entries.plate_field("past")[1](hardware_entries.add_hole(job), "3/8 in")
        runs_on = separate_entries.put_has_through if held == "screws" else standing_entries.put_has_tail
        yield solid_entries.ask(runs_on(job, True), True)


def said(card: QWidget) -> Iterator[str]:
    """All that a card says: words, examples, what is heard, and what may be chosen."""
    for widget in (card, *card.findChildren(QWidget)):
        yield from (widget.toolTip(), widget.accessibleName(), widget.accessibleDescription())
        match widget:
            case QLabel():
                yield widget.text()
            case QLineEdit():
                yield from (widget.text(), widget.placeholderText())
            case QPlainTextEdit():
                yield from (widget.toPlainText(), widget.placeholderText())
            case QComboBox():
                yield from (widget.itemText(at) for at in range(widget.count()))


@pytest.mark.parametrize("job", list(everything()), ids=get_args(Held))
def test_no_card_tells_millimetres(open_desk: OpenDesk, job: Job) -> None:
    desk = open_desk(job)
    desk.frame.hide()
    found = set()
    for card in ("Start", *steps()):
        desk.cards.open(card)
        make_whole(desk.card)
        QApplication.processEvents()
        found |= {
            (card, text)
            for text in said(desk.card)
            if METRIC.search(UNDERSTOOD.sub("", text)) and not any(one in text for one in MAY)
        }
    assert found == set()


def test_examples_follow_the_jobs_unit(open_desk: OpenDesk) -> None:
    """0.9 mm over 40 mm is the example of an arched board in a metric job."""
    desk = open_desk(begin(unit="mm"), "Strings")
    desk.frame.hide()
    make_whole(desk.card)
    assert any("0.9 over 40" in text for text in said(desk.card))
    desk.document.edit("inches", set_unit(desk.document.job, "in"))
    QApplication.processEvents()
    texts = list(said(desk.card))
    assert [text for text in texts if "0.9 over 40" in text] == []
    assert sum("1/32 over 1 1/2" in text for text in texts) == 2  # under the line, and heard of it
