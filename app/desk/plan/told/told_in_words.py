"""What the plan and the detail show, told to who can't see it: as the description of each, and thing by thing; kept in
step with the job and the hand, once nothing changes any more.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, QPointF

from app.desk.document.document import Document
from app.desk.plan.looking.where_to_look import spot_of
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.painting.two_pictures import timer
from app.desk.plan.plan_answers import PlanAnswers
from app.desk.plan.pointing.pointer import Pointer
from app.desk.plan.pointing.pointer_states import Pointing
from app.desk.plan.told.things_on_plan import ThingsOnPlan
from export.drawing.marks import XY

if TYPE_CHECKING:
    from app.say.plan.plan_in_words import Shown

REST = 200
"""So long (ms) after the last change it is told anew: not at each key."""


class ToldInWords(QObject):
    """`keys`: what the keys do on a picture, which stands at the end of what is told."""

    def __init__(
        self,
        document: Document,
        answers: PlanAnswers,
        pointer: Pointer,
        reading_shown: Callable[[], str],
        plans: tuple[Plan, Plan],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self.document, self.answers, self.pointer, self._reading_shown = document, answers, pointer, reading_shown
        self.plans = plans
        self._things = [ThingsOnPlan(plan) for plan in plans]
        self._keys = [plan.accessibleDescription() for plan in plans]
        self._rest = timer(self, REST, self.tell)
        pointer.changed.connect(self.soon)
        plans[1].view_changed.connect(self.soon)

    def soon(self) -> None:
        """Something changed; it is told when nothing more does."""
        self._rest.start()

    def tell(self) -> None:
        """Tell it now."""
        from app.say.plan import plan_in_words  # it loads what the first picture does not wait for

        job, layout, held = self.document.job, self.document.layout, self.pointer.held
        place_of, reading = self.answers.place_of, self._reading_shown()
        hand = plan_in_words.in_hand(job, layout, reading, held, place_of(held) if held else None)
        drawn = self.answers.drawn_from
        rough = drawn.rough if drawn is not None else {}
        for plan, on_plan, keys in zip(self.plans, self._things, self._keys, strict=True):
            in_sight = _seen_in(plan) if plan.is_detail else _anywhere
            things = plan_in_words.shown(job, layout, rough, in_sight)
            told = (*plan_in_words.missing(layout), *(thing.sentence for thing in things))
            says = "\n".join(line for line in (hand, *told, f"{keys}.") if line)
            if says != plan.accessibleDescription():
                plan.setAccessibleDescription(says)
            on_plan.show((*plan_in_words.reading_shown(job, reading, place_of), *map(self._placed, things)), self._at)

    @property
    def _at(self) -> str:
        """What the mark stands for that keys have come to: the point in hand, or what is being pointed out."""
        pointing = isinstance(self.pointer.state, Pointing)
        return f"point:{self.pointer.held}" if self.pointer.held else self.pointer.over if pointing else ""

    def _placed(self, thing: "Shown") -> "Shown":
        """A finding stands where a click on it leads to."""
        spot = None if thing.at else spot_of(thing.of, self.document.layout, self.answers.place_of)
        return msgspec.structs.replace(thing, at=(spot,)) if spot is not None else thing


def _seen_in(plan: Plan) -> Callable[[XY], bool]:
    return lambda xy: plan.area.contains(QPointF(plan.to_pixels(xy)))


def _anywhere(_: XY) -> bool:
    return True
