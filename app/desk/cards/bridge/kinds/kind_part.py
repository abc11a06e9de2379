"""What the Bridge card asks about one kind of bridge: its rows, shown while the job's bridge is held that way."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.form import Form
from app.desk.document.document import Document
from app.desk.widgets.look import Look


class Rows(QWidget):
    """Rows of their own, farther down the card."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(12)
        self.form = Form(document, self.column, self)


class BridgePart(QWidget):
    """A part of the card; `form` holds the rows that are one value of the job each, what else it shows is its own."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(12)
        self.form = Form(document, self.column, self)

    def go_to(self, where: str) -> bool:
        """Bring the field that a finding is about into view; whether there is one."""
        return self.form.go_to(where)

    def refresh(self) -> None:
        """Show the document's job."""
        self.form.refresh()

    def show_look(self, look: Look) -> None:
        """Other colours, another size."""
        self.look = look


class KindPart(BridgePart):
    """The rows of a kind. `places` and `proof` hold what stands farther down the card: other places to choose from,
    and the proof.
    """

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self.places, self.proof = Rows(document, parent), Rows(document, parent)

    def show_rows(self, on: bool) -> None:
        """Show all of it, or hide it."""
        self.setVisible(on)
        for rows in (self.places, self.proof):
            rows.setVisible(on and rows.column.count() > 0)
