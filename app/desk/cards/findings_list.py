"""The findings that belong to a card, each with its sign; pressing one goes to its place."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.widgets.look import SIDE, Look
from app.desk.widgets.ringed import Ringed
from app.desk.widgets.signs import Sign
from app.desk.widgets.words.signed_line import SignedLine
from geometry.findings import ASKED, BEGUN, STATED, Finding, Grade, is_unsure

_SIGN: dict[Grade, Sign] = {"stop": Sign.STOP, "look": Sign.LOOK, "good": Sign.DONE}
_ORDER = (Sign.STOP, Sign.LOOK, Sign.UNSURE, Sign.UNDER_WAY, Sign.DONE, Sign.EMPTY)


def sign_of(finding: Finding) -> Sign:
    """What is only estimated wears another sign than what is wrong, what waits another than what is well."""
    if finding.grade == "good" and finding.code in STATED | BEGUN:
        return Sign.UNDER_WAY if finding.code in BEGUN else Sign.EMPTY
    if finding.code in ASKED:
        return Sign.UNDER_WAY
    return Sign.UNSURE if is_unsure(finding) else _SIGN[finding.grade]


class FindingLine(SignedLine):
    """One finding. What is large stands on every template, and is bold here too."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(look, parent, room=4)
        self.finding = Finding(grade="good", code="", text="")

    def say(self, finding: Finding) -> None:
        self.finding = finding
        sign = sign_of(finding)
        self.put(finding.text, sign, f"{sign.value}: {finding.text}", bold=finding.large)


class FindingsList(QWidget):
    """Signals: `went_to` with what a finding is about."""

    went_to = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self.setAccessibleName("Findings of this step")
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(2)
        self.lines: list[FindingLine] = []

    def show_found(self, found: list[Finding]) -> None:
        """Show these findings, what stops the work first."""
        found.sort(key=lambda f: (_ORDER.index(sign_of(f)), not f.large))
        while len(self.lines) < len(found):
            line = FindingLine(self.look, self)
            line.clicked.connect(self._clicked)
            QWidget.setTabOrder(self.lines[-1] if self.lines else self, line)
            self.lines.append(line)
            self.column.addWidget(line)
        for line, finding in zip(self.lines, found, strict=False):
            if line.finding != finding:
                line.say(finding)
        for at, line in enumerate(self.lines):
            line.setVisible(at < len(found))
        self.setVisible(bool(found))

    def show_look(self, look: Look) -> None:
        self.look = look
        for line in self.lines:
            line.show_look(look)

    def _clicked(self) -> None:
        line = self.sender()
        if isinstance(line, FindingLine):
            self.went_to.emit(line.finding.where)


class FindingsOnCard(Ringed):
    """The list where it stands on the card itself, not in a part that scrolls: with room for its ring at its sides."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.list = FindingsList(look, self)
        column = QVBoxLayout(self)
        column.setContentsMargins(SIDE - 2, 4, SIDE, 0)
        column.addWidget(self.list)

    def show_found(self, found: list[Finding]) -> None:
        """Show these findings; where there are none it takes no room."""
        self.list.show_found(found)
        self.setVisible(bool(found))
