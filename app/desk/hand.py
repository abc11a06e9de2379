"""The hand: the desk's only state machine. It hovers, drags, nudges, types in place, asks how far, and points out a
reading on the plan.

The rule of dragging: a point known only by `at` edits that reading; a point with no reading edits its rough place; a
measured point stays put and shows which readings hold it.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, QPointF, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent, QMouseEvent

from app import edits, words
from app.desk.plan import Plan
from geometry.job import Job
from geometry.layout import XY

if TYPE_CHECKING:
    from app.desk.drawing_board import DrawingBoard

REACH = 9.0
"""How near the pointer must come to a mark, in pixels."""
NUDGE, STRIDE = 0.1, 1.0
"""One press of an arrow key moves a point by so many mm; with Shift by a stride."""


class Idle(msgspec.Struct, frozen=True):
    """Nothing is going on; `over` is what the pointer is over, `held` the point that keys move."""

    over: str = ""
    held: str = ""


class Dragging(msgspec.Struct, frozen=True):
    """A point is being dragged from where it was pressed; `count` tells one drag from the next."""

    point: str
    last: XY
    count: int


class Pointing(msgspec.Struct, frozen=True):
    """Points are being pointed out one after the other: `says` what each is for; `done` is called with all of them."""

    says: tuple[str, ...]
    done: Callable[[tuple[str, ...]], None]
    got: tuple[str, ...] = ()


State = Idle | Dragging | Pointing


class Hand(QObject):
    """Signals: `changed` when something else is to be painted; `touched` with the mark's `of` when one is clicked;
    `typing` with a reading's id when its number is to be typed on the plan.
    """

    changed = Signal()
    touched = Signal(str)
    typing = Signal(Plan, str)

    def __init__(self, board: "DrawingBoard") -> None:
        super().__init__(board)
        self.board, self.document = board, board.document
        self.state: State = Idle()
        self.says = ""
        self.measured: tuple[XY, XY, str] | None = None
        self._count = 0

    # what the pointer is over

    def _over(self, plan: Plan, at: QPointF) -> str:
        return plan.mark_at(at, REACH, points_only=isinstance(self.state, Pointing))

    def _become(self, state: State) -> None:
        if state != self.state:
            self.state = state
            self.changed.emit()

    @property
    def over(self) -> str:
        return self.state.over if isinstance(self.state, Idle) else ""

    @property
    def held(self) -> str:
        """The point in hand, or nothing."""
        match self.state:
            case Idle(_, held):
                return held
            case Dragging(point, _, _):
                return point
            case _:
                return ""

    # mouse

    def press(self, plan: Plan, at: QPointF, event: QMouseEvent) -> bool:
        if event.button() != Qt.MouseButton.LeftButton:
            return False
        plan.setFocus(Qt.FocusReason.MouseFocusReason)
        over = self._over(plan, at)
        kind, _, name = over.partition(":")
        if isinstance(self.state, Pointing):
            if kind == "point":
                self._pointed(name)
            return kind == "point"
        self.measured = None
        if kind == "point":
            self._count += 1
            self._become(Dragging(name, plan.to_mm(at), self._count))
            self.touched.emit(over)
            return True
        self.says = ""
        self._become(Idle(over))
        if over:
            self.touched.emit(over)
        if kind == "reading":
            self.typing.emit(plan, name)
        return bool(over) and kind in ("reading", "string", "pin")

    def move(self, plan: Plan, at: QPointF, _event: QMouseEvent) -> bool:
        match self.state:
            case Dragging(point, last, count):
                here = plan.to_mm(at)
                self._move_point(point, (here[0] - last[0], here[1] - last[1]), here, f"drag {count}")
                if isinstance(self.state, Dragging):
                    self.state = Dragging(point, here, count)
            case Idle(_, held):
                over = self._over(plan, at)
                plan.setCursor(Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.ArrowCursor)
                self._become(Idle(over, held))
            case Pointing():
                over = self._over(plan, at)
                cross, hand = Qt.CursorShape.CrossCursor, Qt.CursorShape.PointingHandCursor
                plan.setCursor(hand if over.startswith("point:") else cross)
        return True

    def release(self, _plan: Plan, _at: QPointF, _event: QMouseEvent) -> bool:
        if isinstance(self.state, Dragging):
            self._become(Idle(f"point:{self.state.point}", self.state.point))
            return True
        return False

    def double(self, plan: Plan, at: QPointF) -> bool:
        over = self._over(plan, at)
        if over.startswith("reading:"):
            self.typing.emit(plan, over.partition(":")[2])
        elif not over and plan.is_detail:
            self.board.fit_detail()
        elif not over:
            self.board.look_at(plan.to_mm(at))
        return True

    def menu(self, plan: Plan, at: QPointF, event: QContextMenuEvent) -> bool:
        self.board.asked_menu.emit(self._over(plan, at), event.globalPos())
        return True

    def leave(self, _plan: Plan) -> None:
        if isinstance(self.state, Idle) and self.state.over:
            self._become(Idle("", self.state.held))

    # keys

    def key(self, plan: Plan, event: QKeyEvent) -> bool:
        if event.key() == Qt.Key.Key_Escape:
            return self.let_go()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.board.wish.reading:
            self.typing.emit(plan, self.board.wish.reading)
            return True
        if event.text() in (".", ","):
            return self._next_point(1 if event.text() == "." else -1)
        step = _arrow(event)
        if step is None or not self.held:
            return False
        here = plan.to_pixels((0.0, 0.0))
        there = plan.to_mm(QPointF(here.x() + step[0], here.y() + step[1]))
        size = STRIDE if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else NUDGE
        long = max(abs(there[0]), abs(there[1]))
        by = (round(there[0] / long) * size, round(there[1] / long) * size)
        place = self.board.place_of(self.held)
        if place is not None:
            self._move_point(self.held, by, (place[0] + by[0], place[1] + by[1]), f"nudge {self.held}")
        return True

    def let_go(self) -> bool:
        """Put everything down: no point held, nothing said, nothing asked. Whether there was anything."""
        was = self.state != Idle() or bool(self.says) or self.measured is not None
        self.says, self.measured = "", None
        self._become(Idle())
        self.changed.emit()
        return was

    def _next_point(self, step: int) -> bool:
        """Take the next point in hand, in the job's order, or point it out."""
        names = [name for name in self.document.job.points if self.board.place_of(name) is not None]
        if not names:
            return False
        if isinstance(self.state, Pointing):
            return False
        at = names.index(self.held) + step if self.held in names else 0
        name = names[at % len(names)]
        self.says = self.board.about(f"point:{name}")
        self._become(Idle(f"point:{name}", name))
        self.touched.emit(f"point:{name}")
        return True

    # moving points by the rule

    def _move_point(self, name: str, by: XY, to: XY, merge: str) -> None:
        job = self.document.job
        said = words.point(name, job.hand)
        match edits.how_movable(job, name):
            case "near":
                self._edit(f"place of {said}", edits.move_near(job, name, to), merge)
            case "placed":
                turn = self.board.placed_turn()
                self._edit(f"place of {said}", edits.move_placed(job, name, edits.turned(by, -turn)), merge)
            case _:
                held = [words.reading(r, job.hand) for r in edits.holds(job, name)]
                shown = [f"“{text}”" for text in held[:3]] + ([f"{len(held) - 3} more"] if len(held) > 3 else [])
                self.says = f"{words.first_large(said)} was measured and stays: held by {words.joined(shown)}."
                self.changed.emit()

    def _edit(self, text: str, job: Job, merge: str) -> None:
        self.document.edit(text, job, merge)

    # pointing things out

    def point_out(self, says: tuple[str, ...], done: Callable[[tuple[str, ...]], None]) -> None:
        """Ask the person to point out as many points as there are sentences; then call `done` with their names."""
        self.measured = None
        self.says = says[0]
        self._become(Pointing(says, done))
        self.board.plan.setFocus(Qt.FocusReason.OtherFocusReason)

    def _pointed(self, name: str) -> None:
        assert isinstance(self.state, Pointing)
        if self.state.got and self.state.got[-1] == name:
            return
        got = (*self.state.got, name)
        if len(got) < len(self.state.says):
            self.says = self.state.says[len(got)]
            self._become(msgspec.structs.replace(self.state, got=got))
            return
        done = self.state.done
        self.says = ""
        self._become(Idle())
        done(got)

    def ask_distance(self) -> None:
        """How far is it from here to there?"""
        self.point_out(("How far? Point at where it starts.", "Point at where it ends."), self._tell_distance)

    def _tell_distance(self, got: tuple[str, ...]) -> None:
        told = self.board.distance(got[0], got[1])
        a, b = self.board.place_of(got[0]), self.board.place_of(got[1])
        if told and a and b:
            self.measured = (a, b, told)
            hand = self.document.job.hand
            self.says = f"From {words.point(got[0], hand)} to {words.point(got[1], hand)}: {told}."
        self.changed.emit()


def _arrow(event: QKeyEvent) -> tuple[float, float] | None:
    return {
        Qt.Key.Key_Left: (-100.0, 0.0),
        Qt.Key.Key_Right: (100.0, 0.0),
        Qt.Key.Key_Up: (0.0, -100.0),
        Qt.Key.Key_Down: (0.0, 100.0),
    }.get(Qt.Key(event.key()))
