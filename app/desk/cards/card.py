"""What all cards share: a title, one line on what to do and why, and the step's inputs under it, nothing else."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from shiboken6 import isValid

from app.desk.cards.inputs_area import InputsArea
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.look import SIDE, Look, colour
from app.desk.widgets.ringed import Ringed
from app.desk.widgets.words.signed_line import SignedLine
from app.desk.widgets.words.wrapped_label import WrappedLabel

TOP = 20
"""Pixels over the first words of a card."""
BRIEF = 44
"""In a window lower than so many lines a card does without its title, which the step above says."""
ROUNDS = (0, 30)
"""ms until words that wrap have found their height: a second round of the layout, and a third in another (tried)."""
SETTLED = 300
"""ms until the layout has surely come to rest: so long what is held still is held against it."""


class Card(QWidget):
    """A card. `refresh` is called after every change of the document while the card is shown.

    Signals: `went_to` with what a finding is about that has no field on the card.
    """

    went_to = Signal(str)
    title = ""
    line = ""
    a_step = True
    """Whether its title stands over it as well, among the steps: in a low window it does without."""

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self.setObjectName("card")
        self.setAccessibleName(f"Card {self.title}")
        self._titled = True
        self.scrolls: QVBoxLayout | None = None
        """What of it scrolls, with the line on what to do."""
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, TOP, 0, 0)
        self.column.setSpacing(0)
        self.heading = words(self.title, "title", self)
        self.under = words(self.line, "quiet", self)
        self.heading.setContentsMargins(SIDE, 0, SIDE, 0)
        self.column.addWidget(self.heading)

    @property
    def lines(self) -> float:
        """How many lines of text the window is high."""
        return self.window().height() / self.under.fontMetrics().lineSpacing()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.make_room()

    def make_room(self) -> None:
        """What the card is for has the room of its title where large text leaves few lines."""
        titled = not (self.a_step and self.lines < BRIEF)
        if titled == self._titled:
            return  # each change of a margin lays the card out anew
        self._titled = titled
        self.heading.setVisible(titled)
        if self.scrolls is not None:
            self.column.setContentsMargins(0, TOP if titled else 0, 0, 0)
            self.scrolls.setContentsMargins(SIDE, 0 if titled else TOP, SIDE, SIDE)

    def refresh(self) -> None:
        """Take over the document."""

    def opened(self) -> None:
        """The card has come to the front: put the focus into its first field, or where it was if it is scrolled."""
        areas, had = self.findChildren(QScrollArea), self.focusWidget()
        if had is not None and had.isVisibleTo(self) and any(area.verticalScrollBar().value() for area in areas):
            had.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self._focus_first_field()

    def _focus_first_field(self) -> None:
        """Put the focus where the work begins, behind what was found."""
        widget = self.nextInFocusChain()
        while widget is not None and widget is not self:
            takes = widget.focusPolicy() & Qt.FocusPolicy.TabFocus and not isinstance(widget, SignedLine)
            if takes and widget.isEnabled() and self.isAncestorOf(widget) and widget.isVisibleTo(self):
                widget.setFocus(Qt.FocusReason.OtherFocusReason)
                return
            widget = widget.nextInFocusChain()

    def go_to(self, _where: str) -> bool:
        """Go to the field that a finding is about; whether the card has it."""
        return False

    def follow(self, where: str) -> None:
        """Go to what a finding is about, on this card if it is here."""
        if not self.go_to(where):
            self.went_to.emit(where)

    def touched(self, of: str) -> None:
        """Something on the plan was clicked: `"string:2"`, `"point:seam.1"`."""

    def show_look(self, look: Look) -> None:
        self.look = look
        self.make_room()
        self.update()


def bring_into_sight(widget: QWidget) -> None:
    """Scroll the card to what stands on it, with some of what is over it and under it; not where it is seen already."""
    area = _area_of(widget)
    if area is None:
        return
    viewport = area.viewport()

    def scroll() -> None:
        QApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest)
        if isValid(widget) and isValid(area):
            seen = widget.visibleRegion().boundingRect() == widget.rect()
            area.ensureWidgetVisible(widget, 0, 0 if seen else viewport.height() // 3)

    scroll()
    for wait in ROUNDS:  # what was just unfolded has its place by then
        QTimer.singleShot(wait, scroll)


def _area_of(widget: QWidget) -> QScrollArea | None:
    """What scrolls a widget; None where nothing does."""
    area = widget.parentWidget()
    while area is not None and not isinstance(area, QScrollArea):
        area = area.parentWidget()
    return area


def words(text: str, role: str, parent: QWidget, *, wrap: bool = True) -> QLabel:
    """A label in one of the desk's roles."""
    label = WrappedLabel(text, parent)
    label.setProperty("role", role)
    label.setWordWrap(wrap)
    return label


