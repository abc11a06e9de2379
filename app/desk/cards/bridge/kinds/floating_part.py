"""The Bridge card's rows for a bridge that is held by the strings alone."""

from typing import Any

from msgspec.structs import replace
from PySide6.QtWidgets import QWidget

from app.desk.cards.bridge.kinds.kind_part import KindPart
from app.desk.cards.form import Get, Name, Put
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import plain_button
from app.desk.widgets.inputs.fields import Field
from app.desk.widgets.look import Look
from app.edit.bridge import bridge_entries, held_entries, standing_entries
from geometry import words
from geometry.job import Job

PEAKS = [
    (0.0, "at the front"),
    (0.25, "a quarter in"),
    (0.5, "in the middle"),
    (0.75, "three quarters in"),
    (1.0, "at the back"),
]


class FloatingPart(KindPart):
    """What is asked of a bridge that is held by the strings alone."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self._crown()
        self._feet()
        self._today()
        self._marks()

    def _crown(self) -> None:
        form = self.form
        form.section("Crown", "The upper edge that the strings break on.")
        form.length("Thickness", *_saddle("thickness"), key="saddle.thickness")
        form.choice("It peaks", PEAKS, *_saddle("peak_at"), key="saddle.peak_at")
        says = "Empty: the strings and a little, as far as the bridge is long."
        form.length("Crown’s length", *_saddle("slot_length"), optional=True, says=says, key="saddle.slot_length")
        form.tick("Each string lies in a notch", *held_entries.field("floating", "notched"), key="floating.notched")
        form.tick(
            "Straight across, without slant",
            *_saddle("straight"),
            says="It stands square to the neck; what that costs is said in cents.",
            key="saddle.straight",
        )

    def _feet(self) -> None:
        form = self.form
        form.section("Feet")
        form.length("Length, foot end to foot end", *held_entries.field("floating", "length"), key="floating.length")
        form.length("Width at the feet", *held_entries.field("floating", "width"), key="floating.width")
        feet, put = standing_entries.count, standing_entries.put_count
        form.choice("It stands on", standing_entries.FEET, feet, put, key="floating.feet", wide=True)
        self.feet: tuple[Field, ...] = (
            form.length(_at_side("Foot", "left"), *standing_entries.foot(0)),
            form.length("Foot in the middle", *standing_entries.foot(1)),
            form.length(_at_side("Foot", "right"), *standing_entries.foot(-1)),
        )
        says = "From the feet’s front edge back to the crown’s middle. Empty: half the width."
        name, key = "Front to crown", "floating.front_to_crown"
        form.length(name, *held_entries.field("floating", "front_to_crown"), optional=True, says=says, key=key)
        for index, side in enumerate(("left", "right")):
            says = "" if index == 0 else "Held against what the strings ask for. Empty: not told."
            field, key = standing_entries.height(index), f"floating.height.{side}"
            form.length(_at_side("Height over the top", side), *field, optional=True, says=says, key=key)

    def _today(self) -> None:
        says = "Read where its feet stand, and how far it is to be slid is said; it is then a trial for the ear, too."
        self.form.section("Where it stands today", says)
        off = (lambda job: job.is_bridge_off), (lambda job, on: replace(job, bridge_off=on))
        says = "Then the job sheet’s steps stand a bridge up; else they slide the one that stands."
        self.form.tick("The old bridge is off", *off, says=says)
        made = "Adds readings to the front corners of its outer feet, to be taken on the Measure card"
        self.ask = plain_button("Measure its feet", made, self)
        self.ask.clicked.connect(self._ask)
        self.column.addWidget(self.ask)
        self.form.fields["floating.feet_marked"] = self.ask

    def _marks(self) -> None:
        form, entries = self.form, standing_entries
        form.section("Marks of old feet", "What they left on the top or the head stays to be seen.")
        says = "By number or name, marks parted by semicolons: 1 2 3 4; 5 6 7."
        form.text("Points round each", entries.marks, entries.put_marks, wide=244, says=says, key="floating.marks")
        made = "Makes a mark of points that are measured, or adds four corners to be taken on the Measure card"
        self.mark = plain_button("Measure a mark", made, self)
        self.mark.clicked.connect(self._mark)
        self.column.addWidget(self.mark)

    def _mark(self) -> None:
        self.document.edit("a mark of old feet", standing_entries.another_mark(self.document.job))

    def _ask(self) -> None:
        job = standing_entries.ask_feet(self.document.job)
        self.document.edit("readings to the bridge’s feet", job)

    def refresh(self) -> None:
        super().refresh()
        count = standing_entries.count(self.document.job)
        left, middle, right = self.feet
        middle.setVisible(count == 3)
        left.setVisible(count > 0)
        right.setVisible(count > 0)
        asked = standing_entries.feet_asked(self.document.job)
        loose = len(standing_entries.loose_marks(self.document.job))
        ready = loose >= standing_entries.LEAST
        self.mark.setText(f"Make a mark of {loose} points" if ready else "Measure a mark")
        self.ask.setEnabled(not asked)
        self.ask.setText("Its readings are on the Measure card" if asked else "Measure its feet")


def _saddle(name: str) -> tuple[Get, Put]:
    """A field of the saddle block, begun with its usual values where it is empty."""

    def get(job: Job) -> Any:
        return getattr(bridge_entries.block(job, "saddle"), name)

    def put(job: Job, value: Any) -> Job:
        return bridge_entries.put(job, "saddle", **{name: value})

    return get, put


def _at_side(name: str, side: str) -> Name:
    """A name with the side as the job's hand calls it."""
    return lambda job: f"{name}, {words.side(side, job.hand)}"
