"""What lies over the plan is seen: a point's tag, the hand's sentence, the answer to 'how far', the detail's frame."""

from itertools import combinations

import msgspec
import pytest
from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.frame.desk import Desk
from app.desk.plan.looking import where_to_look
from app.desk.plan.looking.where_to_look import as_rect
from app.desk.plan.painting import compose_picture
from app.desk.plan.painting.plan_widget import Plan
from app.edit import edits
from app.file import samples
from export.drawing.marks import Text
from tests.app.desk.conftest import OpenDesk, press, sample, unpainted
from tests.app.desk.seen import words_on


def picture(plan: Plan) -> QImage:
    return plan.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)


def where(desk: Desk, name: str) -> QPoint:
    place = desk.board.answers.place_of(name)
    assert place is not None
    return desk.board.plan.to_pixels(place).toPoint()


def share(image: QImage, box: QRectF, name: str) -> float:
    """What part of a box has exactly this colour."""
    r, wanted = box.toRect().intersected(image.rect()), QColor(name).rgb()
    pixels = [image.pixel(x, y) for x in range(r.left(), r.right()) for y in range(r.top(), r.bottom())]
    return pixels.count(wanted) / len(pixels)


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_tag_of_the_point_under_the_pointer_is_painted(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, theme: str
) -> None:
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of the two
    plan, at = desk.board.plan, where(desk, "end.right")
    for place in (at + QPoint(60, 60), at):  # a pointer that is there already would not be told of
        QTest.mouseMove(plan, place)
    words = words_on(plan, monkeypatch)
    tag = next(words[said] for said in words if said.startswith("board end, bass, ±"))
    assert abs(tag.center().y() - at.y()) < 60
    image, ink = picture(plan), plan.look.palette.ink
    assert share(image, tag, ink) > 0.4
    QTest.mouseMove(plan, QPoint(plan.width() // 2, plan.height() - 90))
    assert share(picture(plan), tag, ink) < 0.2


def test_the_hands_sentence_is_painted_in_a_band(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = desk.board.plan
    desk.board.pointer.ask_distance()
    words = words_on(plan, monkeypatch)
    band = words[desk.board.pointer.says]
    assert desk.board.pointer.says.startswith("How far?")
    assert plan.area.contains(band.center())
    image = picture(plan)
    assert share(image, band, plan.look.palette.card) > 0.5
    desk.board.pointer.let_go()
    assert share(picture(plan), band, plan.look.palette.card) < 0.5


def test_how_far_is_drawn_from_end_to_end_with_its_number(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    plan, pointer = desk.board.plan, desk.board.pointer
    without = picture(plan)
    pointer.ask_distance()
    for name in ("nut.left", "end.right"):
        pointer._pointed(f"point:{name}")
    a, b = where(desk, "nut.left"), where(desk, "end.right")
    image, teal = picture(plan), plan.look.palette.worked_out
    for part in (0.2, 0.4, 0.8):  # the middle lies under the number
        spot = QPoint(round(a.x() + part * (b.x() - a.x())), round(a.y() + part * (b.y() - a.y())))
        around = QRectF(spot.x() - 2, spot.y() - 2, 6, 6)
        assert share(image, around, teal) > share(without, around, teal)
    assert pointer.answer.number
    assert pointer.answer.number in words_on(plan, monkeypatch)


def test_the_number_of_an_asked_distance_is_whole_wherever_its_line_lies(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan, pointer = desk.board.plan, desk.board.pointer
    pointer.ask_distance()
    for name in ("nut.left", "end.left"):
        QTest.mouseClick(plan, Qt.MouseButton.LeftButton, pos=where(desk, name))
    number = pointer.answer.number
    assert number
    for centre in ((-400.0, 0.0), (1400.0, 0.0), (226.0, 700.0), (226.0, -700.0)):
        plan.set_view(msgspec.structs.replace(plan.view, centre=centre))
        assert plan.area.contains(words_on(plan, monkeypatch)[number]), centre


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_frame_of_the_detail_covers_nothing_but_its_edge(desk: Desk, theme: str) -> None:
    """With a reading's number on the plan, whose plate is the last thing that is filled."""
    desk.preferences.set_theme(theme)  # type: ignore[arg-type]  # one of the two
    QApplication.processEvents()
    plan, detail = desk.board.plan, desk.board.detail
    assert desk.board.pictures.options.reading
    frame = plan.transform.mapRect(as_rect(detail.view.seen(detail.width(), detail.height())))
    inside = frame.adjusted(4, 4, -4, -4).toRect().intersected(plan.area.toRect())
    assert inside.width() > 20
    framed = picture(plan)
    del plan.paint_over[0]
    plain = picture(plan)
    assert framed.copy(inside) == plain.copy(inside)
    edge = QRect(frame.toRect().left() - 2, inside.top(), 6, inside.height())
    assert framed.copy(edge) != plain.copy(edge)
    seen = plan.look.palette.field  # 3:1 on paper and body, which test_look holds
    assert share(framed, QRectF(edge), seen) > share(plain, QRectF(edge), seen)


def test_words_keep_clear_of_each_other_and_of_the_detail_however_they_are_turned(
    desk: Desk, subtests: pytest.Subtests
) -> None:
    unpainted(desk)
    for path in samples.paths():
        with subtests.test(path.name):
            desk.document.start(sample(path.name.partition(".")[0]))
            keep_clear(desk)


def keep_clear(desk: Desk) -> None:
    """In four quarter turns from outside, then from inside; at the end the plan lies as it did at the beginning."""
    for view in range(8):
        QApplication.processEvents()
        desk.board.pictures.redraw_moved()  # as a little later by itself
        for plan in (desk.board.plan, desk.board.detail):
            words = [(text.text, ground(plan, text, style.kind)) for text, style in plan._prepared.texts]
            words = [(said, box) for said, box in words if box.intersects(plan.area)]
            assert len(words) >= 2
            if not plan.is_detail:
                words.append(("the detail", QRectF(desk.board.detail.geometry())))
            crossed = [(a, b) for (a, its), (b, others) in combinations(words, 2) if its.intersects(others)]
            assert crossed == [], f"view {view}"
        desk.board.turn()
        if view in (3, 7):
            desk.board.flip()


def ground(plan: Plan, text: Text, kind: str) -> QRectF:
    """What words cover: a reading's number its plate, other words their letters less a pixel and a half all round."""
    letters = plan.text_box(text).adjusted(6, 6, -6, -6)
    return letters.adjusted(-9, -6, 9, 6) if kind == "reading" else letters.adjusted(1.5, 1.5, -1.5, -1.5)


def test_labels_stay_while_something_is_typed_and_look_anew_at_rest(desk: Desk, qtbot: QtBot) -> None:
    pictures = desk.board.pictures.caches
    qtbot.waitUntil(lambda: not any(picture.stayed for picture in pictures))
    stands = [picture.label_places for picture in pictures]
    desk.document.edit("", edits.set_value(desk.document.job, "r1", "44.9"))
    for picture, before in zip(pictures, stands, strict=True):
        assert picture.label_places is before
        assert picture.stayed
    qtbot.waitUntil(lambda: not any(picture.stayed for picture in pictures))
    layout, sight = desk.board.answers.drawn_from, pictures[0].shown
    assert layout is not None
    assert sight is not None
    view, wish = desk.board.plan.view, desk.board.pictures.options
    assert desk.board.plan.drawing == compose_picture.compose(desk.document.job, layout, view, sight, wish, None)[0]


def test_another_jobs_labels_look_for_places_of_their_own(desk: Desk) -> None:
    before = desk.board.pictures.caches[0].label_places
    desk.document.start(sample("leaning-neck"))
    assert desk.board.pictures.caches[0].label_places is not before


def test_places_are_painted_before_they_are_judged(desk: Desk) -> None:
    """The eye waits for the picture, not for the sentences."""
    seen = []
    desk.board.plan.painted.connect(lambda: seen.append(desk.document.layout))
    desk.document.edit("nut", edits.set_value(desk.document.job, "r1", "44.9"))
    first = seen[0]
    assert first is not None
    assert (first.findings, first.saddle) == ((), desk.document.layout and desk.document.layout.saddle)
    assert desk.document.layout is not None
    assert desk.document.layout.findings


def test_keys_and_hand_do_not_push_the_instrument_out_of_sight(open_desk: OpenDesk) -> None:
    plan = open_desk(sample("leaning-neck")).board.plan
    plan.setFocus()
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Right):
        for _ in range(200):
            press(plan, key)
    x0, y0, x1, y1 = plan.view.seen(plan.area.width(), plan.area.height())
    box = where_to_look.whole_of(plan.drawing)
    assert box is not None
    assert x0 < box[2]
    assert x1 > box[0]
    assert y0 < box[3]
    assert y1 > box[1]
