"""A part of a card that is seldom needed: its heading and what is in force are seen, its rows only when asked for."""

from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.desk.widgets.buttons import plain_button


class Fold(QWidget):
    """A heading with a button that shows the rows of `column` or hides them; `inside` is their parent."""

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.text = text
        self.heading, self.under = QLabel(text, self), QLabel("", self)
        for label, role in ((self.heading, "heading"), (self.under, "label")):
            label.setProperty("role", role)
            label.setWordWrap(True)
        self.button = plain_button("Show", f"Shows or hides the rows under {text}", self)
        self.button.clicked.connect(lambda: self.set_open(not self.is_open))
        self.button.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.inside = QWidget(self)
        self.column = QVBoxLayout(self.inside)
        self.column.setContentsMargins(0, 8, 0, 0)
        self.column.setSpacing(12)
        row = QHBoxLayout()
        row.addWidget(self.heading, 1)
        row.addWidget(self.button)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 12, 0, 0)
        whole.setSpacing(2)
        whole.addLayout(row)
        whole.addWidget(self.under)
        whole.addWidget(self.inside)
        self.set_open(False)

    @property
    def is_open(self) -> bool:
        """Whether its rows are shown."""
        return self.inside.isVisibleTo(self)

    def set_open(self, on: bool) -> None:
        """Show its rows, or hide them."""
        self.inside.setVisible(on)
        self.button.setText("Hide" if on else "Show")
        self.button.setAccessibleName(f"{self.button.text()}: {self.text}")

    def say(self, sentence: str) -> None:
        """What is in force of its rows, seen while they are hidden too."""
        self.under.setText(sentence)
