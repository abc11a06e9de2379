"""The part of the Sheets card for what few jobs need: stock to lay parts on, holes to turn them over, other cutters."""

from typing import Any

from PySide6.QtWidgets import QWidget

from app.desk.cards.form import Form, Get, Put
from app.desk.cards.form_rows import unfold_to
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.look import Look
from app.edit import sheet_entries
from app.edit.edits import replace
from geometry.job import Job
from geometry.job.sheets import Operation
from geometry.units import Length

SELDOM: dict[Operation, tuple[str, str]] = {
    "outline": ("Cutter for outlines", "In place of the cutter above, round parts. Empty: the same."),
    "window": ("Cutter for windows", "In place of the cutter above, in windows and notches. Empty: the same."),
}


class StockPart(Fold):
    """Its rows are folded away until they are asked for, or until a finding leads to one of them."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__("Stock, turning over, other cutters", look, parent, self._fill)
        self.document = document
        self.form = Form(document, self.column, self.inside)
        self.refresh()

    def _fill(self) -> None:
        form = self.form
        says = (
            "Width by height, as in 300 x 120: bridge, plate and nut strip that are ticked above are laid on it in one "
            "more file. Empty: no such file."
        )
        form.text("Stock", sheet_entries.stock_of, sheet_entries.put_stock, wide=112, says=says, key="sheets.stock")
        says = "Each part is laid with its length along it. Not told: parts may be turned."
        form.choice(
            "The stock’s grain", [*sheet_entries.GRAINS.items()], *sheets_field("grain"), says=says, key="sheets.grain"
        )
        says = "Two holes in the stock beside bridge and plate, for pins that keep its place when it is turned over."
        form.tick("Holes to turn the part over on", *sheets_field("turning"), says=says)
        for operation, (name, says) in SELDOM.items():
            form.length(name, *cutter_for(operation), optional=True, says=says, key=f"sheets.cutters.{operation}")

    def refresh(self) -> None:
        """Take over the document."""
        self.form.refresh()
        self.say(sheet_entries.seldom_used(self.document.job))

    def go_to(self, where: str) -> bool:
        """Show the field that a finding is about, whether its rows were seen or not; whether there is one."""
        return unfold_to(self, self.form, where)


def sheets_field(name: str) -> tuple[Get, Put]:
    """What reads and puts a field of the job's sheets."""

    def put(job: Job, value: Any) -> Job:
        return replace(job, sheets=replace(job.sheets, **{name: value}))

    return (lambda job: getattr(job.sheets, name)), put


def cutter_for(operation: Operation) -> tuple[Get, Put]:
    """What reads and puts the cutter for one operation."""

    def put(job: Job, value: Length | None) -> Job:
        cutters = {name: length for name, length in job.sheets.cutters.items() if name != operation}
        if value is not None:
            cutters[operation] = value
        return replace(job, sheets=replace(job.sheets, cutters=cutters))

    return (lambda job: job.sheets.cutters.get(operation)), put
