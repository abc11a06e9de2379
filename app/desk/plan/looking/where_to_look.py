"""Where the plan and the detail look when the person has not chosen: the whole instrument, and the bridge's place.

A place once found is kept while the drawing stays about as large, so that nothing jumps while a number is typed.
"""

from collections.abc import Callable

import msgspec
from PySide6.QtCore import QRectF

from app.desk.document.document import Document
from app.desk.plan.looking.two_places import CAPTION, FOOT, GAP, MARGIN, TwoPlaces, two_places
from app.desk.plan.painting.painter import boxes
from app.desk.plan.painting.plan_widget import BAND, Plan
from app.desk.plan.painting.view import Box, View, join
from app.desk.plan.plan_answers import PlanAnswers
from export.drawing.marks import XY, Drawing, Mark
from export.drawing.straight import halfway
from export.plan.headstock_drawn import place_of_headstock
from geometry.layout import Layout

EMPTY: Box = (-60.0, -190.0, 860.0, 210.0)
"""What the plan shows while there is nothing to show: the place of a usual instrument."""
AT_NUT = 36.0
"""Room before the nut, mm, where the number of its width stands."""
GROWN, SHRUNK = 0.04, 0.7
"""A place is left when the drawing outgrows it by this share, or shrinks below that share of it."""


class WhereToLook:
    """Fits both pictures, and gives each its room."""

    def __init__(self, document: Document, answers: PlanAnswers, plan: Plan, detail: Plan) -> None:
        self.document, self.answers, self.plan, self.detail = document, answers, plan, detail
        self._whole: Box | None = None
        self._place: Box | None = None
        self.wanted = self.alone = False
        """Whether the detail has anything to show, and whether it has all the room."""

    @property
    def found(self) -> bool:
        """Whether a place was found already, which is better left only when nobody types."""
        return self._whole is not None

    def forget(self) -> None:
        """Look anew next time."""
        self._whole = self._place = None
        self.plan.put = self.detail.put = None

    def go_home(self, *, resized: bool = False) -> None:
        """Fit what the person did not put elsewhere."""
        plan, detail = self.plan, self.detail
        whole = whole_of(plan.drawing) or EMPTY
        plan.instrument = detail.instrument = whole
        place = place_of_bridge(self.document.layout)
        fits = plan.put is None and (resized or not _holds(self._whole, whole))
        if resized or fits:
            self._share_out(whole, place or whole)
        if fits:
            self._whole = whole
            self.plan.set_view(self.whole_view())
            self._place = None
        if detail.put is not None:
            detail.keep_put(CAPTION * self.plan.look.text_scale)
        elif place is not None and (resized or not _holds(self._place, place)):
            self._place = place
            self._fit_detail(place)

    def _share_out(self, whole: Box, place: Box) -> None:
        """Give both their rooms on the board."""
        board = self.plan.parentWidget()
        if board is None:
            return
        if not self.wanted:
            both = TwoPlaces(board.rect(), None)
        elif self.alone:
            both = TwoPlaces(None, board.rect())
        else:
            turn = self.plan.view.turn
            both = two_places(board.rect(), _size(whole, turn), _size(place, turn), self.plan.look.text_scale)
        for picture, room in ((self.plan, both.plan), (self.detail, both.detail)):
            if room is not None:
                picture.setGeometry(room)
            picture.setVisible(room is not None)

    def show_detail(self, wanted: bool) -> None:
        """Whether there is anything that the detail could show."""
        if wanted != self.wanted:
            self.wanted = wanted
            self.go_home(resized=True)

    def turn_alone(self) -> None:
        """The detail alone with all the room, and back."""
        self.alone = not self.alone
        self.go_home(resized=True)

    def whole_view(self) -> View:
        """The whole instrument in the middle of the plan, over its scale bar."""
        plan = self.plan
        foot = FOOT + (BAND if plan.view.inside else 0)
        box = self._whole or whole_of(plan.drawing) or EMPTY
        view = plan.view.fitted(box, plan.area.width(), plan.area.height() - foot, MARGIN)
        return view.panned(0, -foot / 2)

    def _fit_detail(self, place: Box) -> None:
        detail, strip = self.detail, CAPTION * self.plan.look.text_scale
        area, seen = detail.area, self.plan.view
        view = msgspec.structs.replace(detail.view, turn=seen.turn, inside=seen.inside)
        view = view.fitted(place, area.width(), area.height() - strip, GAP)
        detail.set_view(view.panned(0, strip / 2))


