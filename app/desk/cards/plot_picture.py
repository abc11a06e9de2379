"""A plot on a card: the same drawing as on the job sheet, painted in the desk's colours as wide as the card is."""

from collections.abc import Callable

from PySide6.QtCore import QSize, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QResizeEvent, QTransform
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.desk.plan.painting.painter import SCREEN_PIXELS_PER_MM, Prepared, paint, prepare
from app.desk.widgets.look import Look
from export.drawing.marks import XY
from export.drawing.pick import pick
from export.plots import Plot

Draw = Callable[[XY], Plot | None]
"""Draws a plot of a size in mm; None where there is nothing to show."""
REACH = 3.0
"""How near a press must be to what it is meant for, mm."""


class PlotPicture(QWidget):
    """Hidden while there is nothing to show. Signals: `chosen` with what a pressed mark stands for."""

    chosen = Signal(str)

    def __init__(self, name: str, high: float, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look, self.high = look, high
        self.plot: Plot | None = None
        self._draw: Draw = lambda _: None
        self._prepared: Prepared | None = None
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.hide()

    def show_plot(self, draw: Draw) -> None:
        """Show what is drawn by this, now and at another width."""
        self._draw = draw
        self._redraw()

    def show_look(self, look: Look) -> None:
        self.look = look
        self.updateGeometry()
        self._redraw()

    @property
    def pixels(self) -> float:
        """Of the screen, for a mm of the plot."""
        return SCREEN_PIXELS_PER_MM * self.look.text_scale

    def sizeHint(self) -> QSize:
        return QSize(360, round(self.high * self.pixels))

    def _redraw(self) -> None:
        plot = self._draw((max(self.width(), 200) / self.pixels, self.high))
        if plot != self.plot or self._prepared is None:
            self.plot, self._prepared = plot, prepare(plot.drawing) if plot is not None else None
        self.setAccessibleDescription(plot.says if plot is not None else "Nothing known yet")
        self.setToolTip(self.accessibleDescription())
        self.setVisible(plot is not None)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._redraw()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._prepared is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint(painter, self._prepared, self._onto(), self.look.palette, self.pixels)
        painter.end()

    def _onto(self) -> QTransform:
        return QTransform(self.pixels, 0, 0, -self.pixels, 0, self.high * self.pixels)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        back, _ = self._onto().inverted()
        at = back.map(event.position())
        found = pick(self.plot.drawing, (at.x(), at.y()), REACH) if self.plot is not None else None
        if found is not None:
            self.chosen.emit(found.of)
