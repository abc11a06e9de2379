"""The detail as a **loupe**: it goes to the point or the reading in hand where that lies out of its sight, and comes
back to the bridge's place, or wherever the person had put it, when the hand is empty.
"""

from collections.abc import Callable

import msgspec
from PySide6.QtCore import QObject, QPointF, Signal

from app.desk.document.document import Document
from app.desk.plan.looking.two_places import ENLARGED
from app.desk.plan.looking.where_to_look import WhereToLook
from app.desk.plan.painting.two_pictures import timer
from app.desk.plan.painting.view import Box, View
from app.desk.plan.painting.view_widget import PutThere
from app.desk.plan.plan_answers import PlanAnswers
from app.desk.plan.pointing.pointer import Pointer
from app.desk.plan.pointing.pointer_states import Dragging
from export.drawing.marks import XY
from geometry import words
from geometry.job import Reading

APART = 130.0
"""Points farther apart (mm) are not seen at once: the loupe goes to where the rule is read. The width of any
fingerboard lies within it; common practice, no source."""
INNER = 0.42
"""What lies within this share of the detail's width and height from its middle is in sight."""
ROOM = 12.0
"""Room round what is shown, mm."""


class Loupe(QObject):
    """Signals: `moved` when it went elsewhere. `says`: what it was brought to; nothing where it was not."""

    moved = Signal()

    def __init__(
        self,
        document: Document,
        answers: PlanAnswers,
        pointer: Pointer,
        where_to_look: WhereToLook,
        reading_shown: Callable[[], str],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self.document, self.answers, self.pointer, self._reading_shown = document, answers, pointer, reading_shown
        self.where_to_look, self.detail = where_to_look, where_to_look.detail
        self.says = ""
        self._held = self._reading = self._wanted = ""
        self._home: tuple[View, PutThere | None] | None = None
        self._soon = timer(self, 200, self._follow)  # not at each row that is walked over

    def hand_moved(self) -> None:
        """Another point is in hand, or none."""
        if self.pointer.held != self._held:
            self._held = self.pointer.held
            self._want(f"point:{self._held}" if self._held else "")

    def reading_chosen(self) -> None:
        """Another reading is in hand, or none. One that is chosen because its card opens brings the loupe nowhere."""
        before, self._reading = self._reading, self._reading_shown()
        reading = self._find(self._reading)
        if before != self._reading and not (reading and self._held in reading.of):
            self._want(f"reading:{self._reading}" if before and self._reading else "")

    def job_changed(self) -> None:
        """What is in hand may have moved."""
        if self._wanted and not self._soon.isActive():
            self._soon.start()

    def forget(self) -> None:
        """The detail is where it belongs."""
        self._soon.stop()
        self._wanted, self._home = "", None
        self._tell("")

    def in_sight(self, spot: XY) -> bool:
        """Whether a place is seen in the detail already, and not at its edge."""
        return self.detail.isVisible() and self._in_sight(self.detail.view, [spot])

    def _want(self, wanted: str) -> None:
        if wanted != self._wanted:
            self._wanted = wanted
            self._soon.start()

    def _follow(self) -> None:
        """Go to what is in hand, or come back."""
        if not self.detail.isVisible():
            return
        spots, said = self._spots()
        home = self._home[0] if self._home else self.detail.view
        if not spots or self._in_sight(home, spots):
            self._come_back()
        elif not self._under_the_mouse():
            self._go(spots, said)

    def _under_the_mouse(self) -> bool:
        """Whether a point is being dragged in the detail itself, which must not move away under the mouse."""
        return isinstance(self.pointer.state, Dragging) and self.detail.underMouse()

    def _go(self, spots: list[XY], said: str) -> None:
        detail, plan = self.detail, self.where_to_look.plan
        if self._home is None:
            self._home = detail.view, detail.put
        if not self._in_sight(detail.view, spots):
            box = _around(spots)
            fits = detail.view.fitted(box, detail.area.width(), detail.area.height())
            scale = max(min(fits.scale, detail.view.scale), ENLARGED * plan.view.scale)
            detail.set_view(msgspec.structs.replace(fits, scale=scale), by_hand=True)
        self._tell(said)

    def _come_back(self) -> None:
        if self._home is not None:
            self.detail.put = self._home[1]
            self._home = None
            self.where_to_look.go_home(resized=True)
        self._tell("")

    def _tell(self, said: str) -> None:
        if said != self.says:
            self.says = said
            self.moved.emit()

    def _in_sight(self, view: View, spots: list[XY]) -> bool:
        wide, high = self.detail.width(), self.detail.height()
        onto = view.transform(wide, high)
        off = [onto.map(QPointF(*spot)) - QPointF(wide / 2, high / 2) for spot in spots]
        return all(abs(at.x()) < INNER * wide and abs(at.y()) < INNER * high for at in off)

    # what is in hand

    def _find(self, reading_id: str) -> Reading | None:
        return next((reading for reading in self.document.job.readings if reading.id == reading_id), None)

    def _spots(self) -> tuple[list[XY], str]:
        """The places that matter of what is in hand, and what they are called."""
        kind, _, name = self._wanted.partition(":")
        if kind == "point":
            place = self.answers.place_of(name)
            return ([place], words.point(name, self.document.job.hand)) if place else ([], "")
        reading = self._find(name) if kind else None
        return self._read_at(reading) if reading is not None else ([], "")

    def _read_at(self, reading: Reading) -> tuple[list[XY], str]:
        """Where a reading is read: at both its points where they are seen at once, else at the last; or at its fret."""
        if reading.kind == "fret":
            layout, fret = self.document.layout, reading.fret
            lines = layout.frets.lines if layout is not None and layout.frets is not None else ()
            found = next((line for line in lines if line.fret == fret), None)
            return ([found.left, found.right], f"fret {fret}") if found else ([], "")
        spots = [place for point in reading.of if (place := self.answers.place_of(point)) is not None]
        if not spots:
            return [], ""
        box = _around(spots)
        together = max(box[2] - box[0], box[3] - box[1]) <= APART + 2 * ROOM
        said = words.point(reading.of[-1], self.document.job.hand)
        if not together:
            return spots[-1:], said
        return spots, said.partition(", ")[0] if len(spots) > 1 else said


def _around(spots: list[XY]) -> Box:
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return min(xs) - ROOM, min(ys) - ROOM, max(xs) + ROOM, max(ys) + ROOM
