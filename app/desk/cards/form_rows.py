"""What all rows of a card have in common: where they stand, when they are shown and made, and how one is gone to."""

from collections.abc import Callable, Iterator
from typing import Self

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.card import bring_into_sight, words
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.fields import Field
from app.desk.widgets.made_later import MadeLater
from geometry.job import Job


class FormRows:
    """Rows one below the other in a column."""

    def __init__(self, document: Document, column: QVBoxLayout, parent: QWidget) -> None:
        self.document, self.column, self.parent = document, column, parent
        self._shows: list[Callable[[], None]] = []
        self._last = column
        self.fields: dict[str, QWidget] = {}
        self._inner: list[Self] = []
        """Rows whose fields are this form's as well."""
        self.later: MadeLater | None = None

    def fill(self) -> None:
        """Make its rows, if they are to be made later and are not made yet."""
        if self.later is not None:
            self.later.now()

    def refresh(self) -> None:
        for show in self._shows:
            show()

    def inner(self) -> Self:
        """Rows of their own under those so far, on a widget that shows or hides them all: its `parent`."""
        inside = QWidget(self.parent)
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(self.column.spacing())
        self.column.addWidget(inside)
        return type(self)(self.document, column, inside)

    def shown_while(self, wanted: Callable[[Job], bool], fill: Callable[[Self], object]) -> Self:
        """Rows of their own under those so far, shown while the job has a use for them; made by `fill` when it first
        has.
        """
        inner = self.inner()
        inner.later = MadeLater(inner.parent, lambda: fill(inner))

        def show() -> None:
            on = wanted(self.document.job)
            if on:
                inner.fill()
            inner.refresh()
            inner.parent.setVisible(on)

        self._shows.append(show)
        show()
        return inner

    def only(self, wanted: Callable[[Job], bool], fill: Callable[[Self], object]) -> None:
        """Rows under those so far, made by `fill` when the job first has a use for them and shown while it has; their
        fields are this form's as well.
        """

        def fill_here(rows: Self) -> None:
            rows.fields = self.fields
            fill(rows)

        self._inner.append(self.shown_while(wanted, fill_here))

    def go_to(self, where: str) -> bool:
        """Bring the field that a finding is about into view, ready to be typed into; whether there is one.

        `where` is `field:` and the key of the job file, or the beginning of one.
        """
        found = self._field(where)
        if found is None:
            return False
        target = found.line if isinstance(found, Field) else found
        bring_into_sight(found)
        target.setFocus(Qt.FocusReason.TabFocusReason)
        return True

    def has(self, where: str) -> bool:
        """Whether there is a field that a finding is about."""
        return self._field(where) is not None

    def _field(self, where: str) -> QWidget | None:
        key = where.removeprefix("field:")
        if key == where:
            return None
        self.fill()
        shown = (field for field in self._fields_of(key) if field.isVisibleTo(self.parent))
        if (found := next(shown, None)) is not None:
            return found
        for rows in self._inner:
            rows.fill()
        return next(self._fields_of(key), None)  # not seen: what was read elsewhere has no field

    def _fields_of(self, key: str) -> Iterator[QWidget]:
        return (widget for own, widget in self.fields.items() if f"{own}.".startswith(f"{key}."))

    def explain(self, label: QWidget) -> None:
        """A line close under the last row, where what it says changes with the job."""
        self._last.addWidget(label)

    def section(self, text: str, under: str = "") -> QWidget:
        """A heading over the rows that follow, with a line on why where it helps."""
        made = QWidget(self.parent)
        column = QVBoxLayout(made)
        column.setContentsMargins(0, 12, 0, 0)
        column.setSpacing(2)
        column.addWidget(words(text, "heading", made))
        if under:
            column.addWidget(words(under, "label", made))
        self.column.addWidget(made)
        return made


def unfold_to(fold: Fold, form: FormRows, where: str) -> bool:
    """Unfold a form and go to the field that a finding is about, if it has it; whether it has."""
    if not where.startswith("field:"):
        return False
    fold.fill()
    if not form.has(where):
        return False
    fold.set_open(True)
    return form.go_to(where)
