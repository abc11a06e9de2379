"""How the cells of the table of strings are painted, and the line or box in which one is changed."""

from functools import partial
from typing import Any, Protocol

from PySide6.QtCore import QLineF, QModelIndex, QObject, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QComboBox, QStyleOptionViewItem, QWidget

from app.desk.cards.strings.strings_model import COMPENSATION, DIAMETER, MAKE, NAME, SAYS, Index, StringsModel
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.inputs.fields import TypedLine
from app.desk.widgets.inputs.typed_cells import KEYS, TypedCells
from app.desk.widgets.look import LABEL, TEXT, Look, colour
from app.desk.widgets.signs import Sign, paint_sign
from app.edit.strings import string_entries
from app.edit.typing_visit import Refused

BESIDE = 5
"""Pixels beside the words of a cell, as beside the heads (`look.py`)."""
KEYS_OF_WORDS = "Up and Down go from row to row, Escape takes back"


class StringRows(Protocol):
    """What the cells ask of the table that they are in."""

    strings: StringsModel

    def currentIndex(self) -> QModelIndex: ...
    def hasFocus(self) -> bool: ...
    def go(self, row: int, column: int) -> None: ...
    def begin(self, row: int) -> None: ...
    def refused_at(self, row: int, column: int) -> Refused | None: ...
    def choose_make(self, row: int, value: Any) -> None: ...
    def put(self, row: int, column: int, text: str) -> None: ...
    def settle(self, row: int, column: int, text: str) -> None: ...
    def take_back(self, row: int, column: int) -> None: ...


class StringCells(TypedCells):
    """Paints a cell and makes its editor."""

    def __init__(self, look: Look, table: StringRows, parent: QObject) -> None:
        super().__init__(parent)
        self.look, self.table = look, table

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        p, box = self.look.palette, QRectF(option.rect)
        row, column = index.row(), index.column()
        here = self.table.currentIndex()
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if row == here.row():
            painter.fillRect(box.adjusted(0, 0, 0, -1), colour(p.row))
        painter.setPen(QPen(colour(p.hair), 1))
        low = box.bottom() - 0.5
        painter.drawLine(QLineF(box.left(), low, box.right(), low))
        if row == here.row() and column == here.column() and self.table.hasFocus():
            painter.setPen(QPen(colour(p.worked_out), 1.6))
            painter.drawRoundedRect(box.adjusted(1, 3, -1, -4), 4, 4)
        number = column >= DIAMETER
        worked = column == COMPENSATION and string_entries.own_compensation(self.table.strings.job, row) is None
        refused = self.table.refused_at(row, column)
        font = self.look.font(TEXT, bold=number or column == NAME)
        painter.setFont(self.look.font(LABEL) if column == MAKE else font)
        painter.setPen(colour(p.look if refused else p.worked_out if worked else p.quiet if column == MAKE else p.ink))
        side = Qt.AlignmentFlag.AlignRight if number else Qt.AlignmentFlag.AlignLeft
        room = box.adjusted(BESIDE, 0, -BESIDE, 0)
        text = refused.text if refused else self.table.strings.text(row, column)
        if refused:
            side_px = 12 * self.look.text_scale
            paint_sign(
                painter, Sign.LOOK, QRectF(box.left() + BESIDE, box.center().y() - side_px / 2, side_px, side_px), p
            )
            room.setLeft(room.left() + side_px)
        cut = QFontMetricsF(painter.font()).elidedText(text, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, side | Qt.AlignmentFlag.AlignVCenter, cut)
        painter.restore()

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        return QSize(48, round(34 * self.look.text_scale))

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        row, column = index.row(), index.column()
        said = f"String {self.table.strings.text(row, NAME)}, {SAYS[column]}"
        self.table.begin(row)
        if column == MAKE:
            box = Choice(said, "Up and Down choose, Enter takes it, Escape takes back", parent)
            for value, text in string_entries.MAKES:
                box.addItem(text, value)
            box.activated.connect(lambda at: self.table.choose_make(row, box.itemData(at)))
            return box
        line = TypedLine(said, f"Enter takes the next string, {KEYS if column >= DIAMETER else KEYS_OF_WORDS}", parent)
        if column >= DIAMETER:
            line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        cell = partial(self.table.strings.text, row, column)
        line.typed.connect(lambda text: self.put_typed(partial(self.table.put, row, column, text), cell))
        return line

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        refused = self.table.refused_at(index.row(), index.column())
        in_force = self.table.strings.text(index.row(), index.column())
        text = refused.text if refused else in_force
        if isinstance(editor, TypedLine) and self.takes(editor, in_force):
            editor.setText(text)
            editor.selectAll()
            editor.say(refused.why if refused else "")
        elif isinstance(editor, QComboBox):
            editor.setCurrentText(text)

    def setModelData(self, editor: QWidget, _model: Any, index: Index) -> None:
        if isinstance(editor, TypedLine) and editor.isModified():
            self.table.settle(index.row(), index.column(), editor.text())

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, _index: Index) -> None:
        editor.setGeometry(option.rect.adjusted(0, 1, 0, -1))

    def go_on(self, step: int) -> None:
        here = self.table.currentIndex()
        if self.table.refused_at(here.row(), here.column()) is None:
            self.table.go(here.row() + step, here.column())

    def give_up(self) -> None:
        here = self.table.currentIndex()
        self.table.take_back(here.row(), here.column())

    def steps(self) -> bool:
        return self.table.currentIndex().column() in (DIAMETER, COMPENSATION)
