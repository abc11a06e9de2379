"""The table of a kept placement beside the present one: what it is, how it was, and how far it is from that now."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QLineF, QModelIndex, QObject, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from app.desk.widgets.look import TEXT, Look, colour
from geometry.placed.kept_told import HEADS, Row

Index = QModelIndex | QPersistentModelIndex
COLUMNS = (0, 1, 3)
"""Of a comparison's row, what there is room for: not how it is now, which stands all round."""
KEPT, NOW = 1, 2
SHARES = {KEPT: 0.3, NOW: 0.33}
"""What of the table's width the columns beside the names take at most; the names have what these need not."""
ROOM = 6
"""On either side of a cell's words, pixels."""
WRAPPED = int(Qt.TextFlag.TextWordWrap) | int(Qt.AlignmentFlag.AlignVCenter)


class ComparisonModel(QAbstractTableModel):
    """The rows it was last given."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.rows: tuple[Row, ...] = ()

    def show_rows(self, rows: Sequence[Row]) -> None:
        if tuple(rows) != self.rows:
            self.beginResetModel()
            self.rows = tuple(rows)
            self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(COLUMNS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role != Qt.ItemDataRole.DisplayRole:
            return None
        said = self.rows[index.row()][COLUMNS[self.shown_of(index)]]
        return said.replace(", ", ",\n") if self.shown_of(index) == NOW else said

    def shown_of(self, index: Index) -> int:
        """The column whose words a cell shows: where nothing was kept, what is now has the room of both."""
        return NOW if index.column() == KEPT and self.is_wide(index.row()) else index.column()

    def is_wide(self, row: int) -> bool:
        """Whether there is nothing kept to tell in a row."""
        return not self.rows[row][COLUMNS[KEPT]]

    def headerData(self, section: int, along: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if along != Qt.Orientation.Horizontal:
            return None
        match role:
            case Qt.ItemDataRole.DisplayRole:
                return HEADS[COLUMNS[section]]
            case Qt.ItemDataRole.TextAlignmentRole if section:
                return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None


class ComparisonCells(QStyledItemDelegate):
    """Paints a cell, its words on as many lines as they need."""

    def __init__(self, look: Look, table: QTableView) -> None:
        super().__init__(table)
        self.look, self.table = look, table

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        p, box = self.look.palette, QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.table.hasFocus() and index.row() == self.table.currentIndex().row():
            painter.fillRect(box.adjusted(0, 0, 0, -1), colour(p.row))
            if index.column() == self.table.currentIndex().column():
                painter.setPen(QPen(colour(p.worked_out), 1.6))
                painter.drawRoundedRect(box.adjusted(1, 2, -1, -3), 4, 4)
        painter.setPen(QPen(colour(p.hair), 1))
        low = box.bottom() - 0.5
        painter.drawLine(QLineF(box.left(), low, box.right(), low))
        painter.setFont(self.look.font(TEXT, bold=self._now(index)))
        painter.setPen(colour(p.ink))
        right = 0 if index.column() == 0 else int(Qt.AlignmentFlag.AlignRight)
        painter.drawText(box.adjusted(ROOM, 0, -ROOM, 0), WRAPPED | right, str(index.data()))
        painter.restore()

    def sizeHint(self, _option: QStyleOptionViewItem, index: Index) -> QSize:
        letters = QFontMetrics(self.look.font(TEXT, bold=self._now(index)))
        both = index.column() != 0 and self.table.columnSpan(index.row(), KEPT) > 1
        wide = sum(self.table.columnWidth(at) for at in ((KEPT, NOW) if both else (index.column(),))) - 2 * ROOM
        box = letters.boundingRect(0, 0, max(wide, 20), 1000, WRAPPED, str(index.data()))
        return QSize(wide, box.height() + 10)

    def _now(self, index: Index) -> bool:
        compared = index.model()
        assert isinstance(compared, ComparisonModel)
        return compared.shown_of(index) == NOW


class ComparisonTable(QTableView):
    """As high as its rows; nothing in it is typed."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.compared, self.cells = ComparisonModel(self), ComparisonCells(look, self)
        self.setModel(self.compared)
        self.setItemDelegate(self.cells)
        self.setAccessibleName("The present placement beside the kept one")
        self.setAccessibleDescription("Arrow keys move from cell to cell")
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.horizontalHeader().setSectionsClickable(False)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)

    def show_rows(self, rows: Sequence[Row]) -> None:
        self.compared.show_rows(rows)
        self.clearSpans()
        for row in filter(self.compared.is_wide, range(len(rows))):
            self.setSpan(row, KEPT, 1, 2)
        self._fit()

    def show_look(self, look: Look) -> None:
        self.cells.look = look
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._fit()

    def _fit(self) -> None:
        left = self.viewport().width()
        for column, share in SHARES.items():
            wide = min(int(share * self.viewport().width()), self._needs(column))
            self.setColumnWidth(column, wide)
            left -= wide
        self.setColumnWidth(0, left)
        self.resizeRowsToContents()
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + 4 + self.verticalHeader().length())

    def _needs(self, column: int) -> int:
        """What the longest line of a column and its head take."""
        letters = QFontMetrics(self.cells.look.font(TEXT, bold=column == NOW))
        own = (row for row in range(self.compared.rowCount()) if not self.compared.is_wide(row))
        said = [str(self.compared.index(row, column).data()) for row in own]
        longest = max((letters.horizontalAdvance(line) for words in said for line in words.split("\n")), default=0)
        return max(longest + 2 * ROOM + 2, self.horizontalHeader().sectionSizeHint(column))