def _size(box: Box, turn: int) -> tuple[float, float]:
    """How wide and high a box is on the screen, mm."""
    wide, high = box[2] - box[0], box[3] - box[1]
    return (high, wide) if turn % 2 else (wide, high)


def whole_of(drawing: Drawing | None) -> Box | None:
    """The box round everything that tells the instrument's size."""
    box = join(list(boxes(m for m in drawing.marks if _tells_size(m)))) if drawing else None
    return (box[0] - AT_NUT, *box[1:]) if box else None


def place_of_bridge(layout: Layout | None) -> Box | None:
    """The bridge, the old footprint and the slot with a little room round them; before these, where they will be."""
    if layout is None:
        return None
    spots: list[XY] = [*layout.old.outline]
    if layout.bridge is not None:
        spots += [(x, y) for x, y, _ in layout.bridge.outline]
    if layout.separate is not None:
        spots += layout.separate.corners
    elif layout.saddle is not None:
        spots += [at for slot in layout.saddle.slots for at in slot]
    if layout.floating is not None:
        spots += [at for ring in layout.floating.marks for at in ring]
    if layout.tail is not None:
        spots += [layout.tail.middle, *(string.at for string in layout.tail.strings)]
    if not spots:
        far = layout.frets.scale if layout.frets is not None else 640.0
        spots = [(far - 30, -80), (far + 40, 80)]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return (min(xs) - 24, min(ys) - 12, max(xs) + 24, max(ys) + 12)


def spot_of(where: str, layout: Layout | None, place_of: Callable[[str], XY | None]) -> XY | None:
    """Where on the instrument the thing is that a finding is about; the bridge's place where it has none of its own."""
    kind, _, name = where.partition(":")
    if layout is None:
        return None
    if kind == "point" or (kind == "old" and name):
        return place_of(name)
    if kind == "check":
        return next((check.to_xy for check in layout.checks if check.code == name), None)
    if kind == "metal" and layout.old.metal:
        return layout.old.metal[0].at
    if kind == "saddle" and name:
        return next((string.break_point for string in layout.strings if string.name == name), None)
    if kind == "string":
        return next((string.break_point for string in layout.strings if string.name == name), None)
    if kind == "fret" and layout.frets is not None:
        return next((halfway(line.left, line.right) for line in layout.frets.lines if str(line.fret) == name), None)
    if kind == "nut" and layout.neck is not None:
        return halfway(*layout.neck.nut)
    if kind == "seam" and layout.neck is not None and layout.neck.seam is not None:
        return layout.neck.seam.at
    home = _place_of_rest(where, layout) or place_of_bridge(layout)
    return halfway(home[:2], home[2:]) if home else None


def _place_of_rest(where: str, layout: Layout) -> Box | None:
    """The place of the headstock, of one of its new posts, or of the markers."""
    kind, _, name = where.partition(":")
    if kind == "headstock":
        return place_of_headstock(layout)
    found = layout.hardware.headstock
    if kind == "post" and found is not None and name.isdecimal() and 0 < int(name) <= len(found.posts):
        at = found.posts[int(name) - 1].at
        return (*at, *at)
    dots = (*layout.hardware.side, *layout.hardware.face)
    if kind == "markers" and dots:
        return (*dots[0].at, *dots[0].at)
    return None


def _holds(kept: Box | None, box: Box) -> bool:
    """Whether the place that is shown still serves for a box."""
    if kept is None:
        return False
    wide, high = kept[2] - kept[0], kept[3] - kept[1]
    room = GROWN * max(wide, high)
    inside = (
        box[0] >= kept[0] - room and box[1] >= kept[1] - room and box[2] <= kept[2] + room and box[3] <= kept[3] + room
    )
    return inside and box[2] - box[0] >= SHRUNK * wide and box[3] - box[1] >= SHRUNK * high


def _tells_size(mark: Mark) -> bool:
    return mark.purpose not in ("dimension", "note", "register", "hidden")


def as_rect(box: Box) -> QRectF:
    return QRectF(box[0], box[1], box[2] - box[0], box[3] - box[1])
