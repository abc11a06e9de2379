"""The places to choose from on the plan, while the Bridge card is open."""

import msgspec
from PySide6.QtCore import QObject

from app.desk.cards.bridge.place.choice_part import ChoicePart
from app.desk.cards.card_stack import CardStack
from app.desk.plan.painting.two_pictures import TwoPictures


class ChoiceOnPlan(QObject):
    """Lays the places that were found over the plan, and lets the one that is looked at stand out."""

    def __init__(self, part: ChoicePart, pictures: TwoPictures, stack: CardStack) -> None:
        super().__init__(part)
        self.part, self.pictures, self.stack = part, pictures, stack
        part.found.connect(self.show)
        part.pointed.connect(self.show)
        stack.currentChanged.connect(self.show)

    def show(self) -> None:
        """Lay them over the plan, or take them away."""
        card = self.stack.currentWidget()
        open_now = card is not None and card.isAncestorOf(self.part)
        places, looked_at = (self.part.places, self.part.looked_at) if open_now else ((), "")
        options = self.pictures.options
        if (places, looked_at) != (options.choices, options.chosen):
            self.pictures.show_options(msgspec.structs.replace(options, choices=places, chosen=looked_at))
