"""Each sentence of Go or wait leads to what it asks for: a field in sight with the keys in it, or a reading in hand."""

from collections.abc import Iterator

import msgspec
import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.file import samples
from geometry.go_or_wait import Change, as_findings
from geometry.go_or_wait.told_once import told_of
from geometry.job import Job, Saddle
from tests.app.desk.conftest import OpenDesk, sample, unpainted

SAMPLES = [path.name.removesuffix(".job.json") for path in samples.paths()]


def states(job: Job) -> Iterator[Job]:
    """As it is; with no height of a string known; with a saddle so thin that filing takes up nothing, which was heard
    or typed; with so few readings that nothing checks the others.
    """
    yield job
    assert job.strings is not None
    bare = msgspec.structs.replace(job.strings, action=None, height=None)
    without = tuple(r for r in job.readings if r.kind != "height")
    yield msgspec.structs.replace(job, strings=bare, readings=without)
    typed = msgspec.structs.replace(job.strings, compensation=(2.0,) * len(job.strings.list), nut_compensation=0.0)
    coarse = tuple(msgspec.structs.replace(r, times=3.0) for r in job.readings)
    yield msgspec.structs.replace(job, strings=typed, readings=coarse, saddle=Saddle(thickness=1.0))
    few = tuple(r for r in job.readings if r.kind != "fret" or r.fret == 12)
    yield msgspec.structs.replace(job, readings=few)


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


def leads(desk: Desk, change: Change, qtbot: QtBot) -> None:
    card, keys = desk.card, QApplication.focusWidget()
    assert keys is not None
    if change.what in ("action", "trial"):
        assert isinstance(card, StringsCard)
        key = "strings.heard" if change.what == "trial" else "strings.action."
        asked = [widget for own, widget in card.form.fields.items() if own.startswith(key)]
        assert any(widget.isAncestorOf(keys) for widget in asked)
        qtbot.waitUntil(lambda: keys.visibleRegion().boundingRect() == keys.rect())  # all of it in sight
        return
    if change.what == "nothing":  # but a thicker saddle, or one's own judgement
        assert isinstance(card, BridgeCard)
        assert card.part.form.fields["saddle.thickness"].isAncestorOf(keys)
        return
    assert isinstance(card, MeasureCard)
    taken = card.commands.chosen
    assert taken is not None
    if change.what == "again":
        assert taken.id == change.again[0]
    else:
        assert change.reading is not None
        assert taken.of_what == change.reading.of_what
        assert not taken.taken


def test_each_sentence_leads_to_what_it_asks_for(desk: Desk, qtbot: QtBot, subtests: pytest.Subtests) -> None:
    unpainted(desk)
    led = set[str]()
    for name in SAMPLES:
        with subtests.test(name):
            for job in states(sample(name)):
                led |= led_to(desk, job, led, qtbot)


def led_to(desk: Desk, job: Job, before: set[str], qtbot: QtBot) -> set[str]:
    """Where the sentences of a job lead to, each gone to; what an earlier state or job asked for as well has been."""
    desk.document.start(job)
    layout = desk.document.layout
    assert layout is not None
    steps = told_of(job, layout).steps
    told = zip(steps, as_findings(job, layout, steps), strict=True)
    news = [(f.where, s.change) for s, f in told if s.why not in ("stop", "proof") and f.where not in before]
    asked = {where: change for where, change in news if change is not None}
    for where, change in asked.items():
        desk.cards.open("Bridge")
        desk.go_to(where)
        settle()
        leads(desk, change, qtbot)
    return set(asked)


def test_a_reading_that_waits_already_is_not_added_again(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"))
    job = desk.document.job
    asked = msgspec.structs.replace(job.readings[0], id="new", value=None)
    where = f"take:{msgspec.json.encode(asked).decode()}"
    for _ in range(2):
        desk.go_to(where)
    assert len(desk.document.job.readings) == len(job.readings) + 1
    desk.document.stack.undo()
    assert desk.document.job == job