def close_row(dialog: QDialog) -> QHBoxLayout:
    """The row at a dialog's foot with the one button that closes it."""
    button = make_button("Close", f"Closes {dialog.windowTitle()}", dialog, "main")
    button.clicked.connect(dialog.reject)
    row = QHBoxLayout()
    row.addStretch(1)
    row.addWidget(button)
    return row


def hair(parent: QWidget) -> QFrame:
    """A hairline across a card."""
    line = QFrame(parent)
    line.setProperty("role", "hair")
    line.setFixedHeight(1)
    return line


def scrolled(parent: QWidget, column_of: QVBoxLayout) -> tuple[QWidget, QVBoxLayout]:
    """A part of a card that scrolls when it is too long, the line on what to do with it: the widget inside, and the
    column to put things in.
    """
    area, inside = InputsArea(parent), Ringed()
    inside.setObjectName("inside")
    area.setAccessibleName("Inputs")
    column = QVBoxLayout(inside)
    column.setContentsMargins(SIDE, 0, SIDE, SIDE)
    column.setSpacing(12)
    scroll(area, inside)
    if isinstance(parent, Card):
        column.addWidget(parent.under)
        column.addSpacing(4)
        parent.scrolls = column
        column_of.addSpacing(4)
        column_of.addWidget(_edge(area, parent))
    column_of.addWidget(area, 1)
    return inside, column


def _edge(area: QScrollArea, parent: QWidget) -> QFrame:
    """A hairline where words go under what stays, while they do; its room is always there."""
    line, bar = hair(parent), area.verticalScrollBar()
    kept = line.sizePolicy()
    kept.setRetainSizeWhenHidden(True)
    line.setSizePolicy(kept)
    line.hide()
    bar.valueChanged.connect(lambda value: line.setVisible(value > 0))
    return line


def scroll(area: QScrollArea, inside: QWidget) -> None:
    """Let what is inside scroll down, never sideways."""
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(inside)


def keep_still(card: QWidget, change: Callable[[], None], under: QWidget | None = None) -> None:
    """Change a card; what is `under` the hand, else the field that is being typed into, stays where it is on the
    screen, whatever comes up above it.
    """
    held = under or QApplication.focusWidget()
    area = _area_of(held) if held is not None and card.isAncestorOf(held) else None
    if held is None or area is None:
        change()
        return
    before = held.mapTo(area.viewport(), QPoint(0, 0)).y()
    kept, bar, viewport = held, area.verticalScrollBar(), area.viewport()

    left_at: int | None = None

    def hold() -> None:
        nonlocal left_at
        QApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest)
        if not (isValid(kept) and isValid(bar) and (kept is under or kept.hasFocus())):
            return
        if left_at is not None and bar.value() != min(left_at, bar.maximum()):
            return  # somebody has scrolled meanwhile
        bar.setValue(bar.value() + kept.mapTo(viewport, QPoint(0, 0)).y() - before)
        if kept is under and not kept.hasFocus() and isinstance(area, InputsArea):
            area.show_focus()  # the change put it elsewhere
        left_at = bar.value()

    def hold_later(*_range: int) -> None:
        QTimer.singleShot(0, hold)

    def let_go() -> None:
        if isValid(bar):
            bar.rangeChanged.disconnect(hold_later)

    change()
    hold()
    bar.rangeChanged.connect(hold_later)  # on a busy machine a round of the layout comes after all of these
    QTimer.singleShot(SETTLED, let_go)
    for wait in ROUNDS:
        QTimer.singleShot(wait, hold)


class Note(QWidget):
    """A few lines with a coloured bar at their left, as for a reading to look at again."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look, self.tone = look, "quiet"
        self._said: tuple[str, str, str, bool] | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(SIDE + 16, 0, SIDE, 0)
        column.setSpacing(2)
        self.head = words("", "heading", self)
        self.body = words("", "text", self)
        self.column = column
        column.addWidget(self.head)
        column.addWidget(self.body)

    def say(self, head: str, body: str, tone: str = "quiet") -> None:
        said = (head, body, tone, self.look.palette.dark)
        if said == self._said:
            return
        self._said, self.tone = said, tone
        self.head.setText(head)
        self.body.setText(body)
        name = self.look.palette.look if tone == "look" else self.look.palette.quiet
        self.head.setStyleSheet(f"color: {name};")
        self.setVisible(bool(head))
        self.update()

    def show_look(self, look: Look) -> None:
        """The same words in other colours."""
        self.look = look
        if self._said is not None:
            self.say(*self._said[:3])

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p = self.look.palette
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(p.look if self.tone == "look" else p.steel_line))
        inner = self.contentsRect()
        painter.drawRoundedRect(SIDE, inner.top() + 2, 4, inner.height() - 4, 2, 2)
        painter.end()
