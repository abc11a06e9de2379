"""How the cells of the readings' table are painted, and the line in which a value is typed."""

from typing import Any, Protocol

from PySide6.QtCore import QLineF, QModelIndex, QObject, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyle, QStyleOptionViewItem, QWidget

from app.desk.cards.measure.readings_model import FITS, HEADS, VALUE_AT, Head, Index, Readings, Row
from app.desk.widgets.inputs.fields import TypedLine
from app.desk.widgets.inputs.typed_cells import KEYS, TypedCells
from app.desk.widgets.look import LABEL, TEXT, VALUE, Look, colour
from app.desk.widgets.signs import Sign, paint_sign
from app.edit import list_answers
from geometry.job.measured.kinds import SHAPES


class ReadingRows(Protocol):
    """What the cells ask of the table that they are in."""

    readings: Readings

    @property
    def at(self) -> int: ...
    @property
    def chosen(self) -> str | None: ...
    def columnWidth(self, column: int) -> int: ...
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
        return QSize(64, round(22.5 * self.look.text_scale))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        readings, box = self.table.readings, QRectF(option.rect)
        chosen = index.row() == self.table.currentIndex().row()
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        head, row = readings.head_at(index.row()), readings.row_at(index.row())
        if head is not None:
            self._paint_head(painter, box, index, head, chosen)
        elif row is not None:
            taken = bool(option.state & QStyle.StateFlag.State_Selected)
            self._paint_ground(painter, box, index, row, chosen or taken)
            self._paint_cell(painter, box, index.column(), row, chosen)
        painter.restore()

    def _paint_cell(self, painter: QPainter, box: QRectF, column: int, row: Row, chosen: bool) -> None:
        match column:
            case 0:
                self._paint_name(painter, box, row, chosen)
            case 1:
                self._paint_value(painter, box, row, chosen)
            case 2:
                p = self.look.palette
                self._words(painter, box.adjusted(4, 0, -2, 0), row.tool, self.look.font(LABEL), p.quiet)
            case _:
                self._paint_fit(painter, box, row)

    def _paint_head(self, painter: QPainter, box: QRectF, index: Index, head: Head, chosen: bool) -> None:
        """A group's line: a mark that points down where it is open, its name, and how many are taken."""
        p, s, first = self.look.palette, self.look.text_scale, index.column() == 0
        if chosen:
            self._paint_round(painter, box, index, p.row)
        middle = box.center().y()
        if first:
            painter.setPen(QPen(colour(p.quiet), 1.6))
            x, d = box.left() + 11.5 + 3.5 * s, 3.5 * s
            mark = [(-d / 2, -d), (d / 2, 0), (-d / 2, d)] if head.folded else [(-d, -d / 2), (0, d / 2), (d, -d / 2)]
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawPolyline(QPolygonF([QPointF(x + dx, middle + dy) for dx, dy in mark]))
            self._words(
                painter, box.adjusted(12 + 14 * s, 0, -4, 0), head.group, self.look.font(TEXT, bold=True), p.ink
            )
        elif index.column() == VALUE_AT:
            counted = box.adjusted(-24, 0, -10, 0)
            self._words(painter, counted, head.counted, self.look.font(LABEL), p.quiet, right=True)
        elif index.column() == FITS and head.suspect and head.folded:
            self._paint_look(painter, box)

    def _paint_look(self, painter: QPainter, box: QRectF) -> None:
        """The sign of what is to be looked at again, before the bar: behind it stands the frame of the row in hand."""
        scale = self.look.text_scale
        side = 11 * scale
        sign = QRectF(box.left() + 2 * scale, box.center().y() - side / 2, side, side)
        paint_sign(painter, Sign.LOOK, sign, self.look.palette)

    def _paint_ground(self, painter: QPainter, box: QRectF, index: Index, row: Row, chosen: bool) -> None:
        p = self.look.palette
        if _grounded(row, chosen):
            self._paint_round(painter, box, index, p.row if chosen else p.look_ground)
            return
        first, last = index.column() == 0, index.column() == len(HEADS) - 1
        painter.setPen(QPen(colour(p.hair), 1))
        low = box.bottom() - 0.5
        painter.drawLine(QLineF(box.left() + (12 if first else 0), low, box.right() - (12 if last else 0), low))

    def _paint_round(self, painter: QPainter, box: QRectF, index: Index, ground: str) -> None:
        """A line's ground, round at its two ends, with a ring about it where the keys go to it."""
        first, last = index.column() == 0, index.column() == len(HEADS) - 1
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(ground))
        painter.setClipRect(box)
        ends = box.adjusted(0 if first else -12, 0.5, 0 if last else 12, -0.5)
        painter.drawRoundedRect(ends, 6, 6)
        if self.table.hasFocus() and index.row() == self.table.currentIndex().row():
            painter.setPen(QPen(colour(self.look.palette.worked_out), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(ends.adjusted(1, 0.5, -1, -0.5), 5, 5)
        painter.setClipping(False)

    def _words(self, painter: QPainter, box: QRectF, text: str, font: Any, name: str, right: bool = False) -> float:
        """Words cut where there is no room for them; how wide they are."""
        side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        painter.setFont(font)
        painter.setPen(colour(name))
        letters = QFontMetricsF(font)
        cut = letters.elidedText(text, Qt.TextElideMode.ElideRight, max(box.width(), 0.0))
        painter.drawText(box, side | Qt.AlignmentFlag.AlignVCenter, cut)
        return letters.horizontalAdvance(cut)

    def _paint_name(self, painter: QPainter, box: QRectF, row: Row, chosen: bool) -> None:
        p, font = self.look.palette, QFont(self.look.font(TEXT, bold=chosen))
        font.setStrikeOut(row.reading.struck)
        over = self.over(row, grounded=_grounded(row, chosen))
        if _is_tick(row) and not chosen:
            over = self._tick_room() - self.table.columnWidth(VALUE_AT)
        inner = box.adjusted(12, 0, -4 - over, 0)
        wide = self._words(painter, inner, row.name, font, p.quiet if row.reading.struck else p.ink)
        if row.how:
            inner.setLeft(inner.left() + wide + 6 * self.look.text_scale)
            self._words(painter, inner, row.how, self.look.font(LABEL), p.quiet)

    def over(self, row: Row, *, grounded: bool = True) -> float:
        """How far a value, or what is typed in its stead, needs more room than its column has: what was typed is never
        cut, the name gives way. A question takes less, and the name goes on into the rest, where no ground of the line
        (`grounded`) is painted over it.
        """
        wide = QFontMetricsF(self._value_font(row)).horizontalAdvance(row.shown) + 18 * self.look.text_scale
        more = wide - self.table.columnWidth(VALUE_AT)
        return more if row.shown and not row.value and not grounded else max(0.0, more)

    def _tick_room(self) -> float:
        """What a tick in a value's stead takes of its column; a name goes on into the rest."""
        return 16 + 12 * self.look.text_scale

    def _value_font(self, row: Row) -> QFont:
        """Two values at once are written smaller."""
        size = VALUE if len(row.reading.parts) < 2 and ";" not in row.value else TEXT
        return QFont(self.look.font(size, bold=True) if row.value else self.look.font(LABEL))

    def _paint_value(self, painter: QPainter, box: QRectF, row: Row, chosen: bool) -> None:
        p, font = self.look.palette, self._value_font(row)
        inner = box.adjusted(-self.over(row, grounded=_grounded(row, chosen)), 1, 0, -1)
        if _is_tick(row):
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
            painter.drawRoundedRect(inner.adjusted(1, 1, -1, -1), 4, 4)
        name = p.look if row.wrong else p.quiet if row.reading.struck or not row.value else p.ink
        self._words(painter, inner.adjusted(2, 0, -10, 0), row.shown, font, name, right=True)

    def _paint_fit(self, painter: QPainter, box: QRectF, row: Row) -> None:
        """A bar from the middle: how far off against what is believable (the ends of the hairline)."""
        p, worst = self.look.palette, row.worst
        room = 15 * self.look.text_scale
        left, right = box.left() + room, box.right() - room
        middle = box.top() + box.height() // 2 + 0.5  # a line of one pixel is whole there
        centre, half = (left + right) // 2 + 0.5, (right - left) / 2
        if row.reading.struck:
            self._words(painter, box.adjusted(8, 0, -2, 0), "struck", self.look.font(LABEL), p.quiet)
            return
        if row.turn:
            self._paint_look(painter, box)
            beside = box.adjusted(room + 2, 0, 0, 0)
            self._words(painter, beside, f"{row.turn} of {row.turns}", self.look.font(LABEL), p.ink)
            return
        painter.setPen(QPen(colour(p.field), 1))
        painter.drawLine(QLineF(left, middle, right, middle))
        painter.drawLine(QLineF(centre, middle - 7, centre, middle + 7))
        if row.suspect or row.wrong:
            self._paint_look(painter, box)
        if worst is None:
            return
        if not (worst.checked or row.suspect):
            painter.setBrush(colour(p.card))
            painter.drawEllipse(QRectF(centre - 4, middle - 4, 8, 8))
            return
        reach = max(-1.0, min(1.0, -worst.residual / worst.believable)) * half
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(p.look if row.suspect else p.quiet))
        high = 9.0 if row.suspect else 7.0
        start, stop = sorted((centre, centre + reach))
        painter.drawRoundedRect(QRectF(start - 1, middle - high / 2, max(stop - start, 1) + 2, high), 2, 2)

    # typing

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        row = self._row(index)
        takes = list_answers.takes(row.reading.kind, self.table.readings.document.job.unit)
        says = f"{takes}. Enter takes the next reading, {KEYS}" if takes else f"Enter takes the next reading, {KEYS}"
        line = TypedLine(f"{row.name}, {list_answers.question(row.reading) or 'as read'}", says, parent)
        line.setProperty("role", "cell")
        line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        line.setPlaceholderText(list_answers.hint(row.reading.kind))
        reading_id = row.reading.id
        line.typed.connect(lambda text: self.typed.emit(reading_id, text))
        line.textChanged.connect(lambda: self._keep_all_in_sight(line))
        return line

    def _keep_all_in_sight(self, line: TypedLine) -> None:
        """What is typed is never cut: the line grows to the left."""
        needs = line.fontMetrics().horizontalAdvance(line.text()) + round(24 * self.look.text_scale)
        if needs > line.width():
            line.setGeometry(line.geometry().adjusted(line.width() - needs, 0, 0, 0))

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: Index) -> None:
        over = self.over(self._row(index))
        if isinstance(editor, TypedLine):
            font = editor.fontMetrics()
            typed = max(font.horizontalAdvance(editor.text()), font.horizontalAdvance(editor.placeholderText()))
            over = max(over, typed + 24 * self.look.text_scale - option.rect.width())
        editor.setGeometry(option.rect.adjusted(-round(max(over, 4)), 0, 2, 0))

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, TypedLine) and not editor.isModified():
            row = self._row(index)
            editor.setText(row.value)
            editor.say(row.wrong)

    def setModelData(self, editor: QWidget, _model: Any, index: Index) -> None:
        if isinstance(editor, TypedLine) and editor.isModified():
            self.settled.emit(self._row(index).reading.id, editor.text())

    def _row(self, index: Index) -> Row:
        row = self.table.readings.row_at(index.row())
        assert row is not None  # a group's line has no editor
        return row

    def go_on(self, step: int) -> None:
        at = self.table.at
        if at >= 0 and not self.table.readings.rows[at].wrong:
            self.table.go_on(at, step)

    def give_up(self) -> None:
        self.given_up.emit(self.table.chosen)


def _grounded(row: Row, chosen: bool) -> bool:
    """Whether a line has a ground of its own, which each of its cells paints."""
    return chosen or row.suspect or bool(row.wrong)


def _is_tick(row: Row) -> bool:
    """Whether a reading without a value shows a tick."""
    return SHAPES[row.reading.kind].values == 0 and not row.reading.asked and not row.wrong
