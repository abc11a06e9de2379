"""Adding a reading: its kind, then its points, chosen from lists or pointed out on the plan."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.desk.cards.card import scroll
from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button, plain_button
from app.desk.widgets.inputs.choice import Choice, Tick
from app.desk.widgets.look import SIDE, Look
from app.desk.widgets.reading_picture import ReadingPicture
from app.desk.widgets.whole_area import WholeArea
from app.edit.measure import new_reading
from app.say import plain_words
from app.say.how_to import OFFERED, SEEN_INSIDE, TAKING
from geometry import words
from geometry.job import NotAJob, Reading
from geometry.job.measured.kinds import SHAPES, Kind, On
from geometry.job.sides import SIDES

MOST = 4
"""How many points a kind asks for at most."""


class AddReading(QWidget):
    """Signals: `made` with the new reading; `given_up`; `point_out` with what each point is for."""

    made = Signal(object)
    given_up = Signal()
    point_out = Signal(object)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.area = WholeArea(self)
        self.area.setObjectName("adding")
        self.area.setAccessibleName("A new reading")
        self.picture = ReadingPicture(look, self)
        self.kind = Choice("Kind of reading", "What is measured: Up and Down choose another", self)
        for kind in OFFERED:
            self.kind.addItem(TAKING[kind].says, kind)
        says = "A point of the reading, chosen here or pointed out on the plan"
        self.points = [Choice("Point", says, self) for _ in range(MOST)]
        self.names = [_name("", self) for _ in range(MOST)]
        self.side = Choice("Side", "Which side the reading lies on", self)
        self.fret = Choice("Fret", "The fret that was measured", self)
        self.place = Choice("Where", "Which height was measured, and where", self)
        self.place_name, self.fret_name, self.side_name = (_name(said, self) for said in ("Which height", "Fret", ""))
        self.inside = Tick(SEEN_INSIDE, "Said once, it holds for what is added from now on", self)
        self.inside.clicked.connect(self._said_inside)
        self.wrong = label("", "wrong", self)
        self.how = label("Its kind, then its points: chosen here, or pointed out on the plan.", "quiet", self)
        self._offered: tuple[object, ...] = ()
        self._cramped, self._highest = False, 0
        self._lay_out()
        for place, said in new_reading.PLACES_AT:
            self.place.addItem(words.first_large(said), place)
        self.kind.currentIndexChanged.connect(self._kind_changed)
        for box in self.points:
            box.currentIndexChanged.connect(self._name_sides)
        document.started.connect(self.hide)  # its points are of the job before
        document.changed.connect(self._changed)
        self._kind_changed()

    def _lay_out(self) -> None:
        inside = QWidget()
        inside.setObjectName("inside")
        self.all = column = QVBoxLayout(inside)
        column.setContentsMargins(SIDE, 8, SIDE, 12)
        column.setSpacing(8)
        column.addLayout(_head(label("Add a reading", "heading", self), self.how, self.picture))
        column.addWidget(self.kind)
        self.lists = grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(6)
        rows = [*zip(self.names, self.points, strict=True), (self.place_name, self.place), (self.fret_name, self.fret)]
        for at, (name, box) in enumerate([*rows, (self.side_name, self.side)]):
            name.setBuddy(box)
            grid.addWidget(name, at, 0)
            grid.addWidget(box, at, 1)
        for half in (0, 1):
            grid.setColumnStretch(half, 1)
        column.addLayout(grid)
        column.addWidget(self.inside)
        column.addWidget(self.wrong)
        row = QHBoxLayout()
        self.add_button = make_button("Add", "Adds the reading to the table", self, "main")
        self.point_button = make_button("Point them out", "Choose the points by clicking them on the plan", self)
        self.cancel_button = plain_button("Cancel", "Adds nothing", self)
        for button in (self.add_button, self.point_button, self.cancel_button):
            row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        column.addStretch(1)
        scroll(self.area, inside)
        self.area.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(self.area)
        self.add_button.clicked.connect(self._add)
        self.point_button.clicked.connect(self._point)
        self.cancel_button.clicked.connect(self.given_up)

    def open(self) -> None:
        """Show the lists as the job has them now."""
        self._offered = ()
        self.refresh()
        self.fret.setCurrentIndex(min(11, self.fret.count() - 1))
        self.inside.setChecked(self.document.from_inside)
        self._kind_changed()
        self._measure()
        self.kind.setFocus()

    def refresh(self) -> None:
        """Points and frets may come and go while it is open, and the job may be turned over."""
        job = self.document.job
        names = new_reading.names(job)
        offered = (job.hand, job.frets.count, *names)
        if offered == self._offered:
            return
        self._offered = offered
        for at, box in enumerate(self.points):
            kept = box.currentData()
            box.clear()
            for name in names:
                said = words.point(name, job.hand)
                box.addItem(f"{words.first_large(said)}", name)
            box.setCurrentIndex(box.findData(kept) if kept in names else at)
        fret, side = self.fret.currentIndex(), self.side.currentData()
        self.fret.clear()
        for number in range(1, job.frets.count + 1):
            self.fret.addItem(str(number), number)
        self.fret.setCurrentIndex(min(fret, job.frets.count - 1))
        self._kind_changed()
        self.side.setCurrentIndex(max(self.side.findData(side), 0))

    def _changed(self) -> None:
        if not self.isHidden():
            self.refresh()

    def make_room(self, *, cramped: bool) -> None:
        """Where there is little room the lists come before what helps to choose from them."""
        self._cramped = cramped
        for help_ in (self.how, self.picture):
            help_.setVisible(not cramped)
        self._measure()

    def _keep_place(self) -> None:
        """As high for every kind where there is room, so that the list of kinds stays in one place."""
        self.area.spare = 0 if self._cramped else max(0, self._highest - self._high)
        self.area.updateGeometry()

    @property
    def _high(self) -> int:
        """How high all that is shown is; the layouts would tell of what was shown before."""
        self.lists.invalidate()
        self.all.invalidate()
        return self.all.totalHeightForWidth(self.width())

    def _measure(self) -> None:
        """How high the kind that asks the most is; the focus stays where it is."""
        had, highs = self.focusWidget(), []
        for kind in OFFERED:
            self._ask(kind)
            highs.append(self._high)
        self._highest = max(highs)
        self._ask(self.chosen)
        if had is not None and had is not self.focusWidget():
            had.setFocus(Qt.FocusReason.OtherFocusReason)
        self._keep_place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width has names on other lines."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._measure()

    @property
    def chosen(self) -> Kind:
        kind: Kind = self.kind.currentData()
        return kind

    def _kind_changed(self) -> None:
        kind = self.chosen
        sides = _sides(kind)
        self.side.clear()
        for side in sides:
            self.side.addItem("", side)
        self._name_sides()
        self._ask(kind)
        self.picture.show_kind(kind, TAKING[kind].says)
        self._say("")

    def _name_sides(self) -> None:
        """What the sides are called, which depends on how the straightedge lies."""
        hand, laid = self.document.job.hand, self.chosen_points[: SHAPES[self.chosen].laid_from]
        for at in range(self.side.count()):
            side = self.side.itemData(at)
            said = words.side_typed(side, *laid, hand) if len(laid) == 2 and all(laid) else words.side(side, hand)
            self.side.setItemText(at, f"{words.first_large(said)} side")

    def _ask(self, kind: Kind) -> None:
        """Show what a kind asks for, and nothing else."""
        asked, shape, sides = TAKING[kind].points, SHAPES[kind], _sides(kind)
        for at, (name, box) in enumerate(zip(self.names, self.points, strict=True)):
            shown = at < len(asked)
            name.setVisible(shown)
            box.setVisible(shown)
            if shown:
                name.setText(asked[at])
                box.setAccessibleName(asked[at])
        self.side_name.setText(TAKING[kind].side_is)
        for widget, shown in (
            (self.side, bool(sides)),
            (self.side_name, bool(sides)),
            (self.fret, shape.fret),
            (self.fret_name, shape.fret),
            (self.place, shape.at),
            (self.place_name, shape.at),
        ):
            widget.setVisible(shown)
        self.point_button.setVisible(bool(asked))
        self.inside.setVisible(bool(asked))

    @property
    def chosen_points(self) -> tuple[str, ...]:
        """Its points, in the order in which they are asked."""
        return tuple(box.currentData() for box in self.points[: len(TAKING[self.chosen].points)])

    def _reading(self) -> Reading:
        kind, shape, points = self.chosen, SHAPES[self.chosen], self.chosen_points
        asked = (
            ("side", shape.side, self.side),
            ("fret", shape.fret, self.fret),
            ("at", shape.at, self.place),
            ("on", bool(shape.on), self.side),
        )
        fields = {name: box.currentData() for name, needed, box in asked if needed}
        return new_reading.make(kind, points, inside=bool(points) and self.inside.isChecked(), **fields)

    def _said_inside(self, on: bool) -> None:
        self.document.from_inside = on

    def _add(self) -> None:
        try:
            reading = self._reading()
        except NotAJob as error:
            self._say(new_reading.twice(self.chosen_points, self.document.job.hand) or str(error))
            return
        self.made.emit(reading)

    def _point(self) -> None:
        self.point_out.emit(TAKING[self.chosen].points)

    def pointed(self, names: tuple[str, ...]) -> None:
        """The points were pointed out on the plan."""
        for box, name in zip(self.points, names, strict=False):
            box.setCurrentIndex(max(box.findData(name), 0))
        self._add()

    def _say(self, wrong: str) -> None:
        self.wrong.setText(plain_words.sentence(wrong))
        self.wrong.setVisible(bool(wrong))
        self._keep_place()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not isinstance(self.focusWidget(), QPushButton):
            self._add()
        else:
            super().keyPressEvent(event)


def _sides(kind: Kind) -> tuple[On, ...]:
    """The sides that a kind asks for one of."""
    return SIDES if SHAPES[kind].side else SHAPES[kind].on


def _head(title: QLabel, how: QLabel, picture: ReadingPicture) -> QHBoxLayout:
    """The title over how it is done, and the picture at their right."""
    head, said = QHBoxLayout(), QVBoxLayout()
    head.setSpacing(16)
    said.setSpacing(2)
    said.addWidget(title)
    said.addWidget(how)
    said.addStretch(1)
    head.addLayout(said, 1)
    head.addWidget(picture, 0, Qt.AlignmentFlag.AlignTop)
    return head


def _name(text: str, parent: QWidget) -> QLabel:
    """A name beside its list: on two lines where it is long, for the points are what is chosen among."""
    made = QLabel(text, parent)
    made.setWordWrap(True)
    return made
