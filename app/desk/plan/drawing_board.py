"""The drawing board: the plan with the detail beside or under it, both kept in step with the document.

The detail shows the bridge's place enlarged, or what is in hand, or wherever it was put; a frame on the plan tied to it
says which place.
"""

import msgspec
from PySide6.QtCore import QPoint, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.document.document import Document
from app.desk.plan.looking.detail_frame import frame_of
from app.desk.plan.looking.loupe import Loupe
from app.desk.plan.looking.two_places import ENLARGED
from app.desk.plan.looking.where_to_look import WhereToLook, spot_of
from app.desk.plan.painting.picture_cache import Compose
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.painting.two_pictures import TwoPictures, timer
from app.desk.plan.plan_answers import PlanAnswers
from app.desk.plan.pointing.pointer import Pointer
from app.desk.plan.pointing.pointer_notes import PointerNotes
from app.desk.plan.pointing.value_line import ValueLine
from app.desk.plan.told.telling import tell_plans
from app.desk.plan.told.told_in_words import ToldInWords
from app.desk.widgets.look import PAPER, Look
from export.drawing.marks import XY

LARGER = 1.5
"""The detail says how many times as large as the plan it is where it is so much larger."""
STANDS_OUT = ("point", "string", "reading", "pin", "post")
"""What stands out under the pointer."""
HOME = "the bridge’s place"
"""Where the detail belongs."""


