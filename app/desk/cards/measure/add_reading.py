"""Adding a reading: its kind, then its points, chosen from lists or pointed out on the plan."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.desk.cards.card import scroll
from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.buttons import make_button, plain_button
from app.desk.widgets.choice import Choice, Tick
from app.desk.widgets.look import SIDE, Look
from app.desk.widgets.reading_picture import ReadingPicture
from app.edit.measure import new_reading
from app.say import plain_words
from app.say.how_to import SEEN_INSIDE, TAKING
from geometry import words
from geometry.job import NotAJob, Reading
from geometry.job.measured.kinds import SHAPES, Kind
from geometry.job.sides import SIDES


class Whole(QScrollArea):
    """As high as what is in it where there is room, and scrolled where there is none."""

    def sizeHint(self) -> QSize:
        inside = self.widget()
        return inside.sizeHint() if inside is not None else super().sizeHint()


class AddReading(QWidget):
    """Signals: `made` with the new reading; `given_up`; `point_out` with what each point is for."""

    made = Signal(object)
    given_up = Signal()
    point_out = Signal(object)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.area = Whole(self)
        self.area.setObjectName("adding")
        self.area.setAccessibleName("A new reading")
        self.picture = ReadingPicture(look, self)
        self.kind = Choice("Kind of reading", "What is measured: Up and Down choose another", self)
        for kind, taking in TAKING.items():
            self.kind.addItem(taking.says, kind)
        says = "A point of the reading, chosen here or pointed out on the plan"
        self.points = [Choice("Point", says, self) for _ in range(4)]
        self.names = [QLabel(self) for _ in range(4)]
        self.side = Choice("Side", "Which side the reading lies on", self)
        self.fret = Choice("Fret", "The fret that was measured", self)
        self.place = Choice("Where", "Which height was measured, and where", self)
        self.place_name, self.fret_name, self.side_name = (
            QLabel("Which height", self),
            QLabel("Fret", self),
            QLabel(self),
        )
        self.inside = Tick(SEEN_INSIDE, "Said once, it holds for what is added from now on", self)
        self.inside.clicked.connect(self._said_inside)
        self.wrong = label("", "wrong", self)
        self._lay_out()
        self.kind.currentIndexChanged.connect(self._kind_changed)
        self._kind_changed()

    def _lay_out(self) -> None:
        inside = QWidget()
        inside.setObjectName("inside")
        column = QVBoxLayout(inside)
        column.setContentsMargins(SIDE, 8, SIDE, 12)
        column.setSpacing(8)
        column.addWidget(label("Add a reading", "heading", self))
        column.addWidget(label("Its kind, then its points: chosen here, or pointed out on the plan.", "quiet", self))
        column.addWidget(self.kind)
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(6)
        rows = [*zip(self.names, self.points, strict=True), (self.place_name, self.place), (self.fret_name, self.fret)]
        for at, (name, box) in enumerate([*rows, (self.side_name, self.side)]):
            name.setBuddy(box)
            grid.addWidget(name, at, 0)
            grid.addWidget(box, at, 1)
        grid.setColumnStretch(1, 1)
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
        column.addWidget(self.picture, 0, Qt.AlignmentFlag.AlignLeft)
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
        job = self.document.job
        names = new_reading.names(job)
        for at, box in enumerate(self.points):
            kept = box.currentData()
            box.clear()
            for name in names:
                said = words.point(name, job.hand)
                box.addItem(f"{words.first_large(said)}", name)
            box.setCurrentIndex(box.findData(kept) if kept in names else at)
        self.fret.clear()
        for fret in range(1, job.frets.count + 1):
            self.fret.addItem(str(fret), fret)
        self.fret.setCurrentIndex(min(11, job.frets.count - 1))
        self.place.clear()
        for place, said in new_reading.PLACES_AT:
            self.place.addItem(f"{words.first_large(said)}", place)
        self.inside.setChecked(self.document.from_inside)
        self._kind_changed()
        self.kind.setFocus()

    @property
    def chosen(self) -> Kind:
        kind: Kind = self.kind.currentData()
        return kind

    def _kind_changed(self) -> None:
        kind, hand = self.chosen, self.document.job.hand
        asked, shape = TAKING[kind].points, SHAPES[kind]
        for at, (name, box) in enumerate(zip(self.names, self.points, strict=True)):
            shown = at < len(asked)
            name.setVisible(shown)
            box.setVisible(shown)
            if shown:
                name.setText(asked[at])
                box.setAccessibleName(asked[at])
        sides = SIDES if shape.side else shape.on
        self.side.clear()
        for side in sides:
            said = words.side(side, hand)
            self.side.addItem(f"{words.first_large(said)} side", side)
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
        self.picture.show_kind(kind, TAKING[kind].says)
        self._say("")
        self.area.updateGeometry()

    def _reading(self) -> Reading:
        kind, shape = self.chosen, SHAPES[self.chosen]
        points = tuple(box.currentData() for box in self.points[: len(TAKING[kind].points)])
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
            self._say(str(error).replace("Reading new", "This reading"))
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

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not isinstance(self.focusWidget(), QPushButton):
            self._add()
        else:
            super().keyPressEvent(event)
