"""The findings strip along the bottom: what matters in large figures; a click goes to the place.

Where room is short the cells say less; where even that has no room they say all, and one moves along them.
"""

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QScrollArea, QSizePolicy, QWidget

from app.desk.frame.strip_cell import SIGNS, Cell
from app.desk.widgets.look import LABEL, Look, colour
from app.desk.widgets.signs import paint_sign
from app.say.key_figures import KeyFigure, Mark

SIDE, APART = 24, 24
WORST: tuple[Mark, ...] = ("stop", "look", "unsure", "good", "")


class More(QAbstractButton):
    """How many cells are out of sight, with the worst of their signs; a click brings them into sight."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look = look
        self.mark: Mark = ""
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def say(self, count: int, mark: Mark, *, at_end: bool) -> None:
        self.mark = mark
        self.setText("Back" if at_end else f"{count} more")
        what = f"{count} more finding{'s' if count > 1 else ''}"
        self.setAccessibleName(f"{what}, {SIGNS[mark].value}" if mark else what)
        self.setAccessibleDescription(
            "Back to the first findings" if at_end else "Moves along to the findings out of sight"
        )
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        scale = self.look.text_scale
        wide = QFontMetricsF(self.look.font(LABEL)).horizontalAdvance("9 more")
        return QSize(round(wide + 16), round(68 * scale))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scale, p, box = self.look.text_scale, self.look.palette, QRectF(self.rect())
        side = 13 * scale
        paint_sign(painter, SIGNS[self.mark], QRectF(box.right() - 6 - side, 18 * scale - side / 2, side, side), p)
        painter.setFont(self.look.font(LABEL))
        painter.setPen(colour(p.ink if self.underMouse() else p.worked_out))
        low = QRectF(0, 34 * scale, box.width() - 6, 26 * scale)
        painter.drawText(low, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self.text())
        if self.hasFocus():
            painter.setPen(QPen(colour(p.worked_out), 2))
            painter.drawRoundedRect(box.adjusted(1, 5, -1, -5), 4, 4)
        painter.end()


class Row(QScrollArea):
    """The cells beside each other; a wheel moves along them."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta().y() or event.angleDelta().x()
        bar = self.horizontalScrollBar()
        bar.setValue(bar.value() - turned)
        event.accept()


class Strip(QWidget):
    """Signals: `went_to` with what a figure is about (`"reading:r9"`, `"saddle"`)."""

    went_to = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self.setObjectName("band")
        self.setAccessibleName("Findings")
        self.cells: list[Cell] = []
        self.area, self.more = Row(self), More(look, self)
        self.inside = QWidget()
        self.inside.setObjectName("inside")
        self.row = QHBoxLayout(self.inside)
        self.row.setContentsMargins(3, 0, 3, 0)  # the ring round the one that has the focus
        self.row.setSpacing(APART)
        self.area.setWidget(self.inside)
        across = QHBoxLayout(self)
        across.setContentsMargins(SIDE - 3, 2, SIDE - 6, 2)
        across.setSpacing(8)
        across.addWidget(self.area, 1)
        across.addWidget(self.more)
        self.area.horizontalScrollBar().valueChanged.connect(self._count)
        self.area.horizontalScrollBar().rangeChanged.connect(self._count)
        self.more.clicked.connect(self.move_along)
        self.show_look(look)

    def sizeHint(self) -> QSize:
        return QSize(800, round(72 * self.look.text_scale))

    def show_figures(self, figures: tuple[KeyFigure, ...]) -> None:
        while len(self.cells) < len(figures):
            cell = Cell(self.look, self)
            cell.clicked.connect(self._clicked)
            self.cells.append(cell)
            self.row.addWidget(cell, 1)
        changed = False
        for at, cell in enumerate(self.cells):
            shown = at < len(figures)
            changed = changed or shown == cell.isHidden() or (shown and cell.figure != figures[at])
            if shown and cell.figure != figures[at]:
                cell.say(figures[at])
            cell.setVisible(shown)
            self.row.setStretch(at, cell.sizeHint().width() if shown else 0)
        if changed:
            self._share_out()

    def show_look(self, look: Look) -> None:
        self.look = self.more.look = look
        self.setFixedHeight(self.sizeHint().height())
        for cell in self.cells:
            cell.look = look
            cell.updateGeometry()
            cell.update()
        self._share_out()

    # where room is short

    @property
    def _shown(self) -> list[Cell]:
        return [cell for cell in self.cells if not cell.isHidden()]

    def _share_out(self) -> None:
        """Give the cells the room there is, or where that is too little all they ask for."""
        shown = self._shown
        gaps = APART * max(len(shown) - 1, 0) + 6
        least = sum(cell.minimumSizeHint().width() for cell in shown) + gaps
        over = least > self.width() - 2 * SIDE + 6
        self.inside.setMinimumWidth(sum(cell.sizeHint().width() for cell in shown) + gaps if over else 0)
        self.more.setVisible(over)
        self._count()

    def _count(self) -> None:
        """Tell how many cells are out of sight, and how bad it is."""
        bar, wide = self.area.horizontalScrollBar(), self.area.viewport().width()
        left, right = bar.value(), bar.value() + wide
        for cell in self._shown:
            cell.update()  # one at the edge says what it has room for
        out = [cell for cell in self._shown if cell.x() < left or cell.geometry().right() > right]
        marks = {cell.figure.mark for cell in out}
        worst = next((mark for mark in WORST if mark in marks), WORST[-1])
        self.more.say(len(out), worst, at_end=bar.value() == bar.maximum())

    def move_along(self) -> None:
        """To the first cell that is cut off at the right, or from the end back to the first."""
        bar = self.area.horizontalScrollBar()
        right = bar.value() + self.area.viewport().width()
        beyond = [cell for cell in self._shown if cell.geometry().right() > right]
        bar.setValue(beyond[0].x() - 3 if beyond else 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_out()

    def _clicked(self) -> None:
        cell = self.sender()
        if isinstance(cell, Cell) and cell.figure.where:
            self.went_to.emit(cell.figure.where)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), colour(self.look.palette.card))
        painter.fillRect(QRectF(0, 0, self.width(), 1), colour(self.look.palette.hair))
        painter.end()
