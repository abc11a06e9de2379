"""The Bridge card's rows for saddles of their own: base and travel, screw holes, holes through the body, the proof."""

from PySide6.QtWidgets import QWidget

from app.desk.cards.bridge.kinds.kind_part import KindPart
from app.desk.cards.bridge.proof_section import ProofSection
from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.look import Look
from app.edit.bridge import held_entries, screw_places
from app.edit.bridge import separate_entries as entries
from geometry.job import Job


class SeparatePart(KindPart):
    """What is asked of saddles of their own, and what is left of their travel."""

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(document, look, parent)
        self._saddles()
        self.reach = label("", "label", self)
        self.column.addWidget(self.reach)
        self._base()
        self._screws()
        self._through()
        self.proof.form.section(
            "Proof", "Distances that show whether the base is marked where it belongs, and how far off it is if not."
        )
        self.stage = ProofSection(document, look, "clamped", self.proof)
        self.proof.column.addWidget(self.stage)
        self.refresh()

    def _length(self, name: str, key: str, *, says: str = "", optional: bool = False) -> None:
        get, put = held_entries.field("separate", key)
        self.form.length(name, get, put, says=says, optional=optional, key=f"separate.{key}")

    def _saddles(self) -> None:
        form = self.form
        form.section("Saddles", "Where they can stand on their base, and what is left of it.")
        self._length("A saddle travels by", "travel", says="From its foremost break point to its rearmost.")
        self._length("Foremost break point", "foremost", says="Behind the base’s front edge.")
        says = "Empty: as many as strings."
        field = form.optional_number("How many saddles", entries.saddles, entries.put_saddles, says=says)
        form.fields["separate.saddles"] = field

    def _base(self) -> None:
        form = self.form
        form.section("Base")
        form.choice("Bases", entries.BASES, entries.bases, entries.put_bases, key="separate.bases")
        form.choice("Set", entries.SET, entries.how_set, entries.put_how_set, key="separate.set", wide=True)
        self._length("Length, along the strings", "length")
        self._length("Width, across them", "width")
        says = "Where the strings come up through it. Empty: not told."
        self._length("Thickness", "thickness", says=says, optional=True)
        says = "Points round a pickup’s opening or a cavity, by number or name. Empty: none measured."
        form.text("Opening near it", entries.opening, entries.put_opening, says=says, key="separate.opening")

    def _screws(self) -> None:
        form = self.form
        form.section("Screw holes", "Each: behind the base’s front x across from its middle, and the side.")

        def says(job: Job) -> str:
            return f"Like {screw_places.two_like(job)}."

        form.text("Places", entries.screws, entries.put_screws, wide=290, says=says, key="separate.screws")
        self._length("Pilot hole", "screw")

    def _through(self) -> None:
        form = self.form
        form.section("Strings through the body")
        form.tick("They go through it", entries.has_through, entries.put_has_through, key="separate.through")
        self._length("Body’s thickness", "body", says="Empty: not told.", optional=True)
        form.length("Holes behind by", *entries.through("behind"), key="separate.through.behind")
        form.choice("Behind", entries.FROM, *entries.through("from_"), key="separate.through.from")
        form.length("Hole on the face", *entries.through("diameter"), key="separate.through.diameter")
        says = "Empty: no ferrules."
        form.length("Hole for a ferrule", *entries.through("ferrule"), optional=True, says=says)
        form.length("A ferrule’s depth", *entries.through("ferrule_deep"), says="From the back.")

    def go_to(self, where: str) -> bool:
        if where.startswith("field:proof"):
            self.stage.go_to()
            return True
        return super().go_to(where)

    def refresh(self) -> None:
        super().refresh()
        self.reach.setText(entries.reach(self.document.job, self.document.layout))
        self.reach.setVisible(bool(self.reach.text()))
        self.stage.refresh()

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.stage.show_look(look)
