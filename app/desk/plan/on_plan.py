"""What the hand shows on the plan itself: a point's name and ±, an answer to 'how far', and a value typed in place."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QLabel

from app.desk.cards.measure.typed_readings import put_value
from app.desk.plan.plan_widget import Plan
from app.desk.widgets.fields import TypedLine, understood
from app.desk.widgets.look import LABEL, TEXT, colour
from app.edit.typing_visit import Visit
from app.say import plain_words
from geometry import units, words

if TYPE_CHECKING:
    from app.desk.plan.drawing_board import DrawingBoard


class OnPlan(QObject):
    """Paints over both pictures, and owns the line in which a number is typed where it stands."""

    def __init__(self, board: "DrawingBoard") -> None:
        super().__init__(board)
        self.board = board
        self.line: TypedLine | None = None
        self.note: QLabel | None = None
        self.reading, self.wrong = "", ""
        self.visit = Visit(self._put, board.document.give_up)
        board.document.started.connect(self.close)

    # painting

    def paint(self, painter: QPainter, plan: Plan) -> None:
        hand = self.board.hand
        if hand.told.ends is not None:
            self._paint_measured(painter, plan, *hand.told.ends, hand.told.number)
        for of in {hand.over, f"point:{hand.held}" if hand.held else ""}:
            if of.startswith("point:"):
                self._paint_point(painter, plan, of.partition(":")[2], ring=of.endswith(hand.held) and bool(hand.held))
        if hand.says and not plan.is_detail:
            self._paint_band(painter, plan, hand.says)

    def _paint_point(self, painter: QPainter, plan: Plan, name: str, ring: bool) -> None:
        place = self.board.place_of(name)
        if place is None:
            return
        at, p = plan.to_pixels(place), self.board.look.palette
        if not plan.area.contains(at):
            return
        if ring:
            painter.setPen(QPen(colour(p.worked_out), 2))
            painter.drawEllipse(at, 9.0, 9.0)
        self._paint_tag(painter, plan, at + QPointF(14, -14), self.about(name))

    def _paint_tag(self, painter: QPainter, plan: Plan, at: QPointF, text: str) -> None:
        look = self.board.look
        metrics = QFontMetricsF(look.font(LABEL))
        wide, high = metrics.horizontalAdvance(text) + 16, metrics.height() + 8
        x = min(at.x(), plan.width() - wide - 8)
        y = max(at.y() - high, plan.area.top() + 4)
        box = QRectF(x, y, wide, high)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(look.palette.ink))
        painter.drawRoundedRect(box, 4, 4)
        painter.setFont(look.font(LABEL))
        painter.setPen(colour(look.palette.card))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)

    def _paint_measured(
        self, painter: QPainter, plan: Plan, a: tuple[float, float], b: tuple[float, float], told: str
    ) -> None:
        ends, p = (plan.to_pixels(a), plan.to_pixels(b)), self.board.look.palette
        painter.setPen(QPen(colour(p.worked_out), 2))
        painter.drawLine(*ends)
        painter.setBrush(colour(p.card))
        for end in ends:
            painter.drawEllipse(end, 4.0, 4.0)
        self._paint_tag(painter, plan, (ends[0] + ends[1]) / 2 + QPointF(8, -8), told)

    def _paint_band(self, painter: QPainter, plan: Plan, text: str) -> None:
        """One sentence at the plan's foot: what to point at, or why a point does not move."""
        look, area = self.board.look, plan.area
        font = look.font(TEXT)
        wide = min(QFontMetricsF(font).horizontalAdvance(text) + 32, area.width() - 32)
        lines = QFontMetricsF(font).boundingRect(QRectF(0, 0, wide - 32, 400), Qt.TextFlag.TextWordWrap, text)
        high = lines.height() + 16
        box = QRectF(area.center().x() - wide / 2, area.bottom() - high - 40, wide, high)
        painter.setPen(QPen(colour(look.palette.outline), 1))
        painter.setBrush(colour(look.palette.card))
        painter.drawRoundedRect(box, 6, 6)
        painter.setFont(font)
        painter.setPen(colour(look.palette.ink))
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(box.adjusted(16, 0, -16, 0), flags, text)

    def about(self, name: str) -> str:
        """A point's name and how well it is known."""
        job, layout = self.board.document.job, self.board.document.layout
        said = words.point(name, job.hand)
        solved = layout.points.get(name) if layout else None
        if solved is None:
            return f"{said}: only a rough place"
        from export.plan.measured_points import pm95

        known = f"±{units.show_pm(pm95(solved), job.unit)} {job.unit}"
        return f"{said}, {known}" + ("" if solved.checked else ", nothing checks it")

    # typing a number where it stands

    def type_here(self, plan: Plan, reading_id: str) -> None:
        """Open a line on the plan over a reading's number."""
        job = self.board.document.job
        reading = next((r for r in job.readings if r.id == reading_id), None)
        box = plan.words_of(f"reading:{reading_id}")
        if reading is None or box is None or reading.struck:
            return
        self.close()
        self.board.typing_begins.emit()
        line = TypedLine(
            f"{words.reading(reading, job.hand)}, as read",
            "Enter puts it in, Escape takes back, Up and Down step",
            plan,
        )
        line.setProperty("role", "value")
        line.setAlignment(Qt.AlignmentFlag.AlignCenter)
        kept = self.board.refused.get(reading_id)
        line.setText(kept.text if kept else words.value(reading, job.unit))
        line.setGeometry(self._room_for_line(plan, box.center().toPoint()))
        line.selectAll()
        self.line, self.reading, self.note = line, reading_id, QLabel(plan, textFormat=Qt.TextFormat.PlainText)
        self.visit.begin()
        self._say(plain_words.sentence(kept.why) if kept else "")
        line.typed.connect(self._typed)
        line.entered.connect(self._entered)
        line.given_up.connect(self._give_up)
        line.settled.connect(self._settled)
        line.show()
        line.setFocus()

    def _room_for_line(self, plan: Plan, centre: QPoint) -> QRect:
        """Where the number stands, but not under the detail."""
        scale, detail = self.board.look.text_scale, self.board.detail
        room = QRect(0, 0, round(116 * scale), round(34 * scale))
        room.moveCenter(centre)
        over = QRect(plan.mapFromGlobal(detail.mapToGlobal(QPoint(0, 0))), detail.size())
        if plan is not detail and detail.isVisible() and room.intersects(over):
            room.moveTop(over.bottom() + 4)
        return room

    def _put(self, text: str, word: str) -> None:
        put_value(self.board.document, self.reading, text, word)

    def _typed(self, text: str) -> None:
        why = self.visit.put(text)
        self._say(plain_words.sentence(why) if self.wrong else "")  # not wrong before it is settled

    def _settled(self) -> None:
        """Enter, or the line was left: a wrong entry stays to be mended, here or on the Measure card."""
        line = self.line
        if line is None:
            return
        if line.isModified():
            text = line.text()
            self._say(plain_words.sentence(self.visit.settle(text)))
            self.board.put_value.emit(self.reading, text)
        if not line.hasFocus():
            self.close()

    def _entered(self) -> None:
        if not self.wrong:
            self.close()

    def _give_up(self) -> None:
        self.visit.give_up()
        self.board.gave_up.emit(self.reading)
        self.close()

    def _say(self, why: str) -> None:
        """Under the line: why the entry cannot be, or what was understood."""
        line, note, self.wrong = self.line, self.note, why
        if line is None or note is None:
            return
        hint = "" if why else understood(self.board.document.job.unit)(line.text())
        line.say(why, hint)
        note.setVisible(bool(why or hint))
        plan = line.parentWidget()
        if plan is not None and (why or hint):
            self._lay_note(note, line.geometry(), plan.rect(), why or hint)

    def _lay_note(self, note: QLabel, beside: QRect, room: QRect, text: str) -> None:
        """Close under the line, or over it where there is no room."""
        look = self.board.look
        note.setProperty("role", "wrong" if self.wrong else "hint")
        note.setStyleSheet(f"background: {look.palette.card}; border-radius: 4px; padding: 3px 6px;")
        note.setWordWrap(bool(self.wrong))
        note.setText(text)
        wide = round(300 * look.text_scale) if self.wrong else note.sizeHint().width()
        note.resize(wide, note.heightForWidth(wide) if self.wrong else note.sizeHint().height())
        below = beside.bottom() + 4
        y = below if below + note.height() < room.bottom() else beside.top() - 4 - note.height()
        x = max(4, min(beside.center().x() - note.width() // 2, room.right() - note.width() - 4))
        note.move(x, y)
        note.raise_()

    def close(self) -> None:
        """Put the line away."""
        line, self.line = self.line, None
        note, self.note = self.note, None
        if note is not None:
            note.hide()
            note.deleteLater()
        if line is not None:
            plan = line.parentWidget()
            line.hide()
            line.deleteLater()
            if plan is not None:
                plan.setFocus()
