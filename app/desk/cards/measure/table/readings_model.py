"""The readings as the Measure card's table shows them: a **line** each, with how well it fits, under a line for each
group that says how many of it are taken. A group that is folded shows its own line only.
"""

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from app.desk.cards.measure.table.reading_row import Head, Row, named, told_apart
from app.desk.document.document import Document
from app.edit import list_answers
from app.edit.measure.reading_groups import Group, counted, grouped, in_groups
from app.edit.measure.where_enter_leads import Looked
from app.edit.typing_visit import Refused, drop_stale
from geometry import words
from geometry.job import Reading
from geometry.layout import Fit, accused_in_order

Index = QModelIndex | QPersistentModelIndex
HEADS = ("Reading", "as read", "with", "fits")
READING, VALUE_AT, TOOL, FITS = range(4)


class Readings(QAbstractTableModel):
    """The readings as a table model."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.rows: list[Row] = []
        """All readings, group by group, folded away or not."""
        self.lines: list[Head | int] = []
        """What is shown: a group's line, or a reading by its place in `rows`."""
        self.folded: set[Group] = set()
        self.again: tuple[str, ...] = ()
        """The readings to look at again, by their ids, in the order in which they are named."""
        self.looked = Looked()
        """Those of them that were looked at since."""
        self.refused: dict[str, Refused] = {}
        """Entries that cannot be, by the reading's id."""
        document.started.connect(self._begin)
        self.refresh()

    def in_force(self, reading_id: str) -> str | None:
        """A reading's value in the job, as it would be typed, or what is asked; None where there is no such reading."""
        job = self.document.job
        found = next((r for r in job.readings if r.id == reading_id), None)
        if found is None:
            return None
        return words.value_and_side(found, job.unit, job.hand) or list_answers.question(found)

    def _begin(self) -> None:
        self.refused.clear()
        self.looked = Looked()
        self.folded.clear()

    def row_at(self, line: int) -> Row | None:
        """The reading that a line shows; None for a group's line, and where there is none."""
        shown = self.lines[line] if 0 <= line < len(self.lines) else None
        return self.rows[shown] if isinstance(shown, int) else None

    def head_at(self, line: int) -> Head | None:
        """The group whose line this is."""
        shown = self.lines[line] if 0 <= line < len(self.lines) else None
        return shown if isinstance(shown, Head) else None

    def place(self, line: int) -> int:
        """The place in `rows` of the reading that a line shows; of a group, of the reading before its first; -1 where
        there is none.
        """
        return next((at for at in reversed(self.lines[: line + 1]) if isinstance(at, int)), -1) if line >= 0 else -1

    def line_of(self, at: int) -> int:
        """The line that shows the reading at a place in `rows`; -1 where its group is folded."""
        return self.lines.index(at) if at in self.lines else -1

    def suspect_at(self, point: str) -> str:
        """The id of the first reading of a point that is to be looked at again; empty where there is none."""
        return next((row.reading.id for row in self.rows if row.suspect and point in row.reading.of), "")

    def group_line(self, at: int) -> int:
        """The line of the group that the reading at a place in `rows` is in."""
        group = self.rows[at].group
        return next(line for line, shown in enumerate(self.lines) if isinstance(shown, Head) and shown.group == group)

    def behind(self, at: int) -> Reading | None:
        """The reading behind the one at a place in `rows`, folded away or not."""
        return self.rows[at + 1].reading if 0 <= at < len(self.rows) - 1 else None

    def first_to_type(self, group: Group) -> int:
        """The place in `rows` of a group's first reading that waits, else of its first."""
        own = [at for at, row in enumerate(self.rows) if row.group == group]
        return next((at for at in own if self.rows[at].waits), own[0])

    def fold(self, group: Group, *, away: bool) -> None:
        """Fold a group's readings away, or show them again."""
        if away != (group in self.folded):
            (self.folded.add if away else self.folded.discard)(group)
            self.beginResetModel()
            self.lines = self._lined(self.rows)
            self.endResetModel()

    def refresh(self) -> None:
        """Take over the document's job; rows that stay keep the selection."""
        drop_stale(self.refused, self.in_force)
        made, before, lines = self._made(), self.rows, self.lines
        made_lines = self._lined(made)
        same = [row.reading.id for row in made] == [row.reading.id for row in before]
        if not same or len(made_lines) != len(lines):  # the job opened anew has no group folded
            self.beginResetModel()
            self.rows, self.lines = made, made_lines
            self.endResetModel()
            return
        self.rows, self.lines = made, made_lines
        for at, (new, old) in enumerate(zip(made, before, strict=True)):
            line = self.line_of(at)
            if line < 0:
                continue
            if new.plain != old.plain:
                self.dataChanged.emit(self.index(line, 0), self.index(line, FITS))
            elif new.looks != old.looks:
                self.dataChanged.emit(self.index(line, FITS), self.index(line, FITS))
        for line, (shown, was) in enumerate(zip(self.lines, lines, strict=True)):
            if isinstance(shown, Head) and shown != was:
                self.dataChanged.emit(self.index(line, 0), self.index(line, FITS))

    def _lined(self, rows: list[Row]) -> list[Head | int]:
        """The lines to show of rows."""
        places = {row.reading.id: at for at, row in enumerate(rows)}
        lines: list[Head | int] = []
        for group, members in grouped(row.reading for row in rows).items():
            at = [places[reading.id] for reading in members]
            suspect = any(rows[place].suspect for place in at)
            lines.append(Head(group, *counted(members), group in self.folded, suspect))
            lines += () if group in self.folded else at
        return lines

    def _made(self) -> list[Row]:
        job, layout = self.document.job, self.document.layout
        fits: dict[str, list[Fit]] = {}
        self.again, turns = (), dict[str, int]()
        if layout is not None:
            for fit in layout.readings:
                fits.setdefault(fit.id, []).append(fit)
            turns = {name: turn for group in layout.survey.groups for turn, name in enumerate(group, 1)}
            self.again = accused_in_order(layout.survey)
        readings = in_groups(job.readings)
        names_of = told_apart([named(r, job.hand, job.unit) for r in readings])
        return [
            Row(
                r,
                *names,
                self.refused[r.id].text if r.id in self.refused else words.value_and_side(r, job.unit, job.hand),
                tuple(fits.get(r.id, ())),
                r.id in self.again,
                self.refused[r.id].why if r.id in self.refused else "",
                turns.get(r.id, 0),
                len(turns),
            )
            for r, names in zip(readings, names_of, strict=True)
        ]

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.lines)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(HEADS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return HEADS[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            left, right, middle = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight, Qt.AlignmentFlag.AlignHCenter
            return (left, right, left, middle)[section] | Qt.AlignmentFlag.AlignVCenter
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        head, row = self.head_at(index.row()), self.row_at(index.row())
        shown = role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole)
        if head is not None:
            spoken = shown or role == Qt.ItemDataRole.AccessibleTextRole
            return head.said() if spoken and index.column() == READING else None
        if row is None:
            return None
        full = ", ".join(part for part in (row.name, row.how) if part)
        cells = (full, row.value, row.tool, row.said(self.document.job.unit))
        if shown:
            return cells[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            where = "".join(f"\n{sentence}" for sentence in words.where_read(row.reading))
            fits = f"{full}: {cells[FITS]}{where}"
            return fits if index.column() in (READING, FITS) else words.fineness(row.reading)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{full}, {HEADS[index.column()]}: {cells[index.column()] or row.lacks}"
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        row = self.row_at(index.row())
        if row is None:
            return Qt.ItemFlag.ItemIsEnabled
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        if index.column() == VALUE_AT and not row.reading.struck:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags
