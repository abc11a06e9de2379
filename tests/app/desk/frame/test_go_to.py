"""A click on a finding goes to the place, and what is done to readings is done in sight of them."""

import msgspec
from PySide6.QtWidgets import QApplication

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.old_work.old_work_card import OldWorkCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.about_job import AboutJob
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Choice
from geometry.job import Old
from tests.app.desk.conftest import OpenDesk, sample
from tests.short_list import short_list


def test_a_step_is_opened(desk: Desk) -> None:
    for where, card in (("step:measure", MeasureCard), ("step:strings", StringsCard), ("step:bridge", BridgeCard)):
        desk.cards.open("Sheets")
        desk.go_to(where)
        assert isinstance(desk.card, card), where


def test_that_nobody_looked_along_the_edges_leads_to_the_readings_that_would_tell(open_desk: OpenDesk) -> None:
    desk = open_desk(short_list())
    line = next(line for line in desk.measure.findings.lines if line.finding.code == "board.unlooked")
    line.click()
    job, card = desk.document.job, desk.measure
    assert len(job.readings) == 20  # whether fret 12 is in line with nut and end, on either side: no more is asked
    assert card.table.chosen == job.readings[18].id
    assert job.readings[18].asked
    line.click()
    assert desk.document.job == job
    desk.document.stack.undo()
    assert desk.document.job == short_list()


def test_what_is_asked_of_the_board_stands_with_what_is_asked_of_the_job(desk: Desk) -> None:
    desk.go_to("field:board.centre")
    (about,) = desk.findChildren(AboutJob)
    focus = about.focusWidget()
    assert isinstance(focus, Choice)
    assert focus.accessibleName() == "Neck centre line"
    about.reject()


def test_a_jobs_name_has_room_for_a_name(desk: Desk) -> None:
    for size in (1.0, 2.0):
        desk.preferences.set_text(size)
        desk.commands.about()
        (about,) = desk.findChildren(AboutJob)
        line, name = about.title.line, "Parlour, bridge off, second visit"
        line.setText(name)
        QApplication.processEvents()
        assert line.contentsRect().width() > line.fontMetrics().horizontalAdvance(name), size
        about.reject()


def test_a_footprint_whose_corners_cross_is_put_in_order_where_it_is_found(open_desk: OpenDesk) -> None:
    job = sample("leaning-neck")
    a, b, c, d = job.old.outline if job.old else ("",) * 4
    crossed = msgspec.structs.replace(job, old=msgspec.structs.replace(job.old or Old(), outline=(a, c, b, d)))
    desk = open_desk(crossed)
    desk.go_to("field:old.outline")
    card = desk.card
    assert isinstance(card, OldWorkCard)
    assert card.focusWidget() is card.order
    card.order.click()
    assert desk.document.layout is not None
    assert not any(finding.code == "old.crossed" for finding in desk.document.layout.findings)
    assert not card.order.isVisible()


def test_no_reading_is_removed_or_struck_out_of_sight(desk: Desk) -> None:
    before = desk.document.job
    for name in ("Remove the readings chosen", "Strike out or bring back"):
        desk.cards.open("Bridge")
        desk.menu_actions[name].trigger()
        assert desk.document.job == before
        assert isinstance(desk.card, MeasureCard)
    desk.menu_actions["Remove the readings chosen"].trigger()
    assert len(desk.document.job.readings) == len(before.readings) - 1


def test_a_place_comes_into_the_detail(desk: Desk) -> None:
    for where, least, most in (("fret:12", 300, 340), ("nut", -1, 1), ("seam", 480, 780), ("string:1", 640, 660)):
        desk.go_to(where)
        assert least < desk.board.detail.view.centre[0] < most, where


def test_metal_on_the_strip_leads_to_the_words_on_it(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("bolted-left"))
    desk.cards.open("Measure")
    desk.strip.went_to.emit("metal")
    assert desk.cards.is_open("Old work")
