"""How the strings end in a glued bridge: in pins, in a tie block, or not at all; and the rows of that alone."""

from PySide6.QtWidgets import QWidget

from app.desk.cards.bridge.kinds.kind_part import BridgePart
from app.desk.cards.form import Form, Get, Put
from app.desk.document.document import Document
from app.desk.widgets.look import Look
from app.edit.bridge import bridge_entries
from geometry.bridge.tied import PAST_HOLES
from geometry.job import Job
from geometry.units import said


class EndsPart(BridgePart):
    """The answer, and behind it the pin holes' rows or the tie block's."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self.form.section("The strings’ ends")
        answers, get, put = bridge_entries.ENDS, bridge_entries.ends, bridge_entries.put_ends
        self.form.choice("How do the strings end?", answers, get, put, key="bridge.ends")
        self.pins = self.form.shown_while(lambda job: bridge_entries.ends(job) == "pins", self._pins)
        self.tie = self.form.shown_while(lambda job: bridge_entries.ends(job) == "tie", self._tie)

    def _pins(self, form: Form) -> None:
        says = "From the slot’s back edge to the holes’ middles."
        form.length("Behind the slot", *_pins("behind_slot"), says=says, key="bridge.pins")
        form.length("Diameter", *_pins("diameter"))
        says = "A pin’s thin end: holes are drilled below it, then reamed. Empty: told by a taper of 1 in 20."
        form.length("The pins’ small end", *_pins("small_end"), optional=True, says=says, key="bridge.pins.small_end")
        says = "How far the hole of a pair’s second string lies behind that of the first."
        form.only(
            bridge_entries.has_pairs,
            lambda rows: rows.length("Second row behind by", *_pins("second_row"), says=says),
        )
        form.choice("Their row runs", [("slot", "along the slot"), ("bridge", "along the bridge")], *_pins("row"))

    def _tie(self, form: Form) -> None:
        says = "From the slot’s back edge, in its middle, to the block’s face."
        form.length("Block behind the slot", *_tie("behind_slot"), says=says, key="bridge.tie.behind_slot")
        form.length("Block, front to back", *_tie("depth"), key="bridge.tie.depth")
        form.length("Block’s height", *_tie("height"), says="Over the bridge’s bottom.", key="bridge.tie.height")
        form.length("Block’s length", *_tie("length"), optional=True, says=_past_holes, key="bridge.tie.length")
        form.choice("Holes a string", [(1, "one"), (2, "two")], *_tie("holes"), key="bridge.tie.holes")
        form.length(
            "Holes’ height", *_tie("hole"), says="To their middles; of two, the one on the path.", key="bridge.tie.hole"
        )
        ways = [("bottom", "over the bottom"), ("top", "under the top")]
        says = "The bridge’s bottom, or the block’s top."
        form.choice("Their height is", ways, *_tie("hole_from"), says=says, key="bridge.tie.hole_from")
        form.length("Tie holes’ diameter", *_tie("diameter"), key="bridge.tie.diameter")
        form.only(lambda job: _tie("holes")[0](job) == 2, self._two_holes)

    def _two_holes(self, form: Form) -> None:
        says = "A string leaves by the one on its path; the other lies toward the bass."
        form.length("From one to the other", *_tie("spacing"), says=says, key="bridge.tie.spacing")
        form.length("The other lies lower by", *_tie("below"), key="bridge.tie.below")

    def go_to(self, where: str) -> bool:
        if where == "field:bridge.tie" and bridge_entries.ends(self.document.job) == "tie":
            return self.tie.go_to("field:bridge.tie.behind_slot")
        parts = (self.pins, self.tie)
        return any(part.parent.isVisibleTo(self) and part.go_to(where) for part in parts) or super().go_to(where)


def _pins(name: str) -> tuple[Get, Put]:
    return bridge_entries.pins_of(name), bridge_entries.pins_put(name)


def _tie(name: str) -> tuple[Get, Put]:
    return bridge_entries.tie_of(name), bridge_entries.tie_put(name)


def _past_holes(job: Job) -> str:
    return f"Along the bridge. Empty: the outer holes and {said(PAST_HOLES, job.unit)} on either side."
