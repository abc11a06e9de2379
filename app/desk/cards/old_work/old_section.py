"""One kind of old work on its card: what is known of it, its sizes, and the three ways of entering it.

It folds; while it is folded, its line says what is known.
"""

from collections.abc import Callable
from typing import assert_never

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.cards.form import Form
from app.desk.cards.form_rows import unfold_to
from app.desk.cards.list_of_points import ListOfPoints
from app.desk.cards.ways_of_entry import WaysOfEntry
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.buttons import plain_button
from app.desk.widgets.inputs.fields import Field, typed_length, understood
from app.desk.widgets.look import Look
from app.desk.widgets.tab_order import tab_down_again
from app.edit.bridge import standing_entries
from app.edit.edits import Get, Put
from app.edit.old_work import hole_sizes, old_entries, old_told
from app.edit.old_work.old_kinds import OLD_KINDS, OldKind, groups, points_of
from app.edit.usual_sizes import usual
from geometry import units, words
from geometry.job import Job, OldMetal
from geometry.layout import Layout
from geometry.units import Length
from geometry.words import first_small

Rows = Callable[[Form, Job], None]
"""What puts the rows of a kind's sizes into a form."""
NOTHING = "Nothing read yet."
MARKS = "None; the old feet’s marks are on the Bridge card."
CLEAR = "Kept clear round its middle"
METAL = (
    "Half its width, and what drill and cutter must keep off it. Of a plate, half of its diagonal: read it to its "
    "middle, where both diagonals cross. Read a long plate as two or three pieces in a row."
)


class OldSection(QWidget):
    """Signals: those of its ways of entry."""

    measuring = Signal(str)
    pointing = Signal(str, object)
    wrong = Signal(str)

    def __init__(self, document: Document, look: Look, kind: OldKind, title: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.kind = document, kind
        self.fold = Fold(title, look, self, self._fill)
        self.fold.column.setContentsMargins(0, 8, 0, 12)
        self.clear: ClearOfMetal | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.fold)

    def _fill(self) -> None:
        self.missing = label("", "label", self.fold.inside)
        self.rows = OldRows(self.document, self.kind, self.fold.inside)
        if self.kind == "metal":
            self.clear = ClearOfMetal(self.document, self.fold.inside)
        self._add_ways()
        for widget in (self.missing, self.rows, self.clear, self.ways):
            if widget is not None:
                self.fold.column.addWidget(widget)
        self._refresh_rows()

    def _add_ways(self) -> None:
        says = OLD_KINDS[self.kind].says
        self.ways = WaysOfEntry(self.document, self.kind, self.fold.inside, self.finish)
        self.read, self.point, self.typed = self.ways.read, self.ways.point, self.ways.typed
        self.leave = plain_button("Leave out", f"Takes {says} and its readings out of the job", self.ways)
        self.leave.setAccessibleName(f"Leave out {says}")
        self.ways.row.insertWidget(3, self.leave)
        self.leave.clicked.connect(self._leave_out)
        for mine, told in (
            (self.ways.measuring, self.measuring),
            (self.ways.pointing, self.pointing),
            (self.ways.wrong, self.wrong),
        ):
            mine.connect(told)

    @property
    def list(self) -> ListOfPoints | None:
        """The list that is typed, once it was asked for."""
        return self.ways.list

    def finish(self, made: Job) -> Job:
        """The job that new old work was put into, with what was said of it before it was read."""
        return self.clear.finish(made) if self.clear is not None else made

    def _leave_out(self) -> None:
        names = groups(self.document.job, self.kind)
        group = names[-1] if names else ""  # of several the one that came last
        made = old_entries.leave_out(self.document.job, self.kind, group)
        self.document.edit(f"leaving out {OLD_KINDS[self.kind].says}", made)

    def refresh(self) -> None:
        job, layout = self.document.job, self.document.layout
        known = old_told.known(job, self.kind, layout)
        elsewhere = self.kind == "footprint" and standing_entries.has_marks(job)
        self.fold.say(f"{words.first_large(known)}." if known else MARKS if elsewhere else NOTHING)
        if self.fold.is_filled:
            self._refresh_rows()

    def _refresh_rows(self) -> None:
        job, layout = self.document.job, self.document.layout
        missing = old_told.missing(job, layout, self.kind)
        self.missing.setText(missing)
        self.missing.setVisible(bool(missing))
        self.leave.setVisible(bool(points_of(job, self.kind)))
        if self.clear is not None:
            self.clear.refresh()
        self.rows.refresh()

    def go_to(self, where: str) -> bool:
        """Unfold it and go to one of its fields, if it has it."""
        self.fold.fill()
        return self.rows.form is not None and unfold_to(self.fold, self.rows.form, where)

    def show_look(self, look: Look) -> None:
        self.fold.show_look(look)


