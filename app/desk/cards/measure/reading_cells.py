"""How the cells of the readings' table are painted, and the line in which a value is typed."""

from typing import Any, Protocol

from PySide6.QtCore import QLineF, QModelIndex, QObject, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyleOptionViewItem, QWidget

from app.desk.cards.measure.readings_model import HEADS, Index, Readings, Row
from app.desk.widgets.fields import TypedLine
from app.desk.widgets.look import LABEL, TEXT, VALUE, Look, colour
from app.desk.widgets.signs import Sign, paint_sign
from app.desk.widgets.typed_cells import KEYS, TypedCells
from app.edit import list_answers
from geometry.job.kinds import SHAPES


class ReadingRows(Protocol):
    """What the cells ask of the table that they are in."""

    readings: Readings

    @property
    def chosen(self) -> str | None: ...
    def currentIndex(self) -> QModelIndex: ...
    def hasFocus(self) -> bool: ...
    def go_on(self, row: int, step: int) -> None: ...


class ReadingCells(TypedCells):
    """Paints the cells and makes the line in which a value is typed. Signals: `typed` and `settled` with the reading's
    id and what was typed, `given_up` with the id.
    """

    typed = Signal(str, str)
    settled = Signal(str, str)
    given_up = Signal(str)

    def __init__(self, look: Look, table: ReadingRows, parent: QObject) -> None:
        super().__init__(parent)
        self.look, self.table = look, table

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        return QSize(64, round(40 * self.look.text_scale))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        row = self.table.readings.rows[index.row()]
        chosen = index.row() == self.table.currentIndex().row()
        box = QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter, box, index, row, chosen)
        match index.column():
            case 0:
                self._paint_name(painter, box, row, chosen)
            case 1:
                self._paint_value(painter, box, row, chosen)
            case _:
                self._paint_fit(painter, box, row)
        painter.restore()

    def _paint_ground(self, painter: QPainter, box: QRectF, index: Index, row: Row, chosen: bool) -> None:
        p = self.look.palette
        first, last = index.column() == 0, index.column() == len(HEADS) - 1
        if chosen or row.suspect or row.wrong:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colour(p.row if chosen else p.look_ground))
            painter.setClipRect(box)
            ground = box.adjusted(0 if first else -12, 0.5, 0 if last else 12, -0.5)
            painter.drawRoundedRect(ground, 6, 6)
            painter.setClipping(False)
        else:
            painter.setPen(QPen(colour(p.hair), 1))
            low = box.bottom() - 0.5
            painter.drawLine(QLineF(box.left() + (12 if first else 0), low, box.right() - (12 if last else 0), low))

    def _words(self, painter: QPainter, box: QRectF, text: str, font: Any, name: str, right: bool = False) -> None:
        side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        painter.setFont(font)
        painter.setPen(colour(name))
        cut = QFontMetricsF(font).elidedText(text, Qt.TextElideMode.ElideRight, box.width())
        painter.drawText(box, side | Qt.AlignmentFlag.AlignVCenter, cut)

    def _paint_name(self, painter: QPainter, box: QRectF, row: Row, chosen: bool) -> None:
        p, font = self.look.palette, QFont(self.look.font(TEXT, bold=chosen))
        font.setStrikeOut(row.reading.struck)
        half = box.center().y() + 1.5 * self.look.text_scale
        upper, lower = box.adjusted(12, 4, -4, 0), box.adjusted(12, 0, -4, -4)
        upper.setBottom(half)
        lower.setTop(half)
        self._words(painter, upper, row.name, font, p.quiet if row.reading.struck else p.ink)
        self._words(painter, lower, row.how, self.look.font(LABEL - 0.5), p.quiet)

    def _paint_value(self, painter: QPainter, box: QRectF, row: Row, chosen: bool) -> None:
        p, font = self.look.palette, QFont(self.look.font(VALUE, bold=True))
        inner = box.adjusted(0, 8, 0, -8)
        if SHAPES[row.reading.kind].values == 0 and not row.reading.asked and not row.wrong:
            side = 12 * self.look.text_scale
            sign = QRectF(inner.right() - 10 - side, inner.center().y() - side / 2, side, side)
            if not row.reading.struck:
                paint_sign(painter, Sign.DONE, sign, p)
            return
        if row.reading.struck:
            font.setStrikeOut(True)
        elif chosen or not row.value:
            held = p.worked_out if self.table.hasFocus() else p.field
            pen = QPen(colour(p.look if row.wrong else held if chosen else p.field), 2 if chosen else 1)
            painter.setPen(pen)
            painter.setBrush(colour(p.card))
            painter.drawRoundedRect(inner.adjusted(1, 0, -1, 0), 4, 4)
        name = p.look if row.wrong else p.quiet if row.reading.struck or not row.value else p.ink
        font = font if row.value else self.look.font(TEXT)
        self._words(painter, inner.adjusted(4, 0, -10, 0), row.shown, font, name, right=True)

    def _paint_fit(self, painter: QPainter, box: QRectF, row: Row) -> None:
        """A bar from the middle: how far off against what is believable (the ends of the hairline)."""
        p, worst = self.look.palette, row.worst
        room = 18 * self.look.text_scale
        left, right, middle = box.left() + room, box.right() - room, box.center().y()
        centre, half = (left + right) / 2, (right - left) / 2
        if row.reading.struck:
            self._words(painter, box.adjusted(12, 0, -4, 0), "struck", self.look.font(LABEL), p.quiet)
            return
        painter.setPen(QPen(colour(p.field), 1))
        painter.drawLine(QLineF(left, middle, right, middle))
        painter.drawLine(QLineF(centre, middle - 9, centre, middle + 9))
        if worst is None:
            return
        if worst.w is None:
            painter.setBrush(colour(p.card))
            painter.drawEllipse(QRectF(centre - 4, middle - 4, 8, 8))
            return
        reach = max(-1.0, min(1.0, -worst.residual / worst.believable)) * half
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(p.look if row.suspect else p.quiet))
        high = 9.0 if row.suspect else 7.0
        start, stop = sorted((centre, centre + reach))
        painter.drawRoundedRect(QRectF(start - 1, middle - high / 2, max(stop - start, 1) + 2, high), 2, 2)
        if row.suspect or row.wrong:
            side = 15 * self.look.text_scale
            paint_sign(painter, Sign.LOOK, QRectF(box.right() - side, middle - side / 2, side, side), p)

    # typing

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        row = self.table.readings.rows[index.row()]
        takes = list_answers.takes(row.reading.kind, self.table.readings.document.job.unit)
        says = f"{takes}. Enter takes the next reading, {KEYS}" if takes else f"Enter takes the next reading, {KEYS}"
        line = TypedLine(f"{row.name}, {list_answers.question(row.reading) or 'as read'}", says, parent)
        line.setProperty("role", "value")
        line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        line.setPlaceholderText(takes)
        reading_id = row.reading.id
        line.typed.connect(lambda text: self.typed.emit(reading_id, text))
        return line

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, _index: Index) -> None:
        editor.setGeometry(option.rect.adjusted(-4, 2, 2, -2))

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, TypedLine) and not editor.isModified():
            row = self.table.readings.rows[index.row()]
            editor.setText(row.value)
            editor.say(row.wrong)

    def setModelData(self, editor: QWidget, _model: Any, index: Index) -> None:
        if isinstance(editor, TypedLine) and editor.isModified():
            self.settled.emit(self.table.readings.rows[index.row()].reading.id, editor.text())

    def go_on(self, step: int) -> None:
        row = self.table.currentIndex().row()
        if not self.table.readings.rows[row].wrong:
            self.table.go_on(row, step)

    def give_up(self) -> None:
        self.given_up.emit(self.table.chosen)
