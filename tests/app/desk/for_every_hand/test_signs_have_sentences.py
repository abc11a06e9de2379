"""A step's sign has its sentence: whatever is wrong or unsure, the step wears the worst sign that its card shows."""

from collections.abc import Iterator
from itertools import product

import pytest
from msgspec.structs import replace
from PySide6.QtWidgets import QApplication

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.card import Card
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.frame.desk import Desk
from app.desk.widgets.signs import Sign
from app.desk.widgets.words.signed_line import SignedLine
from geometry.job import Job, Spread
from tests.app.desk.conftest import OpenDesk, sample, unpainted
from tests.short_list import short_list

GRAVE = (Sign.UNSURE, Sign.LOOK, Sign.STOP)
SPREADS = {"nut": Spread(spread="1 27/64 in"), "saddle": Spread(spread="2 3/16 in")}


def spread_told() -> Job:
    """The shortest list with the strings' spread: a saddle line, and no bridge yet."""
    job = short_list()
    assert job.strings is not None
    return replace(job, strings=replace(job.strings, **SPREADS))


def without_fret_readings() -> Job:
    job = sample("bolted-left")
    return replace(job, readings=tuple(replace(r, value=None) if r.kind == "fret" else r for r in job.readings))


JOBS = {
    "leaning-neck": lambda: sample("leaning-neck"),
    "one-slip": lambda: sample("one-slip"),
    "turned-left-old-slot": lambda: sample("turned-left-old-slot"),
    "floating-five": lambda: sample("floating-five"),
    "short list": short_list,
    "no bridge yet": spread_told,
    "no strings yet": lambda: replace(sample("leaning-neck"), strings=None),
    "old work that nobody took up": lambda: replace(sample("small-four"), old=None),
    "no frets yet": without_fret_readings,
}


def signs(card: Card) -> Iterator[Sign]:
    for line in card.findChildren(SignedLine):
        if line.isVisibleTo(card) and line.sign is not None:
            yield line.sign
    if isinstance(card, MeasureCard) and card.notes.look_again.head.text():
        yield Sign.LOOK


@pytest.mark.parametrize("text", [1.0, 2.0])
def test_a_step_wears_the_worst_sign_of_its_card(desk: Desk, text: float) -> None:
    unpainted(desk)
    desk.preferences.set_text(text)
    for (name, made), step in product(JOBS.items(), desk.header.steps.buttons):
        if step == "Start":
            desk.document.start(made())
        button = desk.header.steps.buttons[step]
        desk.cards.open(step)
        QApplication.processEvents()
        worst = max((sign for sign in signs(desk.card) if sign in GRAVE), key=GRAVE.index, default=None)
        if button.sign is Sign.UNDER_WAY:  # what is not finished may be unsure besides
            assert worst in (None, Sign.UNSURE), (name, step)
        else:
            assert (button.sign if button.sign in GRAVE else None) == worst, (name, step)


def test_what_was_not_given_yet_is_no_fault(open_desk: OpenDesk) -> None:
    desk: Desk = open_desk(spread_told())
    desk.cards.open("Bridge")
    assert desk.header.steps.buttons["Bridge"].sign is Sign.UNDER_WAY
    assert not any(sign in (Sign.LOOK, Sign.STOP) for sign in signs(desk.card))
    assert isinstance(desk.card, BridgeCard)
    assert desk.card.glued.begin.isVisible()


def test_the_sheets_say_what_waits_and_lead_to_why(desk: Desk) -> None:
    desk.cards.open("Sheets")
    (line,) = (each for each in desk.card.findChildren(SignedLine) if each.isVisibleTo(desk.card))
    assert line.words == "Wait with the pin holes, the slot and the saddle: the Bridge card says what for."
    line.click()
    assert desk.cards.is_open("Bridge")
