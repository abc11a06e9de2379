"""The table of readings, filled with the keyboard alone: a value, Enter, the next; several are chosen, groups fold."""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QWidget

from app.desk.cards.measure.table import columns
from app.desk.cards.measure.table.name_lines import line_height
from app.desk.cards.measure.table.reading_cells import ReadingCells
from app.desk.cards.measure.table.readings_model import READING, TOOL, VALUE_AT, Index, Readings
from app.desk.document.document import Document
from app.desk.widgets.look import Look
from app.desk.widgets.words.whole_lines import WholeLines
from app.edit.measure import where_enter_leads
from app.edit.measure.reading_groups import Group
from app.edit.measure.where_enter_leads import Stay


class ReadingTable(WholeLines):
    """The table itself. Signals: `reading_chosen` with the reading's id when another line is chosen, empty on a
    group's; `pasted`; `full` when Enter found no reading that still waits, with whether that is so for the second time;
    `tool_pressed` with the place of its cell.
    """

    reading_chosen = Signal(str)
    pasted = Signal()
    full = Signal(bool)
    tool_pressed = Signal(QPoint)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(look, parent)
        self.readings = Readings(document, self)
        self.setModel(self.readings)
        self.cells = ReadingCells(look, self, self)
        self.setItemDelegate(self.cells)
        self.setAccessibleName("Readings")
        self.setAccessibleDescription(
            "Type a value and press Enter for the next; Escape takes it back. Shift with Up and Down chooses several; "
            "Left and Right fold a group"
        )
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked)
        self.setMinimumHeight(1)  # whatever stands under it, the window stays as low as it was
        self.setShowGrid(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerItem)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setSectionsClickable(False)
        self.horizontalHeader().setHighlightSections(False)
        self.stay = Stay()
        self._in_box = False
        """Whether a click into its value's box took the row in hand."""
        self.cells.settled.connect(self._typed)
        self.readings.modelReset.connect(self._fit_rows)
        self.show_look(look)
        self.selectionModel().currentRowChanged.connect(self._row_changed)

    def show_look(self, look: Look) -> None:
        self.look = self.cells.look = look
        columns.lay(self, look)
        self._make_room()
        self.viewport().update()

    def _make_room(self) -> None:
        """Where names would be cut short the tool gives way: it is told of the reading in hand under the table."""
        self.setColumnHidden(TOOL, not columns.room_for_the_tool(self.viewport().width(), self.look.text_scale))
        self._fit_rows()

    def _fit_rows(self) -> None:
        """A row is as high as the lines of its name ask for."""
        head, look = self.verticalHeader(), self.look
        single, more = head.defaultSectionSize(), round(line_height(look))
        for line in range(len(self.readings.lines)):
            row = self.readings.row_at(line)
            high = single + (more * (len(self.cells.lines_of(row)) - 1) if row is not None else 0)
            if head.sectionSize(line) != high:
                head.resizeSection(line, high)

    @property
    def at(self) -> int:
        """The chosen reading's place among all of them; on a group's line, or on none, -1."""
        line = self.currentIndex().row()
        return self.readings.place(line) if self.readings.row_at(line) is not None else -1

    @property
    def chosen(self) -> str | None:
        """The id of the chosen reading."""
        return self.readings.rows[self.at].reading.id if self.at >= 0 else None

    @property
    def all_chosen(self) -> list[str]:
        """The ids of all readings chosen, from top to bottom; where none is selected, of the one in hand."""
        lines = sorted(index.row() for index in self.selectionModel().selectedRows())
        rows = [row for row in map(self.readings.row_at, lines) if row is not None]
        return [row.reading.id for row in rows] or ([self.chosen] if self.chosen else [])

    @property
    def group(self) -> str:
        """The group whose line is chosen, as it is said; empty on a reading."""
        head = self.readings.head_at(self.currentIndex().row())
        return head.said() if head is not None else ""

    def go(self, at: int) -> None:
        """Choose the reading at a place among all of them; its group is opened for it."""
        if 0 <= at < len(self.readings.rows):
            if self.readings.line_of(at) < 0:
                self.readings.fold(self.readings.rows[at].group, away=False)
            self._take(self.readings.line_of(at))

    def _take(self, line: int) -> None:
        """Choose one line alone, whatever keys are held."""
        flag = QItemSelectionModel.SelectionFlag
        index = self.readings.index(line, VALUE_AT)
        self.selectionModel().setCurrentIndex(index, flag.ClearAndSelect | flag.Rows)

    def go_on(self, at: int, step: int) -> None:
        """Choose the reading that Enter leads to from a place. Where that is none, the list is full, and the hand
        stays: it is told so, and once more where Enter is pressed again.
        """
        readings = self.readings
        if step > 0:
            readings.looked = readings.looked.while_accused(readings.again).behind(readings.rows[at].id, self.stay)
        place = where_enter_leads.lead(readings.rows, at, step, self.stay, readings.again, readings.looked.done)
        if place is None:
            before, self.stay = self.stay, self.stay._replace(full=True)
            self.full.emit(before.full)
        elif step > 0 and readings.rows[place].id in readings.again:
            self.visit(readings.rows[place].id)
            self.setFocus()
        else:
            self.go(place)

    @property
    def typing(self) -> bool:
        """Whether a value is being typed."""
        return self.state() == QAbstractItemView.State.EditingState

    def _typed(self, reading_id: str, _text: str) -> None:
        """A value was typed: where its reading was to be looked at again, it has been."""
        self.stay = self.stay._replace(typed=True, full=False)
        if self.stay.visited and reading_id == self.chosen:
            self.readings.looked = self.readings.looked.while_accused(self.readings.again).typed(reading_id)

    def currentChanged(self, now: Index, before: Index) -> None:
        """The value is in hand whatever of a line was pressed, and wherever Home and End go: there it is typed."""
        super().currentChanged(now, before)
        self._in_box = False
        if now.isValid() and now.column() != VALUE_AT:
            value = self.readings.index(now.row(), VALUE_AT)
            self.selectionModel().setCurrentIndex(value, QItemSelectionModel.SelectionFlag.NoUpdate)

    def keyboardSearch(self, _search: str) -> None:
        """Letters and figures are values here, never a search."""

    def visit(self, reading_id: str) -> None:
        """Choose a reading to look at it again: behind it Enter goes to the next that is to be looked at again, and
        behind the last of these back to what still waits.
        """
        self.go_to(reading_id)
        self.stay = self.stay._replace(visited=True)

    def go_to(self, reading_id: str) -> None:
        """Choose a reading by its id."""
        for at, row in enumerate(self.readings.rows):
            if row.reading.id == reading_id:
                self.go(at)
                self._bring_into_sight()

    def fold(self, line: int, *, away: bool) -> None:
        """Fold the group of a line away, or open it; the group's line is chosen."""
        head, row = self.readings.head_at(line), self.readings.row_at(line)
        group: Group | None = head.group if head else row.group if row else None
        if group is None:
            return
        self.readings.fold(group, away=away)
        heads = (at for at in range(len(self.readings.lines)) if (h := self.readings.head_at(at)) and h.group == group)
        self._take(next(heads))

    def refresh(self) -> None:
        """Take over the document, keeping the chosen readings."""
        kept, several, stay = self.chosen, self.all_chosen, self.stay
        self.readings.refresh()
        self._fit_rows()
        if kept and self.chosen != kept:
            self.go_to(kept)
            lines = [
                self.readings.line_of(at) for at, row in enumerate(self.readings.rows) if row.reading.id in several
            ]
            shown = [line for line in lines if line >= 0] if len(several) > 1 else []
            for line in shown[:1]:
                self._take(line)  # the first of several is the one in hand
            for line in shown:
                flag = QItemSelectionModel.SelectionFlag
                self.selectionModel().select(self.readings.index(line, VALUE_AT), flag.Select | flag.Rows)
            self.stay = stay
        self.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Notes that come up below leave less room: the chosen reading stays visible."""
        super().resizeEvent(event)
        self._make_room()
        if self.currentIndex().isValid():
            self._bring_into_sight()

    def _bring_into_sight(self) -> None:
        """The chosen line, and where there is room its group's line above the first of a group."""
        above = self.currentIndex().row() - 1
        if above >= 0 and self.readings.head_at(above) is not None:
            self.scrollTo(self.readings.index(above, READING))
        self.scrollTo(self.currentIndex())

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A group's line is folded by a click on it, and what a reading was read with is chosen by one on its cell."""
        index, left = self.indexAt(event.position().toPoint()), event.button() == Qt.MouseButton.LeftButton
        head, plain = self.readings.head_at(index.row()), not event.modifiers()
        if left and head is not None:
            self.fold(index.row(), away=not head.folded)
            return
        there = index.row() == self.currentIndex().row()
        super().mousePressEvent(event)
        self._in_box = left and plain and index.column() == VALUE_AT
        if left and plain and index.isValid() and index.column() == TOOL:
            self.tool_pressed.emit(self.viewport().mapToGlobal(self.visualRect(index).bottomLeft()))
        elif left and plain and there and index.column() == VALUE_AT:
            self.edit(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        line = self.currentIndex().row()
        head, row = self.readings.head_at(line), self.readings.row_at(line)
        keys = Qt.Key
        enter = event.key() in (keys.Key_Return, keys.Key_Enter)
        if head is not None and (enter or event.key() == keys.Key_Space):
            self.fold(line, away=not head.folded)
        elif enter:
            self.go_on(self.at, 1)
        elif event.key() == keys.Key_Escape and row is not None and row.wrong:
            self.cells.give_up()
        elif event.matches(QKeySequence.StandardKey.SelectAll) and row is not None and (row.wrong or self._in_box):
            self.edit(self.currentIndex())  # what stands in the box, not all readings
        elif event.key() in (keys.Key_Left, keys.Key_Right):
            self._fold_by(event.key() == keys.Key_Left, line)
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.pasted.emit()
        elif event.matches(QKeySequence.StandardKey.MoveToStartOfDocument):
            self.go(0)
        else:
            if head is not None and event.text().isprintable() and event.text():
                self.go(self.readings.first_to_type(head.group))
            super().keyPressEvent(event)

    def _fold_by(self, left: bool, line: int) -> None:
        """Left on a reading goes to its group, on a group folds it; Right opens it."""
        if self.readings.head_at(line) is not None:
            self.fold(line, away=left)
        elif left and self.at >= 0:
            self._take(self.readings.group_line(self.at))

    def _row_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        row = self.readings.row_at(now.row())
        self.stay = Stay(row is not None and row.waits, row is not None and row.suspect)
        self.viewport().update()
        self.reading_chosen.emit(self.chosen or "")
