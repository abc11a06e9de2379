"""Holes anywhere: heel, strap, screws, jacks. Each is told in words and, where it was measured, by its point."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget

from app.desk.cards.form import Form
from app.desk.cards.headstock.sections import Section
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.inputs.fields import LONG
from app.desk.widgets.look import Look
from app.edit.headstock import hardware_entries as entries
from geometry.job import Job


class HolesSection(Section):
    """The list of them, with one more to be added at its end."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(
            document, look, "Other holes", (self._rows, lambda job: len(job.hardware.holes), _said), parent
        )
        self.add: QPushButton | None = None

    def _rows(self, form: Form, job: Job) -> None:
        for at in range(len(job.hardware.holes)):
            self._hole_rows(form, at)

    def _hole_rows(self, form: Form, at: int) -> None:
        name = f"Hole {at + 1}"
        form.section(name)
        form.text(f"{name}, where", *entries.other_field(at, "where"), key=f"hardware.holes.{at}")
        form.text(f"{name}, point", *entries.point_field(at), says="Where it was measured: its name or number.")
        form.length(f"{name}, diameter", *entries.other_field(at, "diameter"))
        form.length(f"{name}, depth", *entries.other_field(at, "depth"), optional=True, says="Empty: right through.")
        form.text(f"{name}, holds", *entries.other_field(at, "holds"))
        form.length(f"{name}, plug", *entries.other_field(at, "plug"), optional=True)
        grain = [("face", "face grain"), ("end", "end grain")]
        form.choice(f"{name}, the plug’s grain", grain, *entries.other_field(at, "grain"))
        form.tick(
            f"{name}: keep within reach",
            *entries.other_field(at, "reach"),
            says="Where something lies beneath, such as a rod’s nut.",
        )
        form.text(f"{name}, note", *entries.other_field(at, "note"), wide=LONG)
        remove = plain_button(f"Take hole {at + 1} off the list", "Takes it out of the job", form.parent)
        remove.clicked.connect(lambda: self._remove(at))
        form.column.addWidget(remove)

    def _make(self, job: Job) -> None:
        super()._make(job)
        if self.add is None:
            self.add = make_button("Add a hole", "Adds a hole, to be described", self.fold.inside)
            self.add.clicked.connect(self._add)
        self.fold.column.removeWidget(self.add)
        self.fold.column.addWidget(self.add, 0, Qt.AlignmentFlag.AlignLeft)

    def _add(self) -> None:
        self.document.edit("another hole", entries.add_hole(self.document.job))

    def _remove(self, at: int) -> None:
        self.document.edit(f"hole {at + 1} off the list", entries.remove_hole(self.document.job, at))


def _said(job: Job) -> str:
    many = len(job.hardware.holes)
    return f"{many} hole{'' if many == 1 else 's'}." if many else "None yet."
