"""The Headstock card: the headstock as found, the tuners that go on it, markers along the neck, and holes anywhere."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from app.desk.cards.card import Card, scrolled
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.headstock import sections
from app.desk.cards.headstock.fittings_part import FittingsPart
from app.desk.cards.headstock.headstock_section import HeadstockSection
from app.desk.cards.headstock.holes_section import HolesSection
from app.desk.cards.headstock.sections import Section
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.look import Look
from app.edit.headstock import hardware_entries
from app.say.figures.progress import HARDWARE
from geometry.job import Job


class HeadstockCard(Card):
    """What is read of the headstock, tuners, markers and other holes, each in a section that folds.

    Signals: `pointing` with what is to be pointed at and what takes the places; `measuring` with the reading to take
    first.
    """

    title = "Headstock"
    line = "New tuners on the headstock as it was read, markers along the neck, and other holes."
    measuring = Signal(str)
    pointing = Signal(str, object)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.inside, column = scrolled(self, self.column)
        self.findings = FindingsList(look, self.inside)
        says = "Points called head, headslot, post and screw that were read become the headstock"
        self.take = make_button("Take up the headstock’s points", says, self.inside)
        self.take.clicked.connect(self._take)
        self.found = HeadstockSection(document, look, self.inside)
        self.found.measuring.connect(self.measuring)
        self.found.pointing.connect(self.pointing)
        self.sections: dict[str, Section] = {
            "headstock": self.found,
            "tuners": self._section("New tuners", sections.tuner_rows, sections.tuners_said),
            "markers": self._section("Markers along the neck", sections.marker_rows, sections.markers_said),
            "holes": HolesSection(document, look, self.inside),
        }
        self.fittings = FittingsPart(document, self.inside)
        column.addWidget(self.findings)
        column.addWidget(self.take, 0, Qt.AlignmentFlag.AlignLeft)
        for widget in (self.sections["headstock"], self.sections["tuners"], self.fittings):
            column.addWidget(widget)
        for name in ("markers", "holes"):
            column.addWidget(self.sections[name])
        column.addStretch(1)
        self.findings.went_to.connect(self.follow)
        self.refresh()

    def _section(self, title: str, rows: sections.Rows, says: sections.Said) -> Section:
        return Section(self.document, self.look, title, (rows, lambda _job: (), says), self.inside)

    def _take(self) -> None:
        self.document.edit("taking up the headstock", hardware_entries.take_up(self.document.job))

    def refresh(self) -> None:
        job, layout = self.document.job, self.document.layout
        found = [one for one in (layout.findings if layout else ()) if one.code.startswith(HARDWARE)]
        self.findings.show_found(found)
        self.take.setVisible(_to_take(job))
        for section in self.sections.values():
            section.refresh()
        self.fittings.refresh()

    def go_to(self, where: str) -> bool:
        if not where.startswith("field:hardware"):
            return False
        return any(section.go_to(where) for section in self.sections.values())

    def touched(self, of: str) -> None:
        """A new post or a marker clicked on the plan: its section unfolds."""
        section = {"post": "tuners", "markers": "markers"}.get(of.partition(":")[0])
        if section is not None:
            self.sections[section].fold.set_open(True)

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.findings.show_look(look)
        for section in self.sections.values():
            section.show_look(look)


def _to_take(job: Job) -> bool:
    return hardware_entries.take_up(job) != job
