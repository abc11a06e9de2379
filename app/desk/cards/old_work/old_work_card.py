"""The Old work card: what the bridge that came off left on the top and under it, and what the new place does to it."""

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from app.desk.cards.card import Card, scrolled
from app.desk.cards.card import words as label
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.form import Form
from app.desk.cards.old_work.move_list import MoveList
from app.desk.cards.old_work.old_section import OldSection
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.look import Look
from app.edit.bridge import standing_entries
from app.edit.old_work import old_entries, taking_up
from app.edit.old_work.old_kinds import OldKind
from app.say.figures.progress import OLD_WORK
from geometry.findings import Finding
from geometry.layout import Layout
from geometry.old_work import move_told
from geometry.old_work.inside import read_inside

SECTIONS: dict[OldKind, str] = {
    "footprint": "Footprint and scar",
    "pins": "Old pin holes",
    "holes": "Other holes",
    "slot": "Old slot",
    "metal": "Metal",
    "bare": "Bare wood, edge of the finish",
    "area": "Discoloured or damaged areas",
    "plate": "Under the top: bridge plate",
    "brace": "Under the top: braces",
}


class OldWorkCard(Card):
    """Signals: `went_to_place` with a line of what the move does; `pointing` with what is to be pointed at and
    what takes the places; `measuring` with the reading to take first.
    """

    title = "Old work"
    line = "What the old bridge left on the top and under it. Read it, point at it on the plan, or type a list."
    went_to_place = Signal(object)
    pointing = Signal(str, object)
    measuring = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.inside, column = scrolled(self, self.column)
        (self.area,) = self.findChildren(QScrollArea)
        self.findings = FindingsList(look, self.inside)
        self.wrong = label("", "wrong", self.inside)
        self.wrong.hide()
        self.moves = Fold("What the move does", look, self.inside)
        self.move_list = MoveList(look, self.moves.inside)
        self.moves.column.addWidget(self.move_list)
        self.moves.set_open(True)
        self.moves.say("")
        self.sections: dict[OldKind, OldSection] = {}
        self.form = Form(document, column, self.inside)
        self._whether_off()
        for widget in (self.findings, self.wrong):
            column.addWidget(widget)
        self._mends(column)
        column.addWidget(self.moves)
        kinds = QVBoxLayout()
        kinds.setSpacing(0)  # folded away, all of them are in sight at once
        column.addLayout(kinds)
        for kind, title in SECTIONS.items():
            section = OldSection(document, look, kind, title, self.inside)
            section.measuring.connect(self.measuring)
            section.pointing.connect(self.pointing)
            section.wrong.connect(self._say)
            self.sections[kind] = section
            kinds.addWidget(section)
        self.below = Form(document, column, self.inside)
        self.below.only(standing_entries.has_marks, self._marks_elsewhere)
        column.addStretch(1)
        self.findings.went_to.connect(self.follow)
        self.move_list.went_to.connect(self.went_to_place)
        document.started.connect(lambda: self._say(""))
        self.refresh()

    def _whether_off(self) -> None:
        """Whether the bridge that is to go is still there; one that is not glued is not taken off with heat."""
        says = "Else taking it off is the job sheet’s first step on the wood."
        off = (lambda job: job.is_bridge_off), (lambda job, on: replace(job, bridge_off=on))
        self.form.only(
            lambda job: job.held == "glue",
            lambda rows: rows.tick("The old bridge is off", *off, says=says, key="bridge_off"),
        )

    def _marks_elsewhere(self, rows: Form) -> None:
        """Marks of a floating bridge's feet are told where it is placed by them. Below the rest, which stays seen."""
        there = plain_button("The old feet’s marks are told on the Bridge card", "Opens it there", rows.parent)
        there.clicked.connect(lambda: self.follow("field:floating.marks"))
        rows.column.addWidget(there)

    def _mends(self, column: QVBoxLayout) -> None:
        """The buttons that mend what a finding tells."""
        says = "All points called old, pin, metal and so on that were read become old work"
        self.take = make_button("Take up the old work’s points", says, self.inside)
        says = "Joins the old footprint’s corners in the order in which they go round it"
        self.order = make_button("Put the corners in order", says, self.inside)
        says = "The readings of plate and braces come mirrored from now on"
        self.say_inside = make_button("They were read from inside", says, self.inside)
        for button, does in ((self.say_inside, self._say_inside), (self.order, self._order), (self.take, self._take)):
            button.clicked.connect(does)
            column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)

    # what is asked for

    def _take(self) -> None:
        self.document.edit("taking up the old work", taking_up.take_up(self.document.job))

    def _order(self) -> None:
        made = old_entries.in_order(self.document.job, self.document.layout)
        self.document.edit("the old footprint’s corners in order", made)

    def _say_inside(self) -> None:
        self.document.edit("plate and braces read from inside", old_entries.said_inside(self.document.job))

    # what is shown

    def refresh(self) -> None:
        job, layout = self.document.job, self.document.layout
        self.findings.show_found(
            [found for found in of_old_work(layout) if found.grade != "good" and not move_told.tells(found)]
        )
        self.form.refresh()
        self.below.refresh()
        self.take.setVisible(taking_up.take_up(job) != job)
        crossed = any(finding.code == "old.crossed" for finding in (layout.findings if layout else ()))
        self.order.setVisible(crossed and old_entries.in_order(job, layout) != job)
        self.say_inside.setVisible(bool(read_inside.not_said(job)))
        for section in self.sections.values():
            section.refresh()
        lines = move_told.told(job, layout) if layout else ()
        self.move_list.show_lines(lines)
        self.moves.setVisible(bool(lines))

    def go_to(self, where: str) -> bool:
        if self.form.go_to(where):
            return True
        if not where.startswith("field:old"):
            return False
        mends = [button for button in (self.say_inside, self.order, self.take) if button.isVisibleTo(self)]
        if where in ("field:old.inside", "field:old.outline", "field:old") and mends:
            mends[0].setFocus()
            self.area.ensureWidgetVisible(mends[0])
            return True
        if any(section.go_to(where) for section in self.sections.values()):
            return True
        self.area.ensureWidgetVisible(self.sections["footprint"])
        return True

    def _say(self, wrong: str) -> None:
        self.wrong.setText(wrong)
        self.wrong.setVisible(bool(wrong))

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.findings.show_look(look)
        self.moves.show_look(look)
        self.move_list.show_look(look)
        for section in self.sections.values():
            section.show_look(look)


def of_old_work(layout: Layout | None) -> list[Finding]:
    """What was found of the old work."""
    return [found for found in (layout.findings if layout else ()) if found.code.startswith(OLD_WORK)]
