"""The Bridge card's rows for saddles of their own."""

from PySide6.QtWidgets import QWidget

from app.desk.cards.bridge.kind_part import KindPart
from app.desk.document.document import Document
from app.desk.widgets.look import Look
from app.edit import held_entries


class SeparatePart(KindPart):
    """What is asked of saddles of their own."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self.form.length("A saddle travels by", *held_entries.field("separate", "travel"), key="separate.travel")
