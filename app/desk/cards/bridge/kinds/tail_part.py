"""The Bridge card's rows for a tailpiece and a strap pin, shown where the strings run on behind the bridge."""

from PySide6.QtWidgets import QWidget

from app.desk.cards.bridge.kinds.kind_part import BridgePart
from app.desk.cards.form import Form
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import plain_button
from app.desk.widgets.look import Look
from app.desk.widgets.made_later import MadeLater
from app.edit.bridge import screw_places, standing_entries
from geometry.job import Job


class TailPart(BridgePart):
    """A tick whether there is a tail; its rows under it."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self.later = MadeLater(self, self._fill)

    def _fill(self) -> None:
        self.form.section("Tailpiece")
        has, put = standing_entries.has_tail, standing_entries.put_has_tail
        self.form.tick("The strings run on to a tailpiece", has, put, key="tail.has")
        self.rows = self.form.shown_while(lambda job: job.tail is not None, self._rows)

    def _rows(self, rows: Form) -> None:
        tail = standing_entries.tail
        says = "From where the strings break back to where they end. Empty: read as points."
        rows.length("Behind the break", *tail("behind"), optional=True, says=says, key="tail.behind")
        says = "Centre to centre. Empty: they run straight on."
        rows.length("Outer strings there", *tail("spread"), optional=True, says=says, key="tail.spread")
        says = "Under a straightedge laid on the strings over the bridge. Empty: not told."
        rows.length("The strings end lower by", *tail("under"), optional=True, says=says, key="tail.under")
        made = "Adds readings to where the outer strings end, to be taken on the Measure card"
        self.ask = plain_button("Measure the tail", made, rows.parent)
        self.ask.clicked.connect(self._ask)
        rows.column.addWidget(self.ask)

        def places(job: Job) -> str:
            like = screw_places.two_like(job)
            return f"How far behind the strings’ ends x from the tail’s middle, and the side: {like}."

        entries = standing_entries
        rows.text("Screw holes", entries.screws, entries.put_screws, wide=264, says=places, key="tail.screws")
        self.screw = rows.length("Their pilot hole", *tail("screw"), key="tail.screw")
        says = "Where the neck centre line meets the body’s end, as far as that is measured."
        rows.tick("A strap pin is to be set", *tail("pin"), says=says, key="tail.pin")
        self.hole = rows.length("The strap pin’s hole", *tail("pin_hole"), key="tail.pin_hole")

    def _ask(self) -> None:
        self.document.edit("readings to the tail", standing_entries.ask_tail(self.document.job))

    def go_to(self, where: str) -> bool:
        if not where.startswith("field:tail"):
            return False
        self.later.now()
        return self.rows.go_to(where) or super().go_to(where)

    def refresh(self) -> None:
        job = self.document.job
        runs_on = standing_entries.runs_on(job)
        if runs_on:
            self.later.now()
        self.setVisible(runs_on)
        super().refresh()
        if job.tail is None or not self.later.is_made:
            return
        self.screw.setVisible(bool(job.tail.screws))
        self.hole.setVisible(job.tail.pin)
        asked = standing_entries.tail_asked(job)
        self.ask.setEnabled(not asked)
        self.ask.setText("Its readings are on the Measure card" if asked else "Measure the tail")
