"""The plan and the detail never cover each other, and the detail enlarges what it shows or isn't there."""

from itertools import pairwise

import pytest
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QApplication

from app.desk.frame.desk import Desk
from app.desk.plan.looking.two_places import ENLARGED, scale_of_detail, scale_of_plan, two_places

WHOLE, PLACE = (940.0, 361.0), (90.0, 180.0)  # derived: the sample leaning-neck as it lies, to 10 mm
UPRIGHT = WHOLE[::-1], PLACE[::-1]


@pytest.mark.parametrize("room", [(864, 638), (950, 606), (1504, 918), (500, 900)])
@pytest.mark.parametrize(("whole", "place"), [(WHOLE, PLACE), UPRIGHT], ids=["lying", "upright"])
def test_the_detail_enlarges_three_times_and_covers_nothing(
    room: tuple[int, int], whole: tuple[float, float], place: tuple[float, float]
) -> None:
    board = QRect(0, 0, *room)
    both = two_places(board, whole, place, 1.0)
    assert both.plan is not None
    assert both.detail is not None
    assert not both.plan.intersects(both.detail)
    assert board.contains(both.plan)
    assert board.contains(both.detail)
    assert scale_of_detail(both.detail, place, 1.0) >= ENLARGED * scale_of_plan(both.plan, whole, 1.0)


def test_it_stands_beside_on_a_wide_board_and_below_on_a_high_one() -> None:
    wide, high = (two_places(QRect(0, 0, *room), WHOLE, PLACE, 1.0) for room in ((1100, 500), (420, 1100)))
    assert wide.plan is not None
    assert wide.detail is not None
    assert wide.detail.left() > wide.plan.right()
    assert high.plan is not None
    assert high.detail is not None
    assert high.detail.top() > high.plan.bottom()


def test_where_there_is_no_room_the_plan_has_all_of_it() -> None:
    room = QRect(0, 0, 710, 456)  # the board of a window of 1366 by 768 with text at 200 %
    assert two_places(room, WHOLE, PLACE, 2.0).plan == room
    assert two_places(room, WHOLE, PLACE, 2.0).detail is None


def test_the_window_shows_both_side_by_side(desk: Desk, subtests: pytest.Subtests) -> None:
    desk.preferences.set_text(1.0)
    for wide, high in ((1280, 800), (1366, 768), (1920, 1080)):
        desk.frame.resize(wide, high)
        for turned in (False, True):
            with subtests.test(f"{wide} by {high}, turned: {turned}"):
                QApplication.processEvents()
                plan, detail = desk.board.plan, desk.board.detail
                assert plan.isVisible()
                assert detail.isVisible()
                assert not plan.geometry().intersects(detail.geometry())
                assert detail.view.scale >= ENLARGED * plan.view.scale
            for _ in range(3 if turned else 1):  # at last as it lay at first
                desk.board.turn()


def test_one_key_brings_the_detail_back_with_all_the_room(desk: Desk) -> None:
    board = desk.board
    desk.preferences.set_text(2.0)
    desk.frame.resize(1366, 768)
    QApplication.processEvents()
    assert (board.plan.isVisible(), board.detail.isVisible()) == (True, False)
    desk.menu_actions["Detail alone"].trigger()
    assert (board.plan.isVisible(), board.detail.isVisible()) == (False, True)
    assert board.detail.geometry() == board.rect()
    desk.menu_actions["Detail alone"].trigger()
    assert (board.plan.isVisible(), board.detail.isVisible()) == (True, False)


def test_the_instrument_is_in_the_middle_of_the_plan_from_the_start(desk: Desk) -> None:
    plan, whole = desk.board.plan, desk.board.where_to_look._whole
    assert whole is not None
    ends = [plan.to_pixels((x, 0.0)).x() for x in (whole[0], whole[2])]
    assert ends[0] - plan.area.left() == pytest.approx(plan.area.right() - ends[1], abs=1.0)
    assert all(a < b for a, b in pairwise((plan.area.left(), *ends, plan.area.right())))
