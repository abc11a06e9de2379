"""The Strings card's last parts: the board's face, which crowns saddle and nut, and the nut that is to be made."""

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from app.desk.cards.form import Form, Get, Name, Put
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.look import Look
from app.edit.strings import solid_entries
from geometry import words
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import said_pm, said_roughly


class SolidPart(Fold):
    """A part that is folded until it is used, and whose rows are made when it is first opened. `about`: what the
    findings name that it has fields for.
    """

    about: tuple[str, ...] = ()

    def __init__(self, text: str, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__(text, look, parent, lambda: self.rows(self.form))
        self.document = document
        self.form = Form(document, self.column, self.inside)

    def rows(self, form: Form) -> None:
        """Its rows, on the form."""
        raise NotImplementedError

    def told(self, layout: Layout | None) -> str:
        """What is in force of it, in a line."""
        raise NotImplementedError

    def refresh(self, layout: Layout | None) -> None:
        """The rows, and what comes of them."""
        self.form.refresh()
        self.say(self.told(layout))

    def go_to(self, where: str) -> bool:
        """Unfold it and go to the field that a finding is about, if it has it."""
        if not where.startswith(self.about):
            return False
        self.set_open(True)
        return self.form.go_to(where)


class BoardFace(SolidPart):
    """How round the board's face is: typed, or read over a chord."""

    about = ("field:board.radius", "field:board.arch")

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__("The board’s face", document, look, parent)

    def rows(self, form: Form) -> None:
        says = "Empty: flat, or read below."
        form.length("Radius, at the nut", *solid_entries.radius(0), optional=True, says=says, key="board.radius")
        says = "Of a compound board. Empty: the same all along."
        form.length("Radius, at its end", *solid_entries.radius(1), optional=True, says=says)
        form.text("Rise over a chord, near the nut", *solid_entries.arch(0), says=_rise, key="board.arch")
        form.text("Rise over a chord, at its end", *solid_entries.arch(1), says="Of a compound board.")

    def told(self, layout: Layout | None) -> str:
        job, blank = self.document.job, layout.saddle_blank if layout is not None else None
        if not (job.board.radii or job.board.arch):
            return "Flat, or not told."
        if blank is None or blank.radius is None:
            return "Told."
        radius, crown = said_roughly(blank.radius[0], job.unit), said_pm(blank.crown[1], job.unit, blank.crown[0])
        return f"{radius} at the saddle: its crown stands {crown} high."


class NutPart(SolidPart):
    """The nut that is to be made: its blank, its slots' places and how deep they are cut."""

    about = ("field:nut",)

    def __init__(self, document: Document, look: Look, parent: QWidget) -> None:
        super().__init__("A new nut", document, look, parent)

    def rows(self, form: Form) -> None:
        form.tick("A nut is to be made", solid_entries.asked, solid_entries.ask, key="nut")
        form.only(lambda job: job.nut is not None, self._rows_of_it)

    def _rows_of_it(self, form: Form) -> None:
        form.length("Thickness, along the strings", *solid_entries.nut("thickness"), key="nut.thickness")
        says = "Of the whole blank, from its bottom. Empty: as high as it needs."
        form.length("Height", *solid_entries.nut("height"), optional=True, says=says, key="nut.height")
        says = "At the board’s edges, with the nut out."
        _two(form, "Board’s face over its bottom", solid_entries.bed, "nut.bed", says)
        says = "A fret’s top over the board’s face, near the nut. The slots’ bottoms follow from it."
        form.length("Frets’ height", *solid_entries.nut("fret_height"), optional=True, says=says, key="nut.fret_height")
        says = "As you want it, string open. Empty: as it is now."
        _two(form, "Wanted over fret 1", solid_entries.over_fret1, "nut.over_fret1", says)
        says = "From the board’s edge to the outer string’s middle, in place of a spread at the nut."
        _two(form, "Margin", solid_entries.margin, "nut.margins", says)
        options = [("gaps", "equal gaps"), ("centres", "equal centres")]
        form.choice("Between margins shared out by", options, *solid_entries.nut("spacing"), key="nut.spacing")
        form.length("Slot wider than its string by", *solid_entries.nut("clearance"), key="nut.clearance")
        says = "How steeply the slots fall away to the headstock."
        form.number("Back angle, in degrees", *solid_entries.nut("back_angle"), says=says, key="nut.back_angle")
        says = "Where there is a zero fret the slots only guide."
        form.length("Under a zero fret’s top by", *solid_entries.nut("below_fret"), says=says, key="nut.below_fret")

    def told(self, layout: Layout | None) -> str:
        job, blank = self.document.job, layout.nut_blank if layout is not None else None
        if job.nut is None:
            return "None is to be made."
        known = [slot for slot in blank.slots if slot.over_board is not None] if blank is not None else []
        if not known:
            return "To be made; its slots’ bottoms wait."
        ends = [known[0], known[-1]] if len(known) > 1 else known
        lies = [
            f"{said_pm(slot.over_board[1], job.unit, slot.over_board[0])} under {words.string(slot.string)}"
            for slot in ends
            if slot.over_board is not None
        ]
        return f"Bottoms over the board: {words.joined(lies)}."


def _rise(job: Job) -> str:
    """How a rise over a chord is typed, in the job's unit."""
    like = solid_entries.RISE[job.unit]
    return (
        f"Or a straight edge of known length laid square across it, the gap at both its ends alike: {like}, or {like} "
        f"within {solid_entries.WITHIN[job.unit]} for how surely it was read."
    )


def _two(form: Form, said_of: str, of: Callable[[int], tuple[Get, Put]], key: str, says: str) -> None:
    """A length at either side, with what is said of both under the second."""
    for at, side in enumerate(("left", "right")):
        name, under = _at_side(said_of, side), says if at else ""
        form.length(name, *of(at), optional=True, says=under, key=f"{key}.{side}")


def _at_side(says: str, side: str) -> Name:
    """A name with its side as the job's hand calls it."""
    return lambda job: f"{says}, {words.side(side, job.hand)}"
