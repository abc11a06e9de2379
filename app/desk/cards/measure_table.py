"""The table of readings: its data, how its cells are painted, and how it is filled with the keyboard alone."""

from functools import lru_cache
from typing import Any, NamedTuple

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QLineF,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont, QFontMetricsF, QKeyEvent, QKeySequence, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from app import words
from app.desk.document import Document
from app.desk.fields import TypedLine
from app.desk.look import LABEL, TEXT, VALUE, Look, colour
from app.desk.signs import Sign, paint_sign
from app.stepping import step
from geometry.job import Reading
from geometry.job.job import Hand
from geometry.job.readings import SHAPES
from geometry.layout import Fit

Index = QModelIndex | QPersistentModelIndex
HEADS = ("Reading", "as read", "fits")
READING, VALUE_AT, FITS = range(3)


class Row(NamedTuple):
    """What one row shows."""

    reading: Reading
    name: str
    how: str
    value: str
    fits: tuple[Fit, ...]
    suspect: bool
    wrong: str

    @property
    def worst(self) -> Fit | None:
        """The fit that is farthest from believable."""
        return max(self.fits, key=lambda f: abs(f.residual) / f.believable if f.believable else 0.0, default=None)

    def said(self) -> str:
        """How the reading fits, in words."""
        worst = self.worst
        if self.reading.struck:
            return "struck out"
        if self.wrong:
            return "wrong entry, the last good value is in force"
        if worst is None:
            return "still to be measured" if not self.reading.taken else "not worked out yet"
        if worst.w is None:
            return "nothing checks it"
        how = "look again, " if self.suspect else "fits, "
        return f"{how}{abs(worst.residual):.2f} mm {'less' if worst.residual > 0 else 'more'} than the others say"


@lru_cache(maxsize=2048)
def _named(reading: Reading, hand: Hand) -> tuple[str, str]:
    """A reading's name, and in smaller letters how it is taken and with what."""
    head, how = words.reading_parts(reading, hand)
    return head, " · ".join(part for part in (how, words.fineness(reading)) if part)


class Readings(QAbstractTableModel):
    """The readings as a table model."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.rows: list[Row] = []
        self.wrong: dict[str, tuple[str, str]] = {}
        self.refresh()

    def refresh(self) -> None:
        """Take over the document's job; rows that stay keep the selection."""
        made, before = self._made(), self.rows
        if [row.reading.id for row in made] != [row.reading.id for row in before]:
            self.beginResetModel()
            self.rows = made
            self.endResetModel()
            return
        self.rows = made
        for at, (new, old) in enumerate(zip(made, before, strict=True)):
            if new[:4] != old[:4] or new.suspect != old.suspect or new.wrong != old.wrong:
                self.dataChanged.emit(self.index(at, 0), self.index(at, FITS))
            elif new.fits != old.fits:
                self.dataChanged.emit(self.index(at, FITS), self.index(at, FITS))

    def _made(self) -> list[Row]:
        job, layout = self.document.job, self.document.layout
        fits: dict[str, list[Fit]] = {}
        suspects: set[str] = set()
        if layout is not None:
            for fit in layout.readings:
                fits.setdefault(fit.id, []).append(fit)
            suspects = {*layout.survey.suspects, *(name for group in layout.survey.groups for name in group)}
        return [
            Row(
                r,
                *_named(r, job.hand),
                self.wrong[r.id][0] if r.id in self.wrong else words.value(r, job.unit),
                tuple(fits.get(r.id, ())),
                r.id in suspects,
                self.wrong.get(r.id, ("", ""))[1],
            )
            for r in job.readings
        ]

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(HEADS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return HEADS[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = (Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight, Qt.AlignmentFlag.AlignHCenter)
            return side[section] | Qt.AlignmentFlag.AlignVCenter
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row = self.rows[index.row()]
        cells = (f"{row.name}, {row.how}", row.value, row.said())
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return cells[index.column()]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{row.name}, {HEADS[index.column()]}: {cells[index.column()] or 'still to be measured'}"
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        row = self.rows[index.row()]
        if index.column() == VALUE_AT and SHAPES[row.reading.kind].values and not row.reading.struck:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags


class CellPainter(QStyledItemDelegate):
    """Paints the cells and makes the line in which a value is typed. Signals: `typed` row and text, `settled` row."""

    typed = Signal(int, str)
    settled = Signal(int, str)
    given_up = Signal(int)

    def __init__(self, look: Look, table: "ReadingTable") -> None:
        super().__init__(table)
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
        if SHAPES[row.reading.kind].values == 0:
            side = 12 * self.look.text_scale
            sign = QRectF(inner.right() - 10 - side, inner.center().y() - side / 2, side, side)
            if not row.reading.struck:
                paint_sign(painter, Sign.DONE, sign, p)
            return
        if row.reading.struck:
            font.setStrikeOut(True)
        elif chosen or not row.value:
            pen = QPen(colour(p.look if row.wrong else p.ink if chosen else p.hair), 1.6 if chosen else 1)
            painter.setPen(pen)
            painter.setBrush(colour(p.card))
            painter.drawRoundedRect(inner.adjusted(1, 0, -1, 0), 4, 4)
        name = p.look if row.wrong else p.quiet if row.reading.struck else p.ink
        self._words(painter, inner.adjusted(4, 0, -10, 0), row.value, font, name, right=True)

    def _paint_fit(self, painter: QPainter, box: QRectF, row: Row) -> None:
        """A bar from the middle: how far off against what is believable (the ends of the hairline)."""
        p, worst = self.look.palette, row.worst
        room = 18 * self.look.text_scale
        left, right, middle = box.left() + room, box.right() - room, box.center().y()
        centre, half = (left + right) / 2, (right - left) / 2
        if row.reading.struck:
            self._words(painter, box.adjusted(12, 0, -4, 0), "struck", self.look.font(LABEL), p.quiet)
            return
        painter.setPen(QPen(colour(p.field if p.dark else p.outline), 1))
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
        line = TypedLine(parent)
        row = index.row()
        line.setProperty("role", "value")
        line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        line.setAccessibleName(f"{self.table.readings.rows[row].name}, as read")
        line.typed.connect(lambda text: self.typed.emit(row, text))
        line.stepped.connect(lambda count: self._step(line, row, count))
        return line

    def _step(self, line: TypedLine, row: int, count: int) -> None:
        line.setText(step(line.text(), count))
        self.typed.emit(row, line.text())

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, _index: Index) -> None:
        editor.setGeometry(option.rect.adjusted(-4, 2, 2, -2))

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, TypedLine) and not editor.isModified():
            editor.setText(self.table.readings.rows[index.row()].value)

    def setModelData(self, editor: QWidget, _model: Any, index: Index) -> None:
        if isinstance(editor, TypedLine):
            self.settled.emit(index.row(), editor.text())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(watched, TypedLine) and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            hint = QAbstractItemDelegate.EndEditHint
            row = self.table.currentIndex().row()
            match event.key():
                case Qt.Key.Key_Return | Qt.Key.Key_Enter | Qt.Key.Key_Down | Qt.Key.Key_Up:
                    up = event.key() == Qt.Key.Key_Up
                    if event.modifiers() & Qt.KeyboardModifier.AltModifier:
                        self._step(watched, row, 1 if up else -1)
                        return True
                    self.commitData.emit(watched)
                    self.closeEditor.emit(watched, hint.NoHint)
                    self.table.go(row - 1 if up else row + 1)
                    return True
                case Qt.Key.Key_Escape:
                    self.given_up.emit(row)
                    self.closeEditor.emit(watched, hint.RevertModelCache)
                    return True
        return super().eventFilter(watched, event)


