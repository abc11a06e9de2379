"""The table of strings: name, pitch, make, diameter and compensation, each typed where it stands."""

from typing import Any

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
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QComboBox,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from app import string_words
from app.desk.document import Document
from app.desk.fields import TypedLine
from app.desk.look import LABEL, TEXT, Look, colour
from app.desk.signs import Sign, paint_sign
from geometry import units
from geometry.job import Job, NotAJob
from geometry.layout import StringPlan

Index = QModelIndex | QPersistentModelIndex
HEADS = ("String", "Pitch", "Made of", "Diameter", "Comp.")
SAYS = ("its name", "its pitch, such as E4", "what it is made of", "its diameter", "its compensation")
WIDE = (50, 52, 0, 78, 68)
NAME, PITCH, MAKE, DIAMETER, COMPENSATION = range(5)


class StringsModel(QAbstractTableModel):
    """The strings as a table model. What it shows is the job and the layout that it was last refreshed with, however
    far the document has gone on since.
    """

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.job, self.layout = document.job, document.layout
        self.count = 0

    def refresh(self) -> None:
        self.job, self.layout = self.document.job, self.document.layout
        count = len(string_words.block(self.job).list)
        if count != self.count:
            self.beginResetModel()
            self.count = count
            self.endResetModel()
        elif count:
            self.dataChanged.emit(self.index(0, 0), self.index(count - 1, len(HEADS) - 1))

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else self.count

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(HEADS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return HEADS[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if section >= DIAMETER else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return None

    def plan(self, row: int) -> StringPlan | None:
        """What was worked out of a string."""
        name = string_words.block(self.job).list[row].name
        return next((s for s in self.layout.strings if s.name == name), None) if self.layout else None

    def text(self, row: int, column: int) -> str:
        job, block = self.job, string_words.block(self.job)
        string = block.list[row]
        match column:
            case 0:
                return string.name
            case 1:
                return string.pitch or ""
            case 2:
                return string_words.make(string)
            case 3:
                return "" if string.diameter is None else units.typed(string.diameter, job.unit)
            case _:
                if isinstance(block.compensation, tuple):
                    return units.typed(block.compensation[row], job.unit)
                found = self.plan(row)
                return units.show(found.compensation, job.unit) if found else ""

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self.text(index.row(), index.column())
        if role == Qt.ItemDataRole.AccessibleTextRole:
            said = self.text(index.row(), index.column()) or "not given"
            return f"String {self.text(index.row(), NAME)}, {SAYS[index.column()]}: {said}"
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        typed = isinstance(string_words.block(self.job).compensation, tuple)
        return flags if index.column() == COMPENSATION and not typed else flags | Qt.ItemFlag.ItemIsEditable

    def made(self, row: int, column: int, value: Any) -> Job:
        """The job with one cell changed; raises `NotAJob`, `NotALength`."""
        job = self.document.job
        match column:
            case 0:
                return string_words.put_string(job, row, name=str(value).strip())
            case 1:
                return string_words.put_string(job, row, pitch=str(value).strip() or None)
            case 2:
                return string_words.put_string(job, row, material=value[0], build=value[1])
            case 3:
                return string_words.put_string(job, row, diameter=string_words.diameter(str(value), job.unit))
            case _:
                return string_words.put_compensation(job, row, str(value))


class StringCells(QStyledItemDelegate):
    """Paints a cell and makes its editor."""

    def __init__(self, look: Look, table: "StringTable") -> None:
        super().__init__(table)
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
        worked = column == COMPENSATION and not self.table.model_.flags(index) & Qt.ItemFlag.ItemIsEditable
        wrong, _ = self.table.wrong_at(row, column)
        font = self.look.font(TEXT, bold=number or column == NAME)
        painter.setFont(self.look.font(LABEL) if column == MAKE else font)
        painter.setPen(colour(p.look if wrong else p.worked_out if worked else p.quiet if column == MAKE else p.ink))
        side = Qt.AlignmentFlag.AlignRight if number else Qt.AlignmentFlag.AlignLeft
        room = box.adjusted(8, 0, -8, 0)
        text = wrong or self.table.model_.text(row, column)
        if wrong:
            side_px = 12 * self.look.text_scale
            paint_sign(painter, Sign.LOOK, QRectF(box.left() + 4, box.center().y() - side_px / 2, side_px, side_px), p)
            room.setLeft(room.left() + side_px)
        cut = QFontMetricsF(painter.font()).elidedText(text, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, side | Qt.AlignmentFlag.AlignVCenter, cut)
        painter.restore()

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        return QSize(48, round(34 * self.look.text_scale))

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        row, column = index.row(), index.column()
        said = f"String {self.table.model_.text(row, NAME)}, {SAYS[column]}"
        if column == MAKE:
            box = QComboBox(parent)
            for value, text in string_words.MAKES:
                box.addItem(text, value)
            box.setAccessibleName(said)
            box.setAccessibleDescription("Material and build")
            box.activated.connect(lambda at: self.table.put(row, column, box.itemData(at)))
            return box
        line = TypedLine(parent)
        line.setAccessibleName(said)
        line.setAccessibleDescription("Enter takes the next string, Escape takes back; Alt with Up or Down steps")
        line.typed.connect(lambda text: self.table.put(row, column, text))
        return line

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        wrong, _ = self.table.wrong_at(index.row(), index.column())
        text = wrong or self.table.model_.text(index.row(), index.column())
        if isinstance(editor, TypedLine) and not editor.isModified():
            editor.setText(text)
            editor.selectAll()
        elif isinstance(editor, QComboBox):
            editor.setCurrentText(text)

    def setModelData(self, editor: QWidget, _model: Any, index: Index) -> None:
        if isinstance(editor, TypedLine) and editor.isModified():
            self.table.settle(index.row(), index.column(), editor.text())

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, _index: Index) -> None:
        editor.setGeometry(option.rect.adjusted(0, 1, 0, -1))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(watched, TypedLine) and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            hint, here = QAbstractItemDelegate.EndEditHint, self.table.currentIndex()
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Down, Qt.Key.Key_Up):
                up = event.key() == Qt.Key.Key_Up
                if event.modifiers() & Qt.KeyboardModifier.AltModifier:
                    if here.column() >= DIAMETER:
                        watched.step(1 if up else -1)
                    return True
                self.commitData.emit(watched)
                self.closeEditor.emit(watched, hint.NoHint)
                if not any(self.table.wrong_at(here.row(), here.column())):
                    self.table.go(here.row() + (-1 if up else 1), here.column())
                return True
            if event.key() in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown) and here.column() < DIAMETER:
                return True
            if event.key() == Qt.Key.Key_Escape:
                self.table.take_back(here.row(), here.column())
                self.closeEditor.emit(watched, hint.RevertModelCache)
                return True
        return super().eventFilter(watched, event)


