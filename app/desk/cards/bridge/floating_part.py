"""The Bridge card's rows for a bridge that is held by the strings alone."""

from PySide6.QtWidgets import QWidget

from app.desk.cards.bridge.kind_part import KindPart
from app.desk.document.document import Document
from app.desk.widgets.look import Look
from app.edit import held_entries


class FloatingPart(KindPart):
    """What is asked of a bridge that is held by the strings alone."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self.form.length("Length, foot to foot", *held_entries.field("floating", "length"), key="floating.length")
        self.form.length("Width at the feet", *held_entries.field("floating", "width"), key="floating.width")
