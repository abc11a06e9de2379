"""The part of the Sheets card where templates are ticked: the two that nearly every job wants, the rest in folds."""

from collections.abc import Callable
from functools import partial

import msgspec
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.form import Form, Get, Put
from app.desk.cards.sheets.stock_part import sheets_field
from app.desk.document.document import Document
from app.desk.document.preferences import Preferences
from app.desk.widgets.fold import Fold
from app.desk.widgets.look import Look
from app.edit import sheet_entries
from app.edit.sheet_entries import MAIN
from export.templates import RECORDS, TEMPLATES, Part, Template
from geometry.job import Job

FOLDS: dict[Part, str] = {
    "bridge": "More for the bridge",
    "nut and saddle": "Nut and saddle",
    "headstock and markers": "Headstock and markers",
    "owner and printer": "For the owner, for the printer",
}


class TemplatesPart(QWidget):
    """A template stands in sight where it is the job's main one, else in the fold of its part; one of a bridge that is
    held in another way only if it was chosen before. Written pages that are ticked here are ticked in the next job.
    """

    def __init__(self, document: Document, look: Look, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.preferences = document, preferences
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        self.form = Form(document, column, self)
        for name in MAIN:
            self.form.only(partial(_is_main, name), self._ticker(TEMPLATES[name]))
        self.folds: dict[Part, tuple[Fold, Form]] = {}
        for part, text in FOLDS.items():
            fold = Fold(text, look, self, partial(self._fill, part))
            column.addWidget(fold)
            fold.head.toggled.connect(self._say_ticked)
            self.folds[part] = (fold, Form(document, fold.column, fold.inside))
        self.refresh()

    def _fill(self, part: Part) -> None:
        """The templates of a part, in its fold."""
        form = self.folds[part][1]
        for template in TEMPLATES.values():
            if template.part == part and template.name != "job-sheet":
                self._folded(form, template)
        if part == "bridge":
            self._of_bridge(form)

    def _folded(self, form: Form, template: Template) -> None:
        if template.held is None and template.name not in MAIN:
            self._tick(form, template)
        else:
            form.only(_is_aside(template), self._ticker(template))

    def _ticker(self, template: Template) -> Callable[[Form], None]:
        return lambda form: self._tick(form, template)

    def _tick(self, form: Form, template: Template) -> None:
        box = form.tick(template.title, _has(template.name), _put_has(template.name), says=template.says)
        if template.name in RECORDS:
            box.clicked.connect(self._keep)

    def _of_bridge(self, form: Form) -> None:
        form.only(lambda job: job.held == "glue", self._of_glued)

    def _of_glued(self, form: Form) -> None:
        says = "Finish that the clearing leaves under the bridge’s edge, so that it hides the cut."
        form.length("Ledge of finish", *sheets_field("ledge"), says=says)
        says = "In the placement templates the bridge’s place is cut out, instead of an outline to mark round."
        form.tick("Bridge’s place as a window", *sheets_field("window"), says=says)

    def _keep(self) -> None:
        """The next job begins with the written pages chosen last; no other template says anything of the next job."""
        kept, chosen = self.preferences.settings, self.document.job.sheets.templates
        self.preferences.keep(msgspec.structs.replace(kept, records=tuple(n for n in RECORDS if n in chosen)))

    def refresh(self) -> None:
        """Take over the document."""
        self.form.refresh()
        for _, form in self.folds.values():
            form.refresh()
        self._say_ticked()

    def _say_ticked(self) -> None:
        """What is ticked in a fold, where it is closed: in an open one a line more would push the boxes down."""
        for part, (fold, _) in self.folds.items():
            fold.say("" if fold.is_open else sheet_entries.ticked_of(self.document.job, part))

    def show_look(self, look: Look) -> None:
        """Take on other colours and another size."""
        for fold, _ in self.folds.values():
            fold.show_look(look)


def _is_main(name: str, job: Job) -> bool:
    return name in sheet_entries.main_templates(job)


def _is_aside(template: Template) -> Callable[[Job], bool]:
    """Whether a template stands in its fold: it is not the job's main one, and is of how the job's bridge is held, or
    was chosen before it was held so.
    """

    def wanted(job: Job) -> bool:
        fits = template.held in (None, job.held) or template.name in job.sheets.templates
        return fits and not sheet_entries.is_twice(job, template.name) and not _is_main(template.name, job)

    return wanted


def _has(name: str) -> Get:
    return lambda job: sheet_entries.is_ticked(job, name)


def _put_has(name: str) -> Put:
    return lambda job, on: sheet_entries.put_ticked(job, name, on=on)