class ClearOfMetal(QWidget):
    """What is to be kept clear round metal that is about to be added; where nothing is typed, what is usual."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.document = document
        self.keep_out: Length | None = None
        self.field = Field("", self._put, describe=METAL, understood=self._understood, parent=self)
        self.field.line.setProperty("in_form", True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(self.field)
        column.addWidget(label(METAL, "label", self))
        document.started.connect(self._forget)

    def refresh(self) -> None:
        job = self.document.job
        assumed = usual(OldMetal(), job.unit).keep_out
        self.field.show_name(CLEAR if not points_of(job, "metal") else f"The next metal, {first_small(CLEAR)}")
        self.field.show_usual(f"assumed: {units.with_unit(assumed)}")

    def finish(self, made: Job) -> Job:
        """The job with it said of the metal that has come."""
        if self.keep_out is not None:
            made = old_entries.keep_clear(self.document.job, made, self.keep_out)
            self._forget()
        return made

    def _understood(self, text: str) -> str:
        return understood(self.document.job.unit)(text)

    def _put(self, text: str, _word: str) -> None:
        keep_out = typed_length(text, self.document.job.unit) if text.strip() else None
        if keep_out is not None:
            OldMetal(keep_out=keep_out)  # says why where it cannot be
        self.keep_out = keep_out

    def _forget(self) -> None:
        self.keep_out = None
        self.field.forget()


class OldRows(QWidget):
    """The sizes of one kind, made anew when another hole, area or brace comes."""

    def __init__(self, document: Document, kind: OldKind, parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.kind = document, kind
        self.names: tuple[str, ...] | None = None
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(12)
        self.holder: QWidget | None = None
        self.form: Form | None = None
        self.assumed = label("", "label", self)
        self.column.addWidget(self.assumed)
        self.setAccessibleName(f"Sizes: {OLD_KINDS[kind].says}")

    def refresh(self) -> None:
        job = self.document.job
        names = groups(job, self.kind) if OLD_KINDS[self.kind].grouped else points_of(job, self.kind)
        if names != self.names:
            self._make(names)
        if self.form is not None:
            self.form.refresh()
        said = assumed_said(self.document.layout) if self.kind == "pins" else ""
        self.assumed.setText(said)
        self.assumed.setVisible(bool(said))
        self.setVisible(bool(said) or (self.form is not None and self.form.column.count() > 0))

    def _make(self, names: tuple[str, ...]) -> None:
        self.names = names
        if self.holder is not None:
            self.holder.hide()
            self.holder.deleteLater()
        self.holder = QWidget(self)
        inner = QVBoxLayout(self.holder)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(self.column.spacing())
        self.column.insertWidget(0, self.holder)
        self.form = Form(self.document, inner, self.holder)
        add_rows(self.form, self.kind, names)
        self.holder.setVisible(bool(inner.count()))
        tab_down_again(self.holder)


def add_rows(form: Form, kind: OldKind, names: tuple[str, ...]) -> None:
    """A row for each size of a kind."""
    if kind == "pins":
        says = "How many stood there in all. Those between two that were read are taken as evenly spaced."
        form.optional_number("Holes in the row", old_entries.row_of, old_entries.row_put, says=says, key="old.row")
    for name in names:
        match kind:
            case "pins":
                form.length(_named(name, "diameter"), *diameter_of(form, name), key=f"old.{name}")
            case "metal":
                field = old_entries.old_field(name)
                form.length(_named(name, first_small(CLEAR)), *field, key=f"old.{name}")
            case "holes":
                form.length(_named(name, "diameter"), *diameter_of(form, name), key=f"old.{name}")
                says = "Empty: it goes through the top."
                form.length(_named(name, "depth"), *old_entries.depth_field(name), optional=True, says=says)
            case "area":
                choices = [("discoloured", "discoloured"), ("damaged", "damaged")]
                form.choice(
                    words.first_large(words.area(name)), choices, *old_entries.damage(name), key=f"old.area.{name}"
                )
            case "brace":
                called = f"{words.first_large(words.brace(name))}, width"
                form.length(called, *old_entries.brace_width(name), key=f"old.brace.{name}")
            case "footprint" | "slot" | "bare" | "plate":
                pass
            case _:
                assert_never(kind)
    if kind == "slot" and names:
        form.length("Width", *old_entries.slot_width(), key="old.slot")


def diameter_of(form: Form, name: str) -> tuple[Get, Put]:
    """An old hole's diameter: by its rims as the layout has it, else as it is typed."""
    return hole_sizes.by_rims(name, old_entries.old_field(name), lambda: form.document.layout)


def _named(name: str, what: str) -> Callable[[Job], str]:
    return lambda job: f"{words.first_large(words.point(name, job.hand))}, {what}"


def assumed_said(layout: Layout | None) -> str:
    """Which of the row's holes nobody read, with their diameters."""
    count = sum(hole.assumed for hole in layout.old.pins) if layout else 0
    if not count:
        return ""
    return f"{count} between them assumed: evenly spaced, crossed out on the plan, until they are read."
