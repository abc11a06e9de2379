"""The table of strings: name, pitch, make, diameter and compensation, each typed where it stands."""

from typing import Any

from PySide6.QtCore import QModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from app.desk.cards.strings.string_cells import StringCells
from app.desk.cards.strings.strings_model import MAKE, NAME, SAYS, StringsModel, cell, understood_in
from app.desk.document.document import Document
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.look import Look
from app.edit.strings import string_entries
from app.edit.typing_visit import Refused, Visit, drop_stale

WIDE = ((44, 14), (46, 24), (0, 0), (72, 24), (62, 28))
WIDE_WITH_START = ((42, 12), (40, 16), (0, 0), (68, 22), (50, 20), (38, 22))
"""How wide the columns are at text scale 1, nought for the one that takes what is left; and what of it does not grow
with the words, so that large ones have room to say what a string is made of.
"""
ROW, AROUND = 34, 14
"""A row's height at text scale 1, and what of it is room around the words, which does not grow with them."""


class StringTable(QTableView):
    """Signals: `chosen` with the string's name; `said` with a sentence when an entry is wrong, or nothing; `hinted`
    with what was understood, or nothing.
    """

    chosen = Signal(str)
    said = Signal(str)
    hinted = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.refused: dict[tuple[str, int], Refused] = {}
        """Entries that cannot be, by the string's name and the column."""
        self._cell, self._name = (-1, NAME), ""
        self.visit = Visit(self._put_text, document.give_up)
        self.strings = StringsModel(document, self)
        self.cells = StringCells(look, self, self)
        self.setModel(self.strings)
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
        self.clicked.connect(self._clicked)
        document.started.connect(self._forget)

    def _forget(self) -> None:
        self.refused.clear()
        self._tell()

    def refused_at(self, row: int, column: int) -> Refused | None:
        """What was typed in a cell and cannot be, if so."""
        return self.refused.get((self.strings.text(row, NAME), column)) if 0 <= row < self.strings.count else None

    def _in_force(self, at: tuple[str, int]) -> str | None:
        job, (name, column) = self.document.job, at
        names = [string.name for string in string_entries.block(job).list]
        return cell(job, self.strings.layout, names.index(name), column) if name in names else None

    def show_look(self, look: Look) -> None:
        self.cells.look = look
        self.verticalHeader().setDefaultSectionSize(AROUND + round((ROW - AROUND) * look.text_scale))
        head = self.horizontalHeader()
        head.setMinimumSectionSize(24)
        for column, (wide, fixed) in enumerate(WIDE if self.strings.columns == len(WIDE) else WIDE_WITH_START):
            mode = QHeaderView.ResizeMode.Fixed if wide else QHeaderView.ResizeMode.Stretch
            head.setSectionResizeMode(column, mode)
            if wide:
                head.resizeSection(column, fixed + round((wide - fixed) * look.text_scale))
        self._fit()

    def refresh(self) -> None:
        columns = self.strings.columns
        self.strings.refresh()
        if columns != self.strings.columns:
            self.show_look(self.cells.look)
        drop_stale(self.refused, self._in_force)
        self._fit()
        self._tell()

    def _fit(self) -> None:
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + 1 + self.verticalHeader().length())

    def go(self, row: int, column: int) -> None:
        if 0 <= row < self.strings.count:
            self.setCurrentIndex(self.strings.index(row, column))

    def go_to(self, name: str) -> None:
        """Choose a string by its name."""
        for row in range(self.strings.count):
            if self.strings.text(row, NAME) == name:
                self.go(row, max(self.currentIndex().column(), 0))

    def begin(self, row: int) -> None:
        """A visit to one of a string's cells begins; its changes are told of by the name that it has now."""
        self.visit.begin()
        self._name = self.strings.text(row, NAME) if 0 <= row < self.strings.count else ""

    def _put(self, row: int, column: int, value: Any, shown: str, word: str) -> None:
        what = ("name", "pitch", "made of", "diameter", "compensation", "starts at")[column]
        self.document.edit(f"string {self._name} {what} {shown}", self.strings.made(row, column, value), word)

    def _put_text(self, text: str, word: str) -> None:
        self._put(*self._cell, text, text, word)

    def choose_make(self, row: int, value: Any) -> None:
        """Put what a string is made of into force."""
        self._put(row, MAKE, value, dict(string_entries.MAKES).get(value, ""), self.visit.word)

    def put(self, row: int, column: int, text: str) -> None:
        """A key was typed in a cell: put it into force if it can be."""
        self._cell, name = (row, column), self.strings.text(row, NAME)
        if not self.visit.put(text):
            self.refused.pop((name, column), None)
            self._tell(text)

    def settle(self, row: int, column: int, text: str) -> None:
        """A cell's text is meant; where it cannot be, it stays to be mended."""
        self._cell = (row, column)
        why = self.visit.settle(text)
        at = (string_entries.block(self.document.job).list[row].name, column)
        self.refused.pop(at, None)
        if why:
            self.refused[at] = Refused(text, why, self._in_force(at) or "")
        self._tell()
        self.viewport().update()

    def take_back(self, row: int, column: int) -> None:
        """Escape: as the cell was before."""
        self.refused.pop((self.strings.text(row, NAME), column), None)
        self.visit.give_up()
        self._tell()

    def _tell(self, typed: str | None = None) -> None:
        """Say what cannot be, here or else in another cell, and what is understood here."""
        row, column = self.currentIndex().row(), self.currentIndex().column()
        here = self.refused_at(row, column)
        others = [f"String {name}, {SAYS[at]}: {entry.why}" for (name, at), entry in self.refused.items()]
        self.said.emit(here.why if here else next(iter(others), ""))
        shown = 0 <= row < self.strings.count and here is None
        text = (self.strings.text(row, column) if typed is None else typed) if shown else ""
        self.hinted.emit(understood_in(column, text, self.document.job.unit))

    def _moved(self, now: QModelIndex, _before: QModelIndex) -> None:
        self.begin(now.row())
        self.viewport().update()
        if now.isValid():
            self.chosen.emit(self.strings.text(now.row(), NAME))
            self._tell()

    def _clicked(self, at: QModelIndex) -> None:
        """What a string is made of is chosen from a list, which one click opens."""
        if at.column() == MAKE:
            self.edit(at)
            for box in self.viewport().findChildren(Choice):
                QTimer.singleShot(0, box, box.showPopup)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        here = self.currentIndex()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if here.column() == MAKE:
                self.edit(here)
            else:
                self.go(here.row() + 1, here.column())
            return
        super().keyPressEvent(event)
