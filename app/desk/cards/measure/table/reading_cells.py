"""How the cells of the readings' table are painted, and the line in which a value is typed."""

from functools import partial
from typing import Any, Protocol

from PySide6.QtCore import QLineF, QModelIndex, QObject, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyle, QStyleOptionViewItem, QWidget

from app.desk.cards.measure.table.fit_bar import ROOM, paint_bar, paint_look
from app.desk.cards.measure.table.name_lines import (
    GAP,
    NameLine,
    fits_bold,
    line_height,
    name_lines,
    one_line,
)
from app.desk.cards.measure.table.reading_row import Head, Row
from app.desk.cards.measure.table.readings_model import FITS, HEADS, READING, VALUE_AT, Index, Readings
from app.desk.widgets.inputs.fields import TypedLine
from app.desk.widgets.inputs.typed_cells import KEYS, TypedCells
from app.desk.widgets.look import LABEL, TEXT, VALUE, Look, Size, colour
from app.desk.widgets.signs import Sign, paint_sign
from app.desk.widgets.words.letters import letters_wide
from app.edit import list_answers
from app.say.how_to import one_side
from geometry.job.measured.kinds import SHAPES

USUAL = "000.0"
"""A value as wide as most are: its box has room for it before anything is typed, and no name goes on into that."""
PADDING = 20
"""What the line in which a value is typed takes beside its words, pixels."""


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
            paint_look(painter, box, self.look)

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
        wide = letters.horizontalAdvance(text)
        if wide > box.width():
            text = letters.elidedText(text, Qt.TextElideMode.ElideRight, max(box.width(), 0.0))
            wide = letters.horizontalAdvance(text)
        painter.drawText(box, side | Qt.AlignmentFlag.AlignVCenter, text)
        return wide

    def _paint_name(self, painter: QPainter, box: QRectF, row: Row, chosen: bool) -> None:
        p, room, lines = self.look.palette, self._name_room(row), self.lines_of(row)
        font = QFont(self.look.font(TEXT, bold=chosen and fits_bold(self.look, lines, room)))
        font.setStrikeOut(row.reading.struck)
        high = line_height(self.look)
        inner = QRectF(box.left() + 12, box.top() - (len(lines) - 1) * high / 2, room, box.height())
        for line in lines:
            wide = self._words(painter, inner, line.name, font, p.quiet if row.reading.struck else p.ink)
            gap = wide + GAP * self.look.text_scale if line.name else 0.0
            self._words(painter, inner.adjusted(gap, 0, 0, 0), line.how, self.look.font(LABEL), p.quiet)
            inner.translate(0, high)

    def lines_of(self, row: Row) -> tuple[NameLine, ...]:
        """The lines that a row's name takes beside its value."""
        return name_lines(self.look, row.name, row.how, int(self._name_room(row)))

    def _name_room(self, row: Row) -> float:
        return self.table.columnWidth(READING) - 16 - self.over(row)

    def over(self, row: Row) -> float:
        """How far a value, or what stands in its stead, takes of the name's room: what was typed is never cut, the name
        gives way. Less than 0 where it leaves some of its own column free that the name needs.
        """
        size, bold = _value_letters(row)
        wide = max(letters_wide(self.look, size, bold, row.shown), letters_wide(self.look, VALUE, True, USUAL))
        beside = wide + 10 + 8 * self.look.text_scale
        more = (self._tick_room() if _is_tick(row) else beside) - self.table.columnWidth(VALUE_AT)
        lacks = one_line(self.look, row.name, row.how) - (self.table.columnWidth(READING) - 16)
        return -lacks if 0 < lacks <= -more else max(0.0, more)

    def _tick_room(self) -> float:
        """What a tick in a value's stead takes of its column; a name goes on into the rest."""
        return 16 + 12 * self.look.text_scale

    def _paint_value(self, painter: QPainter, box: QRectF, row: Row, chosen: bool) -> None:
        p, (size, bold) = self.look.palette, _value_letters(row)
        font = QFont(self.look.font(size, bold=bold))
        self._end_name(painter, box, row, chosen)
        inner = box.adjusted(-self.over(row), 1, 0, -1)
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

    def _end_name(self, painter: QPainter, box: QRectF, row: Row, chosen: bool) -> None:
        """The end of a name that goes on into the value's column, where a ground has been painted over it."""
        if self.over(row) < 0 and _grounded(row, chosen):
            painter.save()
            painter.setClipRect(box)
            self._paint_name(painter, box.translated(-self.table.columnWidth(READING), 0), row, chosen)
            painter.restore()

    def _paint_fit(self, painter: QPainter, box: QRectF, row: Row) -> None:
        """How the reading fits: a bar, its number among those of which one is out, or that it is struck out."""
        p, room = self.look.palette, ROOM * box.width()
        if row.reading.struck:
            self._words(painter, box.adjusted(8, 0, -2, 0), "struck", self.look.font(LABEL), p.quiet)
        elif row.turn:
            paint_look(painter, box, self.look)
            beside = box.adjusted(room + 2, 0, 0, 0)
            self._words(painter, beside, f"{row.turn} of {row.turns}", self.look.font(LABEL), p.ink)
        else:
            paint_bar(painter, box, row, self.look)

    # typing

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        row = self._row(index)
        unit = self.table.readings.document.job.unit
        takes = list_answers.takes(row.reading.kind, unit, one_side(row.reading))
        says = f"{takes}. Enter takes the next reading, {KEYS}" if takes else f"Enter takes the next reading, {KEYS}"
        line = TypedLine(f"{row.name}, {list_answers.question(row.reading) or 'as read'}", says, parent)
        line.setProperty("role", "cell")
        line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        line.setPlaceholderText(list_answers.hint(row.reading.kind))
        reading_id = row.reading.id
        in_force = partial(self.table.readings.in_force, reading_id)
        line.typed.connect(lambda text: self.put_typed(partial(self.typed.emit, reading_id, text), in_force))
        line.textChanged.connect(lambda: self._keep_all_in_sight(line))
        return line

    def _keep_all_in_sight(self, line: TypedLine) -> None:
        """What is typed is never cut: the line grows to the left."""
        needs = line.fontMetrics().horizontalAdvance(line.text()) + PADDING
        if needs > line.width():
            line.setGeometry(line.geometry().adjusted(line.width() - needs, 0, 0, 0))

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: Index) -> None:
        over = self.over(self._row(index))
        if isinstance(editor, TypedLine):
            font = editor.fontMetrics()
            typed = max(font.horizontalAdvance(editor.text()), font.horizontalAdvance(editor.placeholderText()))
            over = max(over, typed + PADDING - option.rect.width())
        editor.setGeometry(option.rect.adjusted(-round(over), 0, 2, 0))

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        row = self._row(index)
        if isinstance(editor, TypedLine) and self.takes(editor, self.table.readings.in_force(row.reading.id)):
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


def _value_letters(row: Row) -> tuple[Size, bool]:
    """In what size a value is written, and whether in bold: two values at once, and one with its side, are smaller."""
    single = len(row.reading.parts) < 2 and row.reading.side is None and ";" not in row.value
    return (VALUE if single else TEXT, True) if row.value else (LABEL, False)
