"""The readings as the Measure card's table shows them: a **line** each, with how well it fits, under a line for each
group that says how many of it are taken. A group that is folded shows its own line only.
"""

from collections import Counter
from functools import lru_cache
from typing import Any, NamedTuple

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from app.desk.document.document import Document
from app.edit import list_answers
from app.edit.measure.reading_groups import Group, counted, group_of, grouped, in_groups
from app.edit.typing_visit import Refused, drop_stale
from geometry import units, words
from geometry.job import Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import SHAPES
from geometry.layout import Fit, accused_in_order
from geometry.units import Unit

Index = QModelIndex | QPersistentModelIndex
HEADS = ("Reading", "as read", "with", "fits")
READING, VALUE_AT, TOOL, FITS = range(4)


class Head(NamedTuple):
    """The line of a group: how many are taken of how many, and whether its readings are folded away."""

    group: Group
    taken: int
    of: int
    folded: bool
    suspect: bool

    @property
    def counted(self) -> str:
        return f"{self.taken or 'none'} of {self.of}"

    def said(self) -> str:
        """The line in words."""
        again = ", one to look at again" if self.suspect else ""
        return f"{self.group}, {self.counted} taken, {'folded' if self.folded else 'open'}{again}"


UNCHECKED = "a slip would not show"
"""What is said of a reading that no other checks, or hardly."""


SHARES = "look again, number {} of the {} of which one is out"
"""What is said of a reading that is accused with others, in the order in which they are to be read again: how much of
the slip falls to it tells nothing.
"""


class Row(NamedTuple):
    """What one row shows."""

    reading: Reading
    name: str
    how: str
    tool: str
    value: str
    fits: tuple[Fit, ...]
    suspect: bool
    wrong: str
    turn: int = 0
    """Its number among readings of which one is out, in the order in which they are to be read again; else 0."""
    turns: int = 0

    @property
    def group(self) -> Group:
        return group_of(self.reading)

    @property
    def plain(self) -> tuple[object, ...]:
        """What can be seen besides how it fits."""
        return *self[:5], self.suspect, self.wrong, self.turn, self.turns

    @property
    def takes_value(self) -> bool:
        """Whether there is a number to type, or a question to answer."""
        return bool(SHAPES[self.reading.kind].values or self.reading.asked) and not self.reading.struck

    @property
    def waits(self) -> bool:
        """Whether it is still to be measured."""
        return not (self.reading.taken or self.reading.struck)

    @property
    def shown(self) -> str:
        """What stands in the value's cell where nobody types: the value, or the question."""
        return self.value or list_answers.question(self.reading)

    @property
    def worst(self) -> Fit | None:
        """The fit that is farthest from believable."""
        return max(self.fits, key=lambda f: abs(f.residual) / f.believable if f.believable else 0.0, default=None)

    @property
    def looks(self) -> tuple[tuple[float, float, bool], ...]:
        """What of the fits can be seen: hundredths of a mm, and of what is believable; whether a slip would show."""
        return tuple((round(f.residual, 2), round(f.residual / (f.believable or 1.0), 2), f.checked) for f in self.fits)

    @property
    def lacks(self) -> str:
        """What is said of a value's cell that is empty, to those who don't see it."""
        asks = list_answers.question(self.reading)
        if asks:
            return f"{asks} Not answered"
        return "still to be measured" if SHAPES[self.reading.kind].values else "yes"

    def said(self, unit: Unit = "mm") -> str:
        """How the reading fits, in words."""
        worst = self.worst
        if self.reading.struck:
            return "struck out"
        if self.wrong:
            return "wrong entry, the last good value is used"
        if self.reading.asked:
            return "not answered"
        if worst is None:
            return "still to be measured" if not self.reading.taken else "not worked out yet"
        if not (worst.checked or self.suspect):
            return UNCHECKED
        if self.turn:
            return SHARES.format(self.turn, self.turns)
        how = "look again, " if self.suspect else "fits, "
        much = words.much(self.reading, worst.residual) or f"{units.show_off(abs(worst.residual), unit)} {unit}"
        return f"{how}{much} {'less' if worst.residual > 0 else 'more'} than the others say"


Named = tuple[str, str, str]


@lru_cache(maxsize=2048)
def _named(reading: Reading, hand: Hand, unit: Unit) -> Named:
    """A reading's name, in smaller letters how it is taken, and with what."""
    return *words.reading_parts(reading, hand), words.tool(reading, unit)


def _told_apart(named: list[Named]) -> list[Named]:
    """The same, with which one it is behind the name of each of those called alike: the second of two."""
    alike, seen = Counter(names[:2] for names in named), Counter[tuple[str, str]]()
    told = []
    for name, how, tool in named:
        seen[name, how] += 1
        many = alike[name, how]
        which = f"{seen[name, how]} of {many}" if many > 1 else ""
        told.append((name, ", ".join(filter(None, (how, which))), tool))
    return told


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
        self.refused: dict[str, Refused] = {}
        """Entries that cannot be, by the reading's id."""
        document.started.connect(self._begin)
        self.refresh()

    def in_force(self, reading_id: str) -> str | None:
        """A reading's value in the job, as it would be typed, or what is asked; None where there is no such reading."""
        job = self.document.job
        found = next((r for r in job.readings if r.id == reading_id), None)
        return None if found is None else words.value(found, job.unit) or list_answers.question(found)

    def _begin(self) -> None:
        self.refused.clear()
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

    def group_line(self, at: int) -> int:
        """The line of the group that the reading at a place in `rows` is in."""
        group = self.rows[at].group
        return next(line for line, shown in enumerate(self.lines) if isinstance(shown, Head) and shown.group == group)

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
        named = _told_apart([_named(r, job.hand, job.unit) for r in readings])
        return [
            Row(
                r,
                *names,
                self.refused[r.id].text if r.id in self.refused else words.value(r, job.unit),
                tuple(fits.get(r.id, ())),
                r.id in self.again,
                self.refused[r.id].why if r.id in self.refused else "",
                turns.get(r.id, 0),
                len(turns),
            )
            for r, names in zip(readings, named, strict=True)
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
            return f"{full}: {cells[FITS]}" if index.column() in (READING, FITS) else words.fineness(row.reading)
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
