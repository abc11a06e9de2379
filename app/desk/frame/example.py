"""The worked example: ten steps through a sample job, each one sentence and the place it is about."""

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from app.file import samples

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk

SAMPLE = "one-slip"


class Step(NamedTuple):
    """A sentence, and what the desk shows with it: a card, or a place."""

    says: str
    card: str = "Measure"
    place: str = ""


STEPS = (
    Step("This is a sample job. Each line of the table is one reading, typed as the rule showed it."),
    Step(
        "The reading in hand is drawn on the plan as it is taken: straightedge, rule, value. "
        "In the table, Down takes the next."
    ),
    Step("The bar shows how well a reading fits the others. At the end of its line it is no longer believable."),
    Step(
        "One reading here is wrong. The triangle marks it, and the note under the table says by how much.",
        place="suspect",
    ),
    Step(
        "Measure it again and type the new value, or strike it out: it stays in the job, greyed. Undo brings it back."
    ),
    Step("On the plan, dots are points that were read. Point at one to see its name and how well it is known."),
    Step("Strings: what they are and how high they lie decides how far back each one breaks.", "Strings"),
    Step(
        "Bridge: the slot follows the saddle line. Teal is worked out, brown was there before.",
        "Bridge",
    ),
    Step("Along the foot stand the distances a rule can check before the glue, each with its ±.", "Bridge", "saddle"),
    Step(
        "Sheets: print the template at 100 %, lay a rule on its scales, both ways, and tape it on. That is all.",
        "Sheets",
    ),
)


class Example:
    """Walks through the steps in the notice bar, whose buttons alone keep it alive."""

    def __init__(self, desk: "Desk") -> None:
        self.desk = desk
        self.at = 0

    def show(self, pressed: str = "Next") -> None:
        """Show the step. The focus stays on the button that was pressed, so that Enter walks on."""
        step = STEPS[self.at]
        self.desk.open_card(step.card)
        place = self._place(step.place)
        if place:
            self.desk.go_to(place)
        answers: list[tuple[str, Callable[[], None]]] = []
        if self.at:
            answers.append(("Back", lambda: self._go(-1, "Back")))
        if self.at < len(STEPS) - 1:
            answers.append(("Next", lambda: self._go(1, "Next")))
        self.desk.notice.say(f"{self.at + 1} of {len(STEPS)}   {step.says}", *answers)

        names = [name for name, _ in answers]
        past_the_end = 0 if pressed == "Back" else len(names)
        self.desk.notice.buttons[names.index(pressed) if pressed in names else past_the_end].setFocus()

    def _go(self, by: int, pressed: str) -> None:
        self.at += by
        self.show(pressed)

    def _place(self, place: str) -> str:
        layout = self.desk.document.layout
        if place != "suspect":
            return place
        return f"reading:{layout.survey.suspects[0]}" if layout and layout.survey.suspects else ""


def begin(desk: "Desk") -> None:
    """Open the sample and show the first step."""
    path = samples.find(SAMPLE) or next(iter(samples.paths()), None)
    if path is None:
        desk.say_wrong("The sample jobs are missing; install the program again.")
        return
    if desk.doors.open_sample(path):
        desk.board.fit()
        Example(desk).show()
