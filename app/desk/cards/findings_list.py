"""The findings that belong to a card, each with its sign; pressing one goes to its place."""

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent, QPen, QResizeEvent, QTextOption
from PySide6.QtWidgets import QAbstractButton, QVBoxLayout, QWidget

from app.desk.widgets.look import TEXT, Look, colour
from app.desk.widgets.signs import Sign, paint_sign
from geometry.findings import STATED, Finding, Grade, is_unsure
from geometry.layout import Layout

_SIGN: dict[Grade, Sign] = {"stop": Sign.STOP, "look": Sign.LOOK, "good": Sign.DONE}
_ORDER = (Sign.STOP, Sign.LOOK, Sign.UNSURE, Sign.DONE, Sign.EMPTY)


def sign_of(finding: Finding) -> Sign:
    """What is only estimated wears another sign than what is wrong."""
    if finding.grade == "good" and finding.code in STATED:
        return Sign.EMPTY
    return Sign.UNSURE if is_unsure(finding) else _SIGN[finding.grade]


class FindingLine(QAbstractButton):
    """One finding."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look = look
        self.finding = Finding(grade="good", code="", text="")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def say(self, finding: Finding) -> None:
        self.finding = finding
        self.setAccessibleName(f"{sign_of(finding).value}: {finding.text}")
        self.setAccessibleDescription("Shows the place")
        self.make_room()
        self.update()

    def show_look(self, look: Look) -> None:
        self.look = look
        self.make_room()

    def make_room(self) -> None:
        """Room for all the words; the layouts of a hidden card keep the height of another width or text size."""
        self.setMinimumHeight(self.heightForWidth(max(self.width(), 240)))
        self.updateGeometry()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.make_room()

    @property
    def indent(self) -> int:
        """Where the words begin: behind the sign."""
        return round(15 + 13 * self.look.text_scale)

    @property
    def words_font(self) -> QFont:
        """What is large stands on every template, and is bold here too."""
        return self.look.font(TEXT, bold=self.finding.large)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        metrics = QFontMetrics(self.words_font)
        box = metrics.boundingRect(0, 0, width - self.indent, 2000, Qt.TextFlag.TextWordWrap, self.finding.text)
        return box.height() + 10

    def sizeHint(self) -> QSize:
        return QSize(300, self.heightForWidth(max(self.width(), 240)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p, side = self.look.palette, 13 * self.look.text_scale
        paint_sign(painter, sign_of(self.finding), QRectF(2, 7, side, side), p)
        painter.setFont(self.words_font)
        painter.setPen(colour(p.look if self.finding.grade == "stop" else p.ink))
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WordWrap)
        painter.drawText(QRectF(self.rect()).adjusted(self.indent, 4, 0, 0), self.finding.text, option)
        if self.hasFocus():
            painter.setPen(QPen(colour(p.worked_out), 2))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)
        painter.end()


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

    def show_layout(self, layout: Layout | None, about: tuple[str, ...]) -> None:
        """Show the findings whose place begins with one of `about`."""
        self.show_found([f for f in (layout.findings if layout else ()) if f.where.startswith(about)])

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