class ReadingTable(QTableView):
    """The table itself. Signals: `in_hand` with the reading's id when another row is taken in hand; `pasted`."""

    in_hand = Signal(str)
    pasted = Signal()

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.readings = Readings(document, self)
        self.setModel(self.readings)
        self.painter_ = CellPainter(look, self)
        self.setItemDelegate(self.painter_)
        self.setAccessibleName("Readings")
        self.setAccessibleDescription("Type a value and press Enter for the next; Escape takes it back")
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(
            trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked | trigger.SelectedClicked
        )
        self.setShowGrid(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerItem)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setSectionsClickable(False)
        self.horizontalHeader().setHighlightSections(False)
        self.show_look(look)
        self.selectionModel().currentRowChanged.connect(self._row_changed)

    def show_look(self, look: Look) -> None:
        self.painter_.look = look
        scale = look.text_scale
        self.verticalHeader().setDefaultSectionSize(round(44 * scale))
        head = self.horizontalHeader()
        head.setMinimumSectionSize(24)
        head.setSectionResizeMode(READING, QHeaderView.ResizeMode.Stretch)
        for column, wide in ((VALUE_AT, 84), (FITS, 96)):
            head.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
            head.resizeSection(column, round(wide * scale))
        self.viewport().update()

    @property
    def chosen(self) -> str | None:
        """The id of the reading in hand."""
        row = self.currentIndex().row()
        return self.readings.rows[row].reading.id if 0 <= row < len(self.readings.rows) else None

    def go(self, row: int) -> None:
        """Take the reading of a row in hand."""
        if 0 <= row < len(self.readings.rows):
            self.setCurrentIndex(self.readings.index(row, VALUE_AT))

    def go_to(self, reading_id: str) -> None:
        """Take a reading in hand by its id."""
        for at, row in enumerate(self.readings.rows):
            if row.reading.id == reading_id:
                self.go(at)
                self.scrollTo(self.readings.index(at, VALUE_AT))

    def refresh(self) -> None:
        """Take over the document, keeping the reading in hand."""
        kept = self.chosen
        self.readings.refresh()
        if kept and self.chosen != kept:
            self.go_to(kept)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        row = self.currentIndex().row()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.go(row + 1)
            return
        if event.key() in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            return
        if event.matches(QKeySequence.StandardKey.Paste):
            self.pasted.emit()
            return
        if event.text().isprintable() and event.text() and self.currentIndex().column() != VALUE_AT:
            self.go(row)
        super().keyPressEvent(event)

    def _row_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        self.viewport().update()
        if now.isValid() and now.column() != VALUE_AT:
            self.go(now.row())
        if self.chosen:
            self.in_hand.emit(self.chosen)
