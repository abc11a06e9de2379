"""What the plan and the detail show, told in words as their descriptions."""

from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.desk.frame.desk import Desk
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.pointing.pointer_states import Idle
from geometry import units, words
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, field, fill

Said = QAccessible.Text


def told(widget: QWidget) -> QAccessibleInterface:
    found = QAccessible.queryAccessibleInterface(widget)
    assert found is not None
    return found


def plan_says(desk: Desk, plan: Plan) -> list[str]:
    """What is told of a picture, line by line, once nothing changes any more."""
    desk.board.told.tell()
    return told(plan).text(Said.Description).splitlines()


def test_the_plan_tells_what_it_shows(desk: Desk) -> None:
    job, layout = desk.document.job, desk.document.layout
    assert layout is not None
    assert layout.saddle is not None
    assert layout.bridge is not None
    said = plan_says(desk, desk.board.plan)
    starts = [line.partition(":")[0] for line in said]
    assert starts.count("Saddle, bass") == starts.count("Saddle, treble") == 1
    assert sum(start.startswith("Bridge, ") for start in starts) == 4
    assert {f"String {string.name} at the saddle" for string in layout.strings} <= set(starts)
    for name in layout.points:
        assert words.first_large(words.point(name, job.hand)) in starts
    for finding in layout.findings:
        assert any(line.endswith(f": {finding.text}") for line in said) == (finding.grade != "good"), finding.code


def test_the_plan_tells_where_things_are_as_a_rule_finds_them(desk: Desk) -> None:
    layout = desk.document.layout
    assert layout is not None
    end = layout.points["end.right"]  # a right-handed job: the bass side
    place = f"{units.said(end.x, 'mm')} from the nut, {units.said(-end.y, 'mm')} to the bass"
    assert any(line.startswith(f"Board end, bass: {place}, ±") for line in plan_says(desk, desk.board.plan))


def test_the_plan_tells_the_reading_in_hand(desk: Desk) -> None:
    table = desk.measure.table
    table.go(0)
    first = plan_says(desk, desk.board.plan)[0]
    row = table.readings.rows[0]
    assert first == f"In hand: {words.reading_inside(row.reading, 'right')}, {row.value} mm."
    desk.measure.commands.strike_or_bring_back()
    assert plan_says(desk, desk.board.plan)[0].endswith(", struck out.")
    assert plan_says(desk, desk.board.detail)[0] == plan_says(desk, desk.board.plan)[0]


def test_the_plan_tells_the_point_in_hand_and_where_it_is(desk: Desk) -> None:
    desk.board.pointer._become(Idle("", "seam.1"))
    said = plan_says(desk, desk.board.plan)[0]
    assert "the point seam 1, " in said
    assert " mm from the nut, " in said


def test_what_the_plan_tells_follows_the_job_by_itself(desk: Desk, qtbot: QtBot) -> None:
    before = plan_says(desk, desk.board.plan)
    desk.cards.open("Strings")
    fill(field(desk.card, "At the saddle"), "60")
    qtbot.waitUntil(lambda: told(desk.board.plan).text(Said.Description).splitlines() != before, timeout=3000)
    after = told(desk.board.plan).text(Said.Description).splitlines()
    assert [line for line in after if line.startswith("String 1 ")] != [
        line for line in before if line.startswith("String 1 ")
    ]


def test_the_detail_tells_only_the_points_it_shows(desk: Desk) -> None:
    desk.board.fit()
    said = plan_says(desk, desk.board.detail)
    assert any(line.startswith("Saddle, bass: ") for line in said)
    assert not any(line.startswith("Nut, bass: ") for line in said)
    layout = desk.document.layout
    assert layout is not None
    desk.board.look_at((layout.points["nut.right"].x, layout.points["nut.right"].y))
    assert any(line.startswith("Nut, bass: ") for line in plan_says(desk, desk.board.detail))


def test_what_the_keys_do_stands_at_the_end(desk: Desk) -> None:
    assert plan_says(desk, desk.board.plan)[-1] == "Arrow keys move the plan, plus and minus enlarge it."


def test_an_empty_job_tells_that_nothing_is_worked_out(open_desk: OpenDesk) -> None:
    desk = open_desk(Job())
    assert "Nothing is worked out yet." in plan_says(desk, desk.board.plan)
