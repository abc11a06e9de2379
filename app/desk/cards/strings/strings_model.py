"""The strings as the Strings card's table shows them: what stands in a cell, and what is put back from it."""

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from app.desk.document.document import Document
from app.desk.widgets.inputs.fields import understood
from app.edit.strings import string_entries, string_starts
from geometry import units
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import Unit

Index = QModelIndex | QPersistentModelIndex
HEADS = ("String", "Pitch", "Made of", "Diameter", "Comp.", "Fret")
SAYS = (
    "its name",
    "its pitch, such as E4",
    "what it is made of",
    "its diameter",
    "its compensation",
    "the fret it starts at, or nut",
)
NAME, PITCH, MAKE, DIAMETER, COMPENSATION, START = range(6)


def cell(job: Job, layout: Layout | None, row: int, column: int) -> str:
    """What stands in a cell."""
    block = string_entries.block(job)
    string = block.list[row]
    match column:
        case 0:
            return string.name
        case 1:
            return string.pitch or ""
        case 2:
            return string_entries.make(string)
        case 3:
            return "" if string.diameter is None else units.typed(string.diameter, job.unit)
        case 5:
            return string_starts.start_said(string)
        case _:
            given = string_entries.own_compensation(job, row)
            if given is not None:
                return units.typed(given, job.unit)
            plans = layout.strings if layout else ()
            found = next((plan for plan in plans if plan.name == string.name), None)
            return units.show(found.compensation, job.unit) if found else ""


def understood_in(column: int, text: str, unit: Unit) -> str:
    """What a cell's text is in mm where that is not plain from the text itself; nothing for what is no length."""
    if column not in (DIAMETER, COMPENSATION) or not text.strip():
        return ""
    if column == COMPENSATION:
        return understood(unit)(text)
    try:
        kept, as_typed = string_entries.diameter(text, unit), units.keep(text, unit)
    except units.NotALength:
        return ""
    if kept is None or kept == as_typed:
        return understood(unit)(text)
    return f"= {kept}, {units.show_number(round(units.mm(kept), 2))} mm"


class StringsModel(QAbstractTableModel):
    """The strings as a table model. What it shows is the job and the layout that it was last refreshed with, however
    far the document has gone on since.
    """

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.job, self.layout = document.job, document.layout
        self.count, self.columns = 0, START

    def refresh(self) -> None:
        self.job, self.layout = self.document.job, self.document.layout
        strings = string_entries.block(self.job).list
        # where all strings begin at the nut nothing is asked of it
        count, columns = len(strings), len(HEADS) if any(string.first for string in strings) else START
        self._show_columns(columns)
        if count != self.count:
            self.beginResetModel()
            self.count = count
            self.endResetModel()
        elif count:
            self.dataChanged.emit(self.index(0, 0), self.index(count - 1, columns - 1))

    def _show_columns(self, columns: int) -> None:
        """With the fret that strings start at, or without; the cell one is in stays."""
        if columns > self.columns:
            self.beginInsertColumns(QModelIndex(), START, START)
            self.columns = columns
            self.endInsertColumns()
        elif columns < self.columns:
            self.beginRemoveColumns(QModelIndex(), START, START)
            self.columns = columns
            self.endRemoveColumns()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else self.count

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else self.columns

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return HEADS[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if section >= DIAMETER else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return None

    def text(self, row: int, column: int) -> str:
        return cell(self.job, self.layout, row, column)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self.text(index.row(), index.column())
        if role == Qt.ItemDataRole.AccessibleTextRole:
            said = self.text(index.row(), index.column()) or "not given"
            return f"String {self.text(index.row(), NAME)}, {SAYS[index.column()]}: {said}"
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        typed = isinstance(string_entries.block(self.job).compensation, tuple)
        return flags if index.column() == COMPENSATION and not typed else flags | Qt.ItemFlag.ItemIsEditable

    def made(self, row: int, column: int, value: Any) -> Job:
        """The job with one cell changed; raises `NotAJob`, `NotALength`."""
        job = self.document.job
        match column:
            case 0:
                return string_entries.put_string(job, row, name=str(value).strip())
            case 1:
                return string_entries.put_string(job, row, pitch=str(value).strip() or None)
            case 2:
                return string_entries.put_string(job, row, material=value[0], build=value[1])
            case 3:
                return string_entries.put_string(job, row, diameter=string_entries.diameter(str(value), job.unit))
            case 5:
                return string_starts.put_start_typed(job, row, str(value))
            case _:
                return string_entries.put_compensation(job, row, str(value))