class StringTable(QTableView):
    """Signals: `chosen` with the string's name; `said` with a sentence when an entry is wrong, or nothing."""

    chosen = Signal(str)
    said = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.wrong: dict[tuple[str, int], tuple[str, str]] = {}
        """Wrong entries by the string's name and the column: what was typed, and why it cannot be."""
        self._visits = 0
        self.model_ = StringsModel(document, self)
        self.cells = StringCells(look, self)
        self.setModel(self.model_)
        self.setItemDelegate(self.cells)
        self.setAccessibleName("Strings, from treble to bass")
        self.setAccessibleDescription("Arrow keys move from cell to cell; type to change one")
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setSectionsClickable(False)
        self.show_look(look)
        self.selectionModel().currentChanged.connect(self._moved)
        document.started.connect(self._forget)

    def _forget(self) -> None:
        self.wrong.clear()
        self.said.emit("")

    def wrong_at(self, row: int, column: int) -> tuple[str, str]:
        """What was typed in a cell and cannot be, and why; both empty where all is well."""
        return self.wrong.get((self.model_.text(row, NAME), column), ("", "")) if row >= 0 else ("", "")

    def show_look(self, look: Look) -> None:
        self.cells.look = look
        self.verticalHeader().setDefaultSectionSize(round(34 * look.text_scale))
        head = self.horizontalHeader()
        head.setMinimumSectionSize(24)
        for column, wide in enumerate(WIDE):
            mode = QHeaderView.ResizeMode.Fixed if wide else QHeaderView.ResizeMode.Stretch
            head.setSectionResizeMode(column, mode)
            if wide:
                head.resizeSection(column, round(wide * look.text_scale))
        self._fit()

    def refresh(self) -> None:
        self.model_.refresh()
        self._fit()

    def _fit(self) -> None:
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + 4 + self.verticalHeader().length())

    def go(self, row: int, column: int) -> None:
        if 0 <= row < self.model_.count:
            self.setCurrentIndex(self.model_.index(row, column))

    def go_to(self, name: str) -> None:
        """Choose a string by its name."""
        for row in range(self.model_.count):
            if self.model_.text(row, NAME) == name:
                self.go(row, max(self.currentIndex().column(), 0))

    def put(self, row: int, column: int, value: Any) -> str:
        """Put a cell into force; the sentence that says why not, or nothing."""
        name, what = self.model_.text(row, NAME), HEADS[column].lower().replace("comp.", "compensation")
        shown = dict(string_words.MAKES).get(value, "") if column == MAKE else value
        try:
            made = self.model_.made(row, column, value)
        except (NotAJob, units.NotALength) as error:
            return str(error)
        self.wrong.pop((name, column), None)
        self.document.edit(f"string {name} {what} {shown}", made, self._word(row, column))
        return ""

    def _word(self, row: int, column: int) -> str:
        return f"string {row} {column} {self._visits}"

    def settle(self, row: int, column: int, text: str) -> None:
        wrong = self.put(row, column, text)
        if wrong:
            self.document.give_up(self._word(row, column))  # what stood there before, not half of what was typed
            self.wrong[self.model_.text(row, NAME), column] = (text, wrong)
        self._visits += 1
        self.said.emit(wrong)
        self.viewport().update()

    def take_back(self, row: int, column: int) -> None:
        self.wrong.pop((self.model_.text(row, NAME), column), None)
        self.document.give_up(self._word(row, column))
        self.said.emit("")

    def _moved(self, now: QModelIndex, _before: QModelIndex) -> None:
        self._visits += 1
        self.viewport().update()
        if now.isValid():
            self.chosen.emit(self.model_.text(now.row(), NAME))
            self.said.emit(self.wrong_at(now.row(), now.column())[1])

    def keyPressEvent(self, event: QKeyEvent) -> None:
        here = self.currentIndex()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if here.column() == MAKE:
                self.edit(here)
            else:
                self.go(here.row() + 1, here.column())
            return
        super().keyPressEvent(event)
