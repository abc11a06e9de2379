"""What the plan and the detail show, told to who can't see it: the description of each, kept in step with the job and
the hand, once nothing changes any more.
"""

from collections.abc import Callable

from PySide6.QtCore import QObject, QPointF

from app.desk.document.document import Document
from app.desk.plan.plan_answers import PlanAnswers
from app.desk.plan.plan_widget import Plan
from app.desk.plan.pointer import Pointer
from app.desk.plan.two_pictures import timer
from export.drawing.marks import XY

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
        self._keys = [plan.accessibleDescription() for plan in plans]
        self._rest = timer(self, REST, self.tell)
        pointer.changed.connect(self.soon)
        plans[1].view_changed.connect(self.soon)

    def soon(self) -> None:
        """Something changed; it is told when nothing more does."""
        self._rest.start()

    def tell(self) -> None:
        """Tell it now."""
        from app.say import plan_in_words  # it loads what the first picture does not wait for

        job, layout, held = self.document.job, self.document.layout, self.pointer.held
        at = self.answers.place_of(held) if held else None
        hand = plan_in_words.in_hand(job, layout, self._reading_shown(), held, at)
        detail = self.plans[1]

        def in_detail(xy: XY) -> bool:
            place = detail.to_pixels(xy)
            return detail.area.contains(QPointF(place))

        for plan, keys in zip(self.plans, self._keys, strict=True):
            told = (
                plan_in_words.overview(job, layout, in_detail)
                if plan is detail
                else plan_in_words.overview(job, layout)
            )
            says = "\n".join(line for line in (hand, *told, f"{keys}.") if line)
            if says != plan.accessibleDescription():
                plan.setAccessibleDescription(says)
