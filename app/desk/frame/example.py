"""The worked example: ten steps through a sample job, each one sentence and the place it is about."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from app.desk.cards.card_stack import CardStack
from app.desk.document.document import Document
from app.desk.widgets.notice import Notice
from app.file import samples

SAMPLE = "one-slip"


class TourStep(NamedTuple):
    """A sentence, and what the window shows with it: a card, or a place."""

    says: str
    card: str = "Measure"
    place: str = ""


TOUR = (
    TourStep("This is a sample job. Each line of the table is one reading, typed as the rule showed it."),
    TourStep(
        "The reading in hand is drawn on the plan as it is taken: straightedge, rule, value. "
        "In the table, Down takes the next."
    ),
    TourStep("The bar shows how well a reading fits the others. At the end of its line it is no longer believable."),
    TourStep(
        "One reading here is wrong. The triangle marks it, and the note under the table says by how much.",
        place="suspect",
    ),
    TourStep(
        "Measure it again and type the new value, or strike it out: it stays in the job, greyed. Undo brings it back."
    ),
    TourStep("On the plan, dots are points that were read. Point at one to see its name and how well it is known."),
    TourStep("Strings: what they are and how high they lie decides how far back each one breaks.", "Strings"),
    TourStep(
        "Bridge: the slot follows the saddle line. Teal is worked out, brown was there before.",
        "Bridge",
    ),
    TourStep(
        "Along the foot stand the distances a rule can check before the glue, each with its ±.", "Bridge", "saddle"
    ),
    TourStep(
        "Sheets: print the template at 100 %, lay a rule on its scales, both ways, and tape it on. That is all.",
        "Sheets",
    ),
)


class Example:
    """Walks through the steps in the notice bar, whose buttons alone keep it alive."""

    def __init__(self, document: Document, notice: Notice, cards: CardStack, go_to: Callable[[str], None]) -> None:
        self.document, self.notice, self.cards, self._go_to = document, notice, cards, go_to
        self.at = 0

    def show(self, pressed: str = "Next") -> None:
        """Show the step. The focus stays on the button that was pressed, so that Enter walks on."""
        step = TOUR[self.at]
        self.cards.open(step.card)
        place = self._place(step.place)
        if place:
            self._go_to(place)
        answers: list[tuple[str, Callable[[], None]]] = []
        if self.at:
            answers.append(("Back", lambda: self._go(-1, "Back")))
        if self.at < len(TOUR) - 1:
            answers.append(("Next", lambda: self._go(1, "Next")))
        self.notice.say(f"{self.at + 1} of {len(TOUR)}   {step.says}", *answers)

        names = [name for name, _ in answers]
        past_the_end = 0 if pressed == "Back" else len(names)
        self.notice.buttons[names.index(pressed) if pressed in names else past_the_end].setFocus()

    def _go(self, by: int, pressed: str) -> None:
        self.at += by
        self.show(pressed)

    def _place(self, place: str) -> str:
        layout = self.document.layout
        if place != "suspect":
            return place
        return f"reading:{layout.survey.suspects[0]}" if layout and layout.survey.suspects else ""


def sample_path() -> Path | None:
    """Where the sample job of the worked example is."""
    return samples.find(SAMPLE) or next(iter(samples.paths()), None)
