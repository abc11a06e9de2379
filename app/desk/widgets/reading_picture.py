"""A small drawn picture of how the straightedge, the rule or the caliper is held for each kind of reading."""

import math
from typing import Literal, assert_never

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.desk.widgets.look import LABEL, Look, colour
from app.say import reading_strokes as strokes
from app.say.how_to import TAKING, picture
from app.say.reading_strokes import Stroke
from geometry.job import Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import Kind
from geometry.job.measured.readings import Place

SMALL = 72 / 88
"""Of its height, what four lines of text take."""


class ReadingPicture(QWidget):
    """A picture of one kind; purely a help for the eye, the same is said in the card's line."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self._size = 1.0
        self.place: Place | None = None
        self.strokes: tuple[Stroke, ...] = ()
        self.setAccessibleName("How to hold the straightedge and the rule")
        self.show_kind("distance", "")

    def show_look(self, look: Look) -> None:
        self.look = look
        self.updateGeometry()
        self.update()

    def show_kind(self, kind: Kind, said: str, place: Place | None = None) -> None:
        """Show a kind of reading; `place` is where a height is read."""
        self._show(TAKING[kind].picture, said, place)

    def show_reading(self, reading: Reading, hand: Hand, said: str) -> None:
        """Show one reading, on the side where it is taken."""
        self._show(picture(reading, hand), said, reading.at)

    def _show(self, strokes: tuple[Stroke, ...], said: str, place: Place | None) -> None:
        self.setAccessibleDescription(said)
        if (strokes, place) != (self.strokes, self.place):
            self.strokes, self.place = strokes, place
            self.update()

    def make_small(self, small: bool) -> None:
        """As high as four lines of text, where the window has few."""
        size = SMALL if small else 1.0
        if size != self._size:
            self._size = size
            self.updateGeometry()

    @property
    def _scale(self) -> float:
        return self._size * self.look.text_scale

    def sizeHint(self) -> QSize:
        return QSize(round(132 * self._scale), round(88 * self._scale))

    minimumSizeHint = sizeHint

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p = self.look.palette
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(p.body))
        painter.drawRoundedRect(QRectF(self.rect()), 6, 6)
        painter.scale(self._scale, self._scale)
        _Sketch(painter, self.look).draw(self.strokes, self.place)
        painter.end()


class _Sketch:
    """One sketch in a field of 132 by 88."""

    def __init__(self, painter: QPainter, look: Look) -> None:
        self.painter, self.look, self.p = painter, look, look.palette

    def draw(self, drawn: tuple[Stroke, ...], place: Place | None) -> None:
        for stroke in drawn:
            self.stroke(stroke, place)

    def stroke(self, stroke: Stroke, place: Place | None) -> None:
        match stroke:
            case strokes.Edge(a, b):
                self.edge(QPointF(*a), QPointF(*b))
            case strokes.Rule(a, b):
                self.rule(QPointF(*a), QPointF(*b))
            case strokes.Square(foot, top):
                self.square(QPointF(*foot), QPointF(*top))
            case strokes.Value(a, b, down):
                self.value(QPointF(*a), QPointF(*b), down)
            case strokes.Stripe(a, b):
                self.line(QPointF(*a), QPointF(*b))
            case strokes.Dots(at):
                self.dots(*(QPointF(*one) for one in at))
            case strokes.Ring(at):
                self.ring(QPointF(*at))
            case strokes.Hole(at, radius):
                self.hole(QPointF(*at), radius)
            case strokes.Corner(at):
                self.corner(QPointF(*at))
            case strokes.Says(at, text):
                self.words(QPointF(*at), text)
            case strokes.Scene(what):
                self.scene(what, place)
            case _:
                assert_never(stroke)

    def scene(self, what: Literal["board", "from the side", "sheet"], place: Place | None) -> None:
        if what == "board":
            self.board()
        elif what == "sheet":
            self.sheet()
        elif place == "saddle":
            self.straightedge_from_the_side()
        elif place in ("board end", "bridge"):
            self.top_from_the_side(at_bridge=place == "bridge")
        else:
            self.board_from_the_side()

    def pen(self, name: str, width: float = 1.4) -> None:
        self.painter.setPen(QPen(colour(name), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def bar(self, a: QPointF, b: QPointF, wide: float, over: float) -> None:
        """A flat bar lying below the line a-b."""
        line = QLineF(a, b)
        along, left = line.unitVector(), line.normalVector().unitVector()
        run, down = QPointF(along.dx(), along.dy()) * over, QPointF(-left.dx(), -left.dy()) * wide
        self.painter.drawPolygon(QPolygonF([a - run, b + run, b + run + down, a - run + down]))

    def edge(self, a: QPointF, b: QPointF) -> None:
        self.painter.setPen(QPen(colour(self.p.steel_line), 1))
        self.painter.setBrush(colour(self.p.steel))
        self.bar(a, b, 11, 10)

    def rule(self, a: QPointF, b: QPointF) -> None:
        self.edge(a, b)
        line = QLineF(a, b)
        left = line.normalVector().unitVector()
        self.pen(self.p.steel_line, 0.8)
        for k in range(1, 20):
            at = line.pointAt(k / 20)
            self.painter.drawLine(at, at + QPointF(-left.dx(), -left.dy()) * (5 if k % 5 == 0 else 3))

    def square(self, foot: QPointF, top: QPointF) -> None:
        self.painter.setPen(QPen(colour(self.p.steel_line), 1))
        self.painter.setBrush(colour(self.p.steel))
        self.painter.drawRect(QRectF(top.x(), top.y() - 6, 9, foot.y() - top.y() + 6))

    def value(self, a: QPointF, b: QPointF, down: float) -> None:
        """The arrow of what is read."""
        a, b = a + QPointF(0, down), b + QPointF(0, down)
        self.pen(self.p.ink, 1.6)
        self.painter.drawLine(a, b)
        self.painter.setBrush(colour(self.p.ink))
        for tip, other in ((a, b), (b, a)):
            turn = math.atan2(tip.y() - other.y(), tip.x() - other.x())
            wings = [tip - QPointF(math.cos(turn + s), math.sin(turn + s)) * 7 for s in (0.35, -0.35)]
            self.painter.drawPolygon(QPolygonF([tip, *wings]))

    def dots(self, *at: QPointF) -> None:
        self.painter.setPen(Qt.PenStyle.NoPen)
        self.painter.setBrush(colour(self.p.measured))
        for point in at:
            self.painter.drawEllipse(point, 3.0, 3.0)

    def ring(self, at: QPointF) -> None:
        self.pen(self.p.look, 1.8)
        self.painter.drawEllipse(at, 5.0, 5.0)

    def line(self, a: QPointF, b: QPointF) -> None:
        self.pen(self.p.before, 1.6)
        self.painter.drawLine(a, b)

    def words(self, at: QPointF, text: str) -> None:
        self.painter.setFont(self.look.font(LABEL, bold=True))
        self.pen(self.p.ink)
        self.painter.drawText(QRectF(at.x() - 20, at.y() - 10, 40, 20), Qt.AlignmentFlag.AlignCenter, text)

    def corner(self, at: QPointF) -> None:
        self.pen(self.p.ink, 1.4)
        self.painter.drawLine(at + QPointF(0, -12), at + QPointF(12, -12))
        self.painter.drawLine(at + QPointF(12, -12), at + QPointF(12, 0))

    def hole(self, at: QPointF, radius: float) -> None:
        self.pen(self.p.before, 1.6)
        self.painter.setBrush(colour(self.p.paper))
        self.painter.drawEllipse(at, radius, radius)

    def board(self) -> None:
        self.painter.setPen(QPen(colour(self.p.outline), 1))
        self.painter.setBrush(colour(self.p.board))
        self.painter.drawRect(QRectF(16, 28, 104, 32))
        for k in (1, 2, 3, 4, 5):
            x = 16 + 190 * (1 - 2 ** (-k / 7))
            self.painter.drawLine(QLineF(x, 28, x, 60))
        self.pen(self.p.quiet, 1.2)
        self.painter.drawLine(QLineF(6, 50, 126, 51))

    def board_from_the_side(self) -> None:
        self.painter.setPen(QPen(colour(self.p.outline), 1))
        self.painter.setBrush(colour(self.p.board))
        self.painter.drawRect(QRectF(8, 60, 116, 14))
        for x in (30, 66, 98):
            self.painter.drawEllipse(QPointF(x, 60), 3.5, 3.0)
        self.pen(self.p.quiet, 1.4)
        self.painter.drawLine(QLineF(4, 40, 128, 28))
        self.value(QPointF(66, 56), QPointF(66, 35), 0)

    def top_from_the_side(self, *, at_bridge: bool) -> None:
        """The top, the board ending over it, and the bridge with a string to it."""
        self.painter.setPen(QPen(colour(self.p.outline), 1))
        self.painter.setBrush(colour(self.p.board))
        self.painter.drawRect(QRectF(6, 46, 46, 18))
        self.painter.setBrush(colour(self.p.bridge))
        self.painter.drawRect(QRectF(100, 54, 24, 10))
        self.painter.drawRect(QRectF(106, 34, 4, 20))
        self.pen(self.p.outline, 1.6)
        self.painter.drawLine(QLineF(4, 64, 128, 64))
        self.pen(self.p.quiet, 1.4)
        self.painter.drawLine(QLineF(4, 36, 108, 34))
        if at_bridge:
            self.value(QPointF(92, 63), QPointF(92, 35), 0)
        else:
            self.value(QPointF(58, 63), QPointF(58, 46), 0)
            self.pen(self.p.ink, 0.8)
            self.painter.drawLine(QLineF(52, 46, 63, 46))

    def straightedge_from_the_side(self) -> None:
        """The straightedge on the frets, reaching over the bare top, and the gap under it."""
        self.painter.setPen(QPen(colour(self.p.outline), 1))
        self.painter.setBrush(colour(self.p.board))
        self.painter.drawRect(QRectF(6, 46, 56, 18))
        for x in (16, 34, 52):
            self.painter.drawEllipse(QPointF(x, 46), 3.5, 3.0)
        self.pen(self.p.outline, 1.6)
        self.painter.drawLine(QLineF(4, 64, 128, 64))
        self.painter.setPen(QPen(colour(self.p.steel_line), 1))
        self.painter.setBrush(colour(self.p.steel))
        self.painter.drawRect(QRectF(8, 32, 116, 11))
        self.value(QPointF(108, 63), QPointF(108, 44), 0)

    def sheet(self) -> None:
        self.painter.setPen(QPen(colour(self.p.outline), 1))
        self.painter.setBrush(colour(self.p.paper))
        self.painter.drawRect(QRectF(24, 12, 84, 64))
