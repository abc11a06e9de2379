"""The table of readings, filled with the keyboard alone: a value, Enter, the next."""

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from app.desk.cards.measure.reading_cells import ReadingCells
from app.desk.cards.measure.readings_model import FITS, READING, VALUE_AT, Readings
from app.desk.document.document import Document
from app.desk.widgets.look import Look


class ReadingTable(QTableView):
    """The table itself. Signals: `reading_chosen` with the reading's id when another row is chosen; `pasted`."""

    reading_chosen = Signal(str)
    pasted = Signal()

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.readings = Readings(document, self)
        self.setModel(self.readings)
        self.cells = ReadingCells(look, self, self)
        self.setItemDelegate(self.cells)
        self.setObjectName("readings")
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
        self.cells.look = look
        scale = look.text_scale
        self.verticalHeader().setDefaultSectionSize(round(44 * scale))
        head = self.horizontalHeader()
        head.setMinimumSectionSize(24)
        head.setSectionResizeMode(READING, QHeaderView.ResizeMode.Stretch)
        for column, wide in ((VALUE_AT, 104), (FITS, 84)):
            head.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
            head.resizeSection(column, round(wide * scale))
        self.viewport().update()

    @property
    def chosen(self) -> str | None:
        """The id of the chosen reading."""
        row = self.currentIndex().row()
        return self.readings.rows[row].reading.id if 0 <= row < len(self.readings.rows) else None

    def go(self, row: int) -> None:
        """Choose the reading of a row."""
        if 0 <= row < len(self.readings.rows):
            self.setCurrentIndex(self.readings.index(row, VALUE_AT))

    def go_on(self, row: int, step: int) -> None:
        """Choose the next reading that has a number to type, on from a row; where there is none, the next."""
        rows = self.readings.rows
        ahead = range(row + step, len(rows) if step > 0 else -1, step)
        self.go(next((at for at in ahead if rows[at].takes_value), row + step))

    def keyboardSearch(self, _search: str) -> None:
        """Letters and figures are values here, never a search that would leave the chosen reading."""

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.viewport().update()

    def go_to(self, reading_id: str) -> None:
        """Choose a reading by its id."""
        for at, row in enumerate(self.readings.rows):
            if row.reading.id == reading_id:
                self.go(at)
                self.scrollTo(self.readings.index(at, VALUE_AT))

    def refresh(self) -> None:
        """Take over the document, keeping the chosen reading."""
        kept = self.chosen
        self.readings.refresh()
        if kept and self.chosen != kept:
            self.go_to(kept)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Notes that come up below leave less room: the chosen reading stays visible."""
        super().resizeEvent(event)
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        row = self.currentIndex().row()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.go_on(row, 1)
            return
        if event.key() == Qt.Key.Key_Escape and 0 <= row < len(self.readings.rows) and self.readings.rows[row].wrong:
            self.cells.give_up()
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
            self.reading_chosen.emit(self.chosen)
