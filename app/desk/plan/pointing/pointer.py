"""The pointer on the plan: the desk's only state machine. It hovers, drags, nudges, types in place, asks how far, and
points out a reading.

The rule of dragging: a point known only by `at`, or only pointed at, edits its readings; a point with no reading edits
its rough place; a measured point stays put and shows which readings hold it.
"""

from collections.abc import Callable

import msgspec
from PySide6.QtCore import QObject, QPoint, QPointF, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent, QMouseEvent

from app.desk.document.document import Document
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.plan_answers import DistanceAnswer, PlanAnswers
from app.desk.plan.pointing.clicked_places import Placing
from app.desk.plan.pointing.moving_points import move_point
from app.desk.plan.pointing.pointer_states import DistanceShown, Dragging, Idle, Pointing, State
from geometry.layout import LINES, XY

REACH = 9.0
"""How near the pointer must come to a mark, in pixels."""
CLOSE = 5.0
"""How near, where a place beside it may be meant as well."""
NUDGE, STRIDE = 0.1, 1.0
"""One press of an arrow key moves a point by so many mm; with Shift by a stride."""


class Pointer(QObject):
    """Signals: `changed` when something else is to be painted; `touched` with the mark's `of` when one is clicked;
    `typing` with a reading's id when its number is to be typed on the plan; `asked_menu` with the mark's `of` and where
    on the screen; `asked_place` and `asked_home` when the detail is to show a place, or the bridge's again.
    """

    changed = Signal()
    touched = Signal(str)
    typing = Signal(Plan, str)
    asked_menu = Signal(str, QPoint)
    asked_place = Signal(object)
    asked_home = Signal()

    def __init__(
        self, document: Document, answers: PlanAnswers, plan: Plan, reading_shown: Callable[[], str], parent: QObject
    ) -> None:
        super().__init__(parent)
        self.document, self.answers, self.plan, self._reading_shown = document, answers, plan, reading_shown
        self.state: State = Idle()
        self.says = ""
        self.answer = DistanceAnswer("")
        self._count = 0

    def _over(self, plan: Plan, at: QPointF) -> str:
        match self.state:
            case Placing():
                return plan.mark_at(at, CLOSE, only=())
            case Pointing():
                return plan.mark_at(at, REACH, only=LINES if self.state.lines else ())
        return plan.mark_at(at, REACH)

    def _become(self, state: State) -> None:
        if state != self.state:
            self.state = state
            self.changed.emit()

    @property
    def over(self) -> str:
        match self.state:
            case Idle(over, _):
                return over
            case Pointing() | DistanceShown():
                return self.state.at
            case Dragging() | Placing() | DistanceShown():
                return ""

    @property
    def asks_lines(self) -> bool:
        return isinstance(self.state, Pointing) and self.state.lines

    @property
    def held(self) -> str:
        """The point that keys move, or nothing."""
        match self.state:
            case Idle(_, held):
                return held
            case Dragging(point, _, _):
                return point
            case Pointing() | Placing() | DistanceShown():
                return ""

    def press(self, plan: Plan, at: QPointF, event: QMouseEvent) -> bool:
        if event.button() != Qt.MouseButton.LeftButton:
            return False
        plan.setFocus(Qt.FocusReason.MouseFocusReason)
        over = self._over(plan, at)
        kind, _, name = over.partition(":")
        if isinstance(self.state, Pointing):
            self._pointed(over)
            return bool(over)
        if isinstance(self.state, Placing):
            self._go_on(self.state.with_more(name if kind == "point" else plan.to_mm(at)))
            return True
        if kind == "point":
            self._count += 1
            self._become(Dragging(name, plan.to_mm(at), self._count))
            self.touched.emit(over)
            return True
        self.says, self.answer = "", DistanceAnswer("")
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
            case Pointing() | Placing() | DistanceShown():
                over, shows = self._over(plan, at), isinstance(self.state, DistanceShown)
                rest = Qt.CursorShape.ArrowCursor if shows else Qt.CursorShape.CrossCursor
                plan.setCursor(Qt.CursorShape.PointingHandCursor if over else rest)
                if not isinstance(self.state, Placing):
                    self._become(msgspec.structs.replace(self.state, at=over))
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
            self.asked_home.emit()
        elif not over:
            self.asked_place.emit(plan.to_mm(at))
        return True

    def menu(self, plan: Plan, at: QPointF, event: QContextMenuEvent) -> bool:
        self.asked_menu.emit(self._over(plan, at), event.globalPos())
        return True

    def leave(self, _plan: Plan) -> None:
        if isinstance(self.state, Idle) and self.state.over:
            self._become(Idle("", self.state.held))

    # keys

    def key(self, plan: Plan, event: QKeyEvent) -> bool:
        if event.key() == Qt.Key.Key_Escape:
            return self.let_go()
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if isinstance(self.state, Placing) and (enter or event.key() == Qt.Key.Key_Backspace):
            self._go_on(self.state if enter else self.state.with_one_less(), ended=enter)
            return True
        if enter and isinstance(self.state, Pointing):
            self._pointed(self.state.at)
            return True
        if enter and self._reading_shown():
            self.typing.emit(plan, self._reading_shown())
            return True
        if event.text() in (".", ","):
            return self._next_point(1 if event.text() == "." else -1)
        step = _arrow(event)
        if step is None or not self.held:
            return False
        by = _nudge(plan, step, event)
        place = self.answers.place_of(self.held)
        if place is not None:
            self._move_point(self.held, by, (place[0] + by[0], place[1] + by[1]), f"nudge {self._count}")
        return True

    def let_go(self) -> bool:
        """Put everything down: no point held, nothing said, nothing asked. Whether there was anything.

        A point that is being dragged goes back to where it was.
        """
        if isinstance(self.state, Dragging):
            self.document.give_up(f"drag {self.state.count}")
        was = self.state != Idle() or bool(self.says)
        self.says, self.answer = "", DistanceAnswer("")
        self._count += 1
        self._become(Idle())
        self.changed.emit()
        return was

    def _next_point(self, step: int) -> bool:
        """Choose the next point, in the job's order; while things are pointed out walk to the next of them."""
        names = [name for name in self.document.job.points if self.answers.place_of(name) is not None]
        if not names:
            return False
        if isinstance(self.state, Pointing):
            drawing = self.plan.drawing if self.state.lines else None
            drawn = {mark.of for mark in drawing.marks} if drawing is not None else set()
            things = [*(f"point:{name}" for name in names), *(line for line in LINES if line in drawn)]
            self._become(msgspec.structs.replace(self.state, at=_walked(things, self.state.at, step)))
            return True
        self._count += 1
        name = _walked(names, self.held, step)
        self.says = self.answers.about(name)
        self._become(Idle(f"point:{name}", name))
        self.touched.emit(f"point:{name}")
        return True

    def _move_point(self, name: str, by: XY, to: XY, merge: str) -> None:
        held = move_point(self.document, self.answers, name, by, to, merge)
        if held:
            self.says = held
            self.changed.emit()

    # pointing things out

    def point_out(self, says: tuple[str, ...], done: Callable[[tuple[str, ...]], None], *, lines: bool = False) -> None:
        """Ask the person to point out as many things as there are sentences; then call `done` with their names: points
        by their own, or, where `lines` may be pointed at, by their marks.
        """
        self.answer = DistanceAnswer("")
        self._become(Pointing(says, done, lines))
        self._ask()
        self.plan.setFocus(Qt.FocusReason.OtherFocusReason)

    def _ask(self) -> None:
        if isinstance(self.state, Pointing):
            self.says = f"{self.state.says[len(self.state.got)]} Keys: “.” and “,” go on and back, Enter takes it."
            self.changed.emit()

    def _pointed(self, thing: str) -> None:
        assert isinstance(self.state, Pointing)
        if not thing or (self.state.got and self.state.got[-1] == thing):
            return
        got = (*self.state.got, thing)
        if len(got) < len(self.state.says):
            self._become(msgspec.structs.replace(self.state, got=got))
            self._ask()
            return
        done, lines = self.state.done, self.state.lines
        self.says = ""
        self._become(Idle())
        done(got if lines else tuple(name.removeprefix("point:") for name in got))

    def place(self, says: str, done: Callable[[tuple[str | XY, ...]], None]) -> None:
        """Ask for places in order, anywhere or at points that are there; when Enter ends, call `done` with them."""
        self.answer = DistanceAnswer("")
        self._go_on(Placing(says, done))
        self.plan.setFocus(Qt.FocusReason.OtherFocusReason)

    def _go_on(self, state: Placing, *, ended: bool = False) -> None:
        self.says = "" if ended else state.sentence
        self._become(Idle() if ended else state)
        if ended and state.got:
            state.done(state.got)

    def ask_distance(self) -> None:
        """How far is it from here to there?"""
        self.point_out(("How far? Point at where it starts.", "Point at where it ends."), self.measure, lines=True)

    def measure(self, got: tuple[str, ...]) -> None:
        """Show how far it is: between two things, or between the ends of a distance to check, `check:fret12.slot`."""
        self._become(DistanceShown(*got))
        self.tell_anew()

    def tell_anew(self) -> None:
        """Work the answer out anew, for the job has changed."""
        if isinstance(self.state, DistanceShown):
            self.answer = self.answers.how_far(self.state.a, self.state.b)
            self.says = self.answer.says
            self.changed.emit()


def _walked(things: list[str], at: str, step: int) -> str:
    """The thing so many steps on from the one at hand, round and round; the first where none is at hand."""
    return things[(things.index(at) + step if at in things else 0) % len(things)]


def _arrow(event: QKeyEvent) -> tuple[float, float] | None:
    return {
        Qt.Key.Key_Left: (-100.0, 0.0),
        Qt.Key.Key_Right: (100.0, 0.0),
        Qt.Key.Key_Up: (0.0, -100.0),
        Qt.Key.Key_Down: (0.0, 100.0),
    }.get(Qt.Key(event.key()))


def _nudge(plan: Plan, step: tuple[float, float], event: QKeyEvent) -> XY:
    """How far an arrow key moves a point, mm: along the screen as one sees the instrument."""
    here = plan.to_pixels((0.0, 0.0))
    there = plan.to_mm(QPointF(here.x() + step[0], here.y() + step[1]))
    size = STRIDE if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else NUDGE
    long = max(abs(there[0]), abs(there[1]))
    return round(there[0] / long) * size, round(there[1] / long) * size
