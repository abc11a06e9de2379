"""The readings as the Measure card's table shows them: one row each, with how well it fits."""

from functools import lru_cache
from typing import Any, NamedTuple

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from app.desk.document.document import Document
from app.edit import list_answers
from app.edit.typing_visit import Refused, drop_stale
from geometry import words
from geometry.job import Reading
from geometry.job.job import Hand
from geometry.job.kinds import SHAPES
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
    def takes_value(self) -> bool:
        """Whether there is a number to type, or a question to answer."""
        return bool(SHAPES[self.reading.kind].values or self.reading.asked) and not self.reading.struck

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
        """What of the fits can be seen: hundredths of a mm, and of what is believable; whether anything checks it."""
        return tuple(
            (round(f.residual, 2), round(f.residual / (f.believable or 1.0), 2), f.w is None) for f in self.fits
        )

    @property
    def lacks(self) -> str:
        """What is said of a value's cell that is empty, to those who don't see it."""
        asks = list_answers.question(self.reading)
        if asks:
            return f"{asks} Not answered"
        return "still to be measured" if SHAPES[self.reading.kind].values else "yes"

    def said(self) -> str:
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
        if worst.w is None:
            return "nothing checks it"
        how = "look again, " if self.suspect else "fits, "
        much = words.much(self.reading, worst.residual) or f"{abs(worst.residual):.2f} mm"
        return f"{how}{much} {'less' if worst.residual > 0 else 'more'} than the others say"


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
        self.refused: dict[str, Refused] = {}
        """Entries that cannot be, by the reading's id."""
        document.started.connect(self.refused.clear)
        self.refresh()

    def in_force(self, reading_id: str) -> str | None:
        """A reading's value in the job, as it would be typed, or what is asked; None where there is no such reading."""
        job = self.document.job
        found = next((r for r in job.readings if r.id == reading_id), None)
        return None if found is None else words.value(found, job.unit) or list_answers.question(found)

    def refresh(self) -> None:
        """Take over the document's job; rows that stay keep the selection."""
        drop_stale(self.refused, self.in_force)
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
            elif new.looks != old.looks:
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
                self.refused[r.id].text if r.id in self.refused else words.value(r, job.unit),
                tuple(fits.get(r.id, ())),
                r.id in suspects,
                self.refused[r.id].why if r.id in self.refused else "",
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
            return f"{row.name}, {HEADS[index.column()]}: {cells[index.column()] or row.lacks}"
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        row = self.rows[index.row()]
        if index.column() == VALUE_AT and not row.reading.struck:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags
