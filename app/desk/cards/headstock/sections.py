"""The folding sections of the Headstock card. Rows that a typed value brings or takes come and go in place, so that the
field in hand stays; all are made anew only where there is something else to tell of.
"""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.form import Form
from app.desk.cards.form_rows import unfold_to
from app.desk.document.document import Document
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.buttons import plain_button
from app.desk.widgets.inputs.fields import Field
from app.desk.widgets.look import Look
from app.desk.widgets.tab_order import tab_down_again
from app.edit.headstock import hardware_entries as entries
from app.edit.headstock import tuner_entries
from app.edit.old_work import head_points, hole_sizes
from geometry import words
from geometry.job import Job

Rows = Callable[[Form, Job], None]
"""What puts a section's rows into a form."""
Shape = Callable[[Job], object]
"""What the rows of a section depend on that none of them changes: they are made anew when it differs."""
Said = Callable[[Job], str]
"""What is known of what a section is about, in a line."""

USUAL = "A usual size: its rims were not read."
OUTLINE = (
    "By number or name, in order round it: 1 2 3 4 are headstock 1 to 4. Which corner is number 1 is yours to say: "
    "keep to it."
)
DEEP, APART = ("deep", "depth"), ("apart", "two, apart")
MOST_SLOTS, MOST_SCREWS = 4, 8
"""So many slots of a headstock and screws of a plate have rows; more of them keep what the job file has (common
practice, no source)."""


class Section(QWidget):
    """One section; `says` tells in a line what is known, seen while it is folded too."""

    def __init__(
        self, document: Document, look: Look, title: str, parts: tuple[Rows, Shape, Said], parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.document = document
        self.rows, self.shape, self.says = parts
        self.fold = Fold(title, look, self, self._fill)
        self.shaped: object = None
        self.holder: QWidget | None = None
        self.form: Form | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.fold)

    def refresh(self) -> None:
        """Take over the document."""
        job = self.document.job
        self.fold.say(self.says(job))
        if self.fold.is_filled:
            self._fill()

    def _fill(self) -> None:
        """Its rows, made anew where others are needed."""
        job = self.document.job
        shape = self.shape(job)
        if self.form is None or shape != self.shaped:
            self.shaped = shape
            self._make(job)
            tab_down_again(self.fold)
        else:
            self.form.refresh()

    def _make(self, job: Job) -> None:
        if self.holder is not None:
            for field in self.holder.findChildren(Field):  # what stands typed in them goes with them
                field.forget()
            self.holder.hide()
            self.holder.deleteLater()
        self.holder = QWidget(self.fold.inside)
        inner = QVBoxLayout(self.holder)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(12)
        self.form = Form(self.document, inner, self.holder)
        self.rows(self.form, job)
        self.fold.column.addWidget(self.holder)
        self.holder.show()

    def go_to(self, where: str) -> bool:
        """Unfold it and go to one of its fields, if it has it."""
        self.fold.fill()
        return self.form is not None and unfold_to(self.fold, self.form, where)

    def show_look(self, look: Look) -> None:
        """The heading in other colours and another size."""
        self.fold.show_look(look)


# the headstock


def headstock_rows(form: Form, job: Job) -> None:
    """Its outline, slots and middle line by their points, its thickness, and each old hole's diameter."""
    head = job.hardware.headstock
    form.text(
        "Outline, points in order",
        *entries.ring_field("outline", "head"),
        says=OUTLINE,
        key="hardware.headstock.outline",
    )
    _slot_rows(form, 0)
    form.choice("Middle line", _middles, *entries.head_field("middle"), key="hardware.headstock.middle")
    for at, side in ((0, "left"), (1, "right")):
        form.text(_on(side, "Points along the {} edge"), *entries.edge_field(at))
    form.text("Two points on the middle", *entries.ring_field("points", "head"))
    form.length("Thickness", *entries.head_field("thickness"), optional=True, key="hardware.headstock.thickness")
    for at, name in enumerate((*head.posts, *head.screws) if head is not None else ()):
        _old_hole_rows(form, job, name, first=not at)
    form.only(lambda now: now.hardware.headstock is not None or now.hardware.tuners is not None, _leave_out)


def _slot_rows(form: Form, at: int) -> None:
    """A slot by its points; once it is there, one more may be typed."""
    form.text(f"Slot {at + 1}, points in order", *entries.slot_field(at), says="" if at else "Empty: it is solid.")
    if at + 1 < MOST_SLOTS:
        form.only(lambda job: len(head_points.head_of(job).slots) > at, lambda rows: _slot_rows(rows, at + 1))


def _middles(job: Job) -> list[tuple[str, str]]:
    """The middle lines that there can be."""
    head = head_points.head_of(job)
    edges = [("edges", "between its edges")] if min(len(edge) for edge in head.edges) > 1 else []
    points = [("points", "through two points")] if len(head.points) > 1 else []
    return [("nut", "square on the nut"), *edges, *points]


def _old_hole_rows(form: Form, job: Job, name: str, *, first: bool) -> None:
    """An old hole's sizes, and of a post's whether it is worn."""
    called = words.first_large(words.point(name, job.hand))
    form.length(
        f"{called}, diameter",
        *hole_sizes.by_rims(name, head_points.hole_field(name), lambda: form.document.layout),
        says=lambda now: USUAL if head_points.is_usual(now, name) else "",
        key=f"hardware.headstock.{name}",
    )
    depth = head_points.hole_field(name, "depth")
    form.length(f"{called}, depth", *depth, optional=True, says="Empty: right through." if first else "")
    if name in head_points.head_of(job).posts:
        worn = "Then it is plugged, whatever its size." if first else ""
        form.tick(f"{called} is worn: plug it", *head_points.hole_field(name, "worn"), says=worn)


def _leave_out(form: Form) -> None:
    """The way to take all of it out again."""
    document, says = form.document, "Takes the headstock and its tuners out of the job; the points read stay"
    leave = plain_button("Leave out headstock and tuners", says, form.parent)
    leave.clicked.connect(lambda: _done_with(leave, "leaving out the headstock", entries.leave_out, document))
    form.column.addWidget(leave)


def _done_with(button: QWidget, said: str, make: Callable[[Job], Job], document: Document) -> None:
    """What a button does that then goes: the focus stays beside it, on what stands over it."""
    if button.hasFocus():
        over = button.previousInFocusChain()
        while over is not None and not (over.isVisible() and over.focusPolicy() & Qt.FocusPolicy.TabFocus):
            over = over.previousInFocusChain()
        if over is not None:
            over.setFocus(Qt.FocusReason.OtherFocusReason)
    document.edit(said, make(document.job))


def headstock_shape(job: Job) -> object:
    """The rows are made anew for other old holes: which there are follows from what was read."""
    head = head_points.head_of(job)
    return *head.posts, *head.screws


def headstock_said(job: Job) -> str:
    """What is known of the headstock."""
    head = job.hardware.headstock
    if head is None:
        return "Nothing read yet."
    kind = f"Slotted, {len(head.slots)} slots" if head.slots else "Solid"
    return f"{kind}; {words.how_many(len(head.posts), 'old post')}, {words.how_many(len(head.screws), 'old screw')}."


def _on(side: str, text: str) -> Callable[[Job], str]:
    return lambda job: text.format(words.side(side, job.hand))


# new tuners


def tuner_rows(form: Form, _job: Job) -> None:
    """Plates and posts as the trade describes them; while none are chosen, a way to take them as they stand here."""
    for side in ("left", "right"):
        form.text(
            _on(side, "Posts on each plate, {} side"),
            *tuner_entries.plates_field(side),
            says="3 is one plate of three; 1 1 1 three single tuners." if side == "left" else "",
            key=f"hardware.tuners.{side}",
        )
    form.length("From post to post", *tuner_entries.tuner_field("spacing"), key="hardware.tuners.spacing")
    form.length("Post hole", *tuner_entries.tuner_field("post"), key="hardware.tuners.post")
    form.length("Bushing hole", *tuner_entries.tuner_field("bushing"), optional=True, key="hardware.tuners.bushing")
    form.length(
        lambda job: f"Bushing, depth from the {'side' if job.hardware.slotted else 'face'}",
        *tuner_entries.tuner_field("bushing_deep"),
    )
    form.length(
        "Roller",
        *tuner_entries.tuner_field("roller"),
        optional=True,
        says="On a slotted headstock.",
        key="hardware.tuners.roller",
    )
    form.only(lambda job: job.hardware.slotted, _below_the_face)
    form.length(
        "Posts from the middle line",
        *tuner_entries.tuner_field("from_middle"),
        optional=True,
        says="Empty: in line with the old posts.",
        key="hardware.tuners.from_middle",
    )
    for key, name in (
        ("past", "Plate past its outer posts"),
        ("wide", "Plate, width"),
        ("inner", "Plate, from posts to its inner edge"),
        ("screw_hole", "Plate screws, hole"),
    ):
        form.length(name, *tuner_entries.plate_field(key), key=f"hardware.tuners.plate.{key}")
    _screw_rows(form, 0)
    form.only(lambda job: job.hardware.tuners is None, _take)


def _below_the_face(form: Form) -> None:
    """How deep the posts of a slotted headstock lie."""
    form.length(
        "Posts below the face",
        *tuner_entries.tuner_field("below"),
        optional=True,
        says="Empty: half the headstock’s thickness.",
        key="hardware.tuners.below",
    )


def _screw_rows(form: Form, at: int) -> None:
    """A plate's screw; once it is there, how far it lies across, and one more may be typed."""
    form.length(
        f"Plate screw {at + 1}, along",
        *tuner_entries.screw_field(at, 0),
        optional=True,
        says="" if at else "From a plate’s first post away from the nut; with a minus toward it. Empty: none.",
        key=f"hardware.tuners.plate.screws.{at}",
    )

    def says(job: Job) -> str:
        return "" if at else f"From the posts toward the {'back' if job.hardware.slotted else 'middle'}."

    def more(rows: Form) -> None:
        rows.length(f"Plate screw {at + 1}, across", *tuner_entries.screw_field(at, 1), says=says)
        if at + 1 < MOST_SCREWS:
            _screw_rows(rows, at + 1)

    form.only(lambda job: tuner_entries.screws_of(job) > at, more)


def _take(form: Form) -> None:
    """The way to tuners that are just as the fields stand, where no field is to be changed."""
    document = form.document
    take = plain_button("Take these tuners", "Chooses new tuners as the fields stand", form.parent)
    take.clicked.connect(lambda: _done_with(take, "choosing tuners", tuner_entries.take_begun, document))
    form.column.addWidget(take)


def tuners_said(job: Job) -> str:
    """What the new tuners are."""
    tuners = job.hardware.tuners
    if tuners is None:
        return "None chosen yet: change a field, or take them as they stand."
    posts, plates = sum(tuners.left) + sum(tuners.right), len(tuners.left) + len(tuners.right)
    return f"{words.first_large(words.how_many(posts, 'post'))} on {words.how_many(plates, 'plate')}."


# markers


def marker_rows(form: Form, _job: Job) -> None:
    """Side and face markers, each with its sizes once it is wanted."""
    form.tick("Dots in the board’s edge", *entries.wants("side"), key="hardware.markers.side")
    form.only(entries.wants("side")[0], _side_rows)
    form.tick("Dots in the board’s face", *entries.wants("face"), key="hardware.markers.face")
    form.only(entries.wants("face")[0], lambda rows: _marker_rows(rows, "face", (DEEP, APART)))


def _side_rows(form: Form) -> None:
    _marker_rows(form, "side", (("below", "middle below the face"), DEEP, APART))
    form.choice("On the side", [("bass", "bass"), ("treble", "treble")], *entries.marker_field("side", "side"))


def _marker_rows(form: Form, which: str, lengths: Sequence[tuple[str, str]]) -> None:
    where, key = {"side": "Edge dots", "face": "Face dots"}[which], f"hardware.markers.{which}"
    form.text(f"{where}, before frets", *entries.frets_field(which, "frets"), key=f"{key}.frets")
    form.text(f"{where}, two before frets", *entries.frets_field(which, "twice"), key=f"{key}.twice")
    form.length(f"{where}, diameter", *entries.marker_field(which, "diameter"), key=f"{key}.diameter")
    for name, says in lengths:
        form.length(f"{where}, {says}", *entries.marker_field(which, name), key=f"{key}.{name}")


def markers_said(job: Job) -> str:
    """Which markers there are to be."""
    markers = job.hardware.markers
    if markers is None:
        return "None wanted yet."
    edge = f"on the {markers.side.side} edge" if markers.side is not None else ""
    return f"Dots {' and '.join(part for part in (edge, 'in the face' if markers.face is not None else '') if part)}."