class DrawingBoard(QWidget):
    """Signals: `touched` with what was clicked; `asked_menu` with what is under the pointer and where on the screen."""

    touched = Signal(str)
    asked_menu = Signal(str, QPoint)

    def __init__(self, document: Document, look: Look, compose: Compose, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self._as_printed = False
        tell_plans()
        self.plan = _plan(Plan(look, parent=self), "Plan of the instrument", "plan")
        self.detail = _plan(Plan(look, detail=True, parent=self), f"Detail of {HOME}", "detail")
        self.answers = PlanAnswers(document)
        self.where_to_look = WhereToLook(document, self.answers, self.plan, self.detail)
        self.pictures = TwoPictures(document, self.answers, self.plan, self.detail, compose, self)
        shown = self._reading_shown
        self.pointer = Pointer(document, self.answers, self.plan, shown, self)
        self.loupe = Loupe(document, self.answers, self.pointer, self.where_to_look, shown, self)
        self.told = ToldInWords(document, self.answers, self.pointer, shown, (self.plan, self.detail), self)
        self.notes = PointerNotes(self.pointer, self.answers, look)
        self.value_line = ValueLine(document, look, self)
        self._settle = timer(self, 500, self.where_to_look.go_home)  # no jumping while a number is typed
        self.plan.paint_over.append(frame_of(self.detail))
        for plan in (self.plan, self.detail):
            plan.pointer = self.pointer
            plan.paint_over.append(self.notes.paint)
            plan.view_changed.connect(self._caption)
        self._connect()

    def _connect(self) -> None:
        self.document.started.connect(self.where_to_look.forget)
        self.document.started.connect(self.loupe.forget)
        self.document.started.connect(self.pointer.let_go)
        self.pictures.options_changed.connect(self.loupe.reading_chosen)
        self.pictures.options_changed.connect(self.told.soon)
        self.loupe.moved.connect(self._detail_moved)
        self.detail.view_changed.connect(self.plan.update)
        self.pointer.changed.connect(self._pointer_changed)
        self.pointer.touched.connect(self.touched)
        self.pointer.typing.connect(self.value_line.type_here)
        self.pointer.asked_menu.connect(self.asked_menu)
        self.pointer.asked_place.connect(self.look_at)
        self.pointer.asked_home.connect(self._detail_home)

    # keeping in step

    def _reading_shown(self) -> str:
        """The reading in hand."""
        return self.pictures.options.reading

    def refresh(self) -> None:
        """Draw the document anew on both."""
        for plan in (self.plan, self.detail):
            plan.unit = self.document.job.unit
        self.answers.refresh()
        self.told.soon()
        layout = self.document.layout
        if layout is None:
            self.pictures.show_nothing()
            self.where_to_look.show_detail(self.where_to_look.wanted and self.document.fault is None)
            return
        self.pictures.draw_plan()
        self.where_to_look.show_detail(layout.saddle is not None or bool(layout.old.outline))
        if self.where_to_look.found:
            self._settle.start()
        else:
            self.where_to_look.go_home()
        self.pictures.draw_detail()
        self.pointer.tell_anew()
        self.loupe.job_changed()

    def _pointer_changed(self) -> None:
        self.loupe.hand_moved()
        over, held = self.pointer.over, f"point:{self.pointer.held}" if self.pointer.held else ""
        shown = over if over.partition(":")[0] in STANDS_OUT or self.pointer.asks_lines else ""
        self.pictures.highlight(frozenset(of for of in (shown, held) if of))
        self.plan.update()
        self.detail.update()

    def show_look(self, look: Look) -> None:
        self.look = self.notes.look = self.value_line.look = look
        shown = msgspec.structs.replace(look, palette=PAPER) if self._as_printed else look
        for plan in (self.plan, self.detail):
            plan.show_look(shown)
        self.where_to_look.go_home(resized=True)
        self.pictures.redraw_soon()

    # where one looks

    def fit(self) -> None:
        """The whole instrument on the plan, and the bridge's place in the detail."""
        self.loupe.forget()
        self.where_to_look.forget()
        self.where_to_look.go_home()
        self.pictures.redraw_soon()

    def _detail_home(self) -> None:
        """The detail back to the bridge's place."""
        self.loupe.forget()
        self.detail.put = None
        self.where_to_look.go_home(resized=True)

    def zoom(self, factor: float) -> None:
        """Enlarge whichever picture has the focus."""
        (self.detail if self.detail.hasFocus() else self.plan).zoom(factor)

    def turn_alone(self) -> None:
        """The detail alone with all the room, and back."""
        self.where_to_look.turn_alone()
        self.pictures.redraw()

    def turn(self) -> None:
        """Turn both pictures by a quarter."""
        self._see(turn=(self.plan.view.turn + 1) % 4)

    def flip(self) -> None:
        """Seen from inside, and back."""
        self._see(inside=not self.plan.view.inside)

    def toggle_print(self) -> None:
        """Both pictures as paper would show them, and back."""
        self._as_printed = not self._as_printed
        self.show_look(self.look)

    def _see(self, **how: object) -> None:
        for plan in (self.plan, self.detail):
            plan.set_view(msgspec.structs.replace(plan.view, **how))
        self.fit()
        self.pictures.redraw()

    def show_place(self, where: str) -> None:
        """Bring what a finding is about into the detail if it is not there already, and let it stand out; of a distance
        to check both ends are marked.
        """
        spot = spot_of(where, self.document.layout, self.answers.place_of)
        if spot is not None and not self.loupe.in_sight(spot):
            self.look_at(spot)
        check = self.answers.check(where)
        if check is not None:
            ends = (self.plan.to_pixels(check.from_xy), self.plan.to_pixels(check.to_xy))
            if not all(map(self.plan.area.contains, ends)):
                self.plan.put = None
                self.plan.set_view(self.where_to_look.whole_view())
            self.pointer.measure((where,))
        self.pictures.highlight_one(where)

    def look_at(self, xy: XY) -> None:
        """Bring a place into the middle of the detail; while there is no detail, enlarged into the plan's."""
        self.loupe.forget()
        if self.detail.isVisible():
            self.detail.set_view(msgspec.structs.replace(self.detail.view, centre=xy), by_hand=True)
        else:
            scale = max(self.plan.view.scale, ENLARGED * self.where_to_look.whole_view().scale)
            self.plan.set_view(msgspec.structs.replace(self.plan.view, centre=xy, scale=scale), by_hand=True)

    def _detail_moved(self) -> None:
        """Say what the detail shows, to eyes and in words."""
        self.detail.setAccessibleName(f"Detail of {self.loupe.says or HOME}")
        self._caption()
        self.detail.update()

    def _caption(self) -> None:
        times, says = self.detail.view.scale / self.plan.view.scale, self.loupe.says or "detail"
        self.detail.caption = f"{says}, {times:.1f} × the plan" if times >= LARGER else says

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.where_to_look.go_home(resized=True)


def _plan(plan: Plan, name: str, short: str) -> Plan:
    plan.setAccessibleName(name)
    plan.setAccessibleDescription(f"Arrow keys move the {short}, plus and minus enlarge it")
    return plan
