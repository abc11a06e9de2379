"""The Strings card: what the strings are, their spread, their height, and what each choice costs in cents."""

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.desk.cards.card import Card, scrolled
from app.desk.cards.card import words as label
from app.desk.cards.findings_list import FindingsList, sign_of
from app.desk.cards.form import Form, Get, Put
from app.desk.cards.plot_picture import PlotPicture
from app.desk.cards.strings.by_ear import HOW, ByEar
from app.desk.cards.strings.nut_part import BoardFace, NutPart, SolidPart
from app.desk.cards.strings.start_rows import StartRows
from app.desk.cards.strings.string_sections import FretRows, HeightRows, seldom_rows, spread_rows
from app.desk.cards.strings.strings_table import StringTable
from app.desk.cards.strings.typed_for_others import TypedForOthers
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import plain_button
from app.desk.widgets.look import Look
from app.desk.widgets.signs import Sign
from app.edit.strings import string_entries
from app.say import plain_words
from export.drawing.marks import XY
from export.plots import Plot, cents_of_strings, fret_fits
from geometry import words
from geometry.job import Job
from geometry.job.stringing import WORKED_OUT

IN_SLOT = " The slot’s front lies nearer the nut than that, as far as the peak stands behind the saddle’s front."
CENTS_HIGH, FITS_HIGH = 50.0, 42.0
"""How high the plots are, mm at text scale 1."""
FACE = ("field:board.radius", "field:board.arch")
CENTS = "{}, full: with this compensation; dashed: with none. Between the dotted lines no ear can be sure."
CALLING = (Sign.STOP, Sign.LOOK)
ABOUT = ("field:strings", "string:", "step:strings", "field:frets", "fret:", "nut", "field:nut", *FACE)


class StringsCard(Card):
    """Signals: `chosen` with `"string:NAME"` when a string is chosen, to show it everywhere; `went_to_measure`."""

    title = "Strings"
    line = "What the strings are and how high they lie decides how far behind the nominal place each one breaks."
    chosen = Signal(str)
    went_to_measure = Signal()

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        inside, column = scrolled(self, self.column)
        self.form = Form(document, column, inside)
        self.table = StringTable(document, look, inside)
        self.picture = PlotPicture("Cents at each fret", CENTS_HIGH, look, inside)
        self.fits = PlotPicture("How the fret readings fit", FITS_HIGH, look, inside)
        self.string = ""
        self.findings, self.told = FindingsList(look, inside), FindingsList(look, inside)
        """What is wrong or to be looked at again stands over the strings; what is only told, under them."""
        self.wrong, self.hint = label("", "wrong", inside), label("", "hint", inside)
        column.addWidget(self.findings)
        self._set()
        column.addWidget(self.table)
        column.addWidget(self.wrong)
        self._buttons(column)
        self.others = TypedForOthers(document, inside)
        column.addWidget(self.others)
        column.addWidget(self.told)
        self.pairs = spread_rows(self.form)
        self._compensation()
        self.cents_heading = self.form.section("Cents at each fret", CENTS.format("The chosen string"))
        self.cents_said = self.cents_heading.findChildren(QLabel)[-1]
        column.addWidget(self.picture)
        self.heights = HeightRows(self.form)
        self.frets = FretRows(self.form)
        says = "Each with its own ±; ringed: does not go with the others."
        self.fits_heading = self.form.section("How the fret readings fit", says)
        column.addWidget(self.fits)
        self._one()
        self.solids: tuple[SolidPart, ...] = (BoardFace(document, look, inside), NutPart(document, look, inside))
        for part in self.solids:
            column.addWidget(part)
        seldom_rows(self.form)
        self.ear_heading = self.form.section("By ear", HOW["glue"])
        self.by_ear = ByEar(document, self.ear_heading.findChildren(QLabel)[-1], inside)
        self.by_ear.went_to_measure.connect(self.went_to_measure)
        column.addWidget(self.by_ear)
        self.form.fields |= {"strings.list": self.table, "strings.heard": self.by_ear}
        column.addStretch(1)
        self.table.chosen.connect(self.choose)
        for picture in (self.picture, self.fits):
            picture.chosen.connect(self._pressed)
        for found in (self.findings, self.told):
            found.went_to.connect(self.follow)
        self.table.said.connect(self._say)
        self.table.hinted.connect(self.hint.setText)
        self._say("")
        self.refresh()

    def _set(self) -> None:
        count = len(string_entries.block(self.document.job).list) or 6
        sets = [("", "Choose a usual set…"), *string_entries.sets_for(count)]

        def take(job: Job, key: str) -> Job:
            return string_entries.take_set(job, key) if key else job

        self.form.choice("A set to begin with", sets, lambda _: "", take)

    def _buttons(self, column: QVBoxLayout) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)  # with less they would read as one sentence
        self.add_button = plain_button("Add a string", "One more on the bass side, like the last one", self)
        self.remove_button = plain_button("Remove the string", "Takes the chosen string away", self)
        self.add_button.clicked.connect(self._add_string)
        self.remove_button.clicked.connect(self._remove_string)
        self.turn_button = plain_button("Turn the list round", "The strings in the other order", self)
        self.turn_button.clicked.connect(self._turn_round)
        for button in (self.add_button, self.remove_button):
            row.addWidget(button)
        self.hint.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.hint, 1)
        column.addLayout(row)
        column.addWidget(self.turn_button, 0, Qt.AlignmentFlag.AlignLeft)  # beside them it is too wide for large text

    def _add_string(self) -> None:
        self.document.edit("adding a string", string_entries.add_string(self.document.job))

    def _turn_round(self) -> None:
        self.document.edit("turning the list round", string_entries.turn_round(self.document.job))

    def _remove_string(self) -> None:
        at = self.table.currentIndex().row()
        if at >= 0:
            self.document.edit("removing a string", string_entries.remove_string(self.document.job, at))

    def _one(self) -> None:
        """What a catalogue or a scale says of the chosen string; where it says nothing, it is estimated."""
        says = "What a catalogue or a scale says of it. Empty: estimated from what it is made of, and its ± says so."
        self.one = self.form.inner()
        self.one_said = self.one.section("The chosen string", says).findChildren(QLabel)[0]
        self.one.length("Core", *self._of_chosen("core"), optional=True)
        self.one.optional_number("Mass, kg per metre", *self._of_chosen("kg_per_m"))
        self.one.optional_number("Stretch ratio", *self._of_chosen("stretch_ratio"))
        self.start = StartRows(self.one, self._chosen_row)

    def go_to(self, where: str) -> bool:
        return self.form.go_to(where) or self.one.go_to(where) or any(part.go_to(where) for part in self.solids)

    def _chosen_row(self) -> int:
        at = self.table.currentIndex().row()
        return at if 0 <= at < len(string_entries.block(self.document.job).list) else -1

    def _of_chosen(self, name: str) -> tuple[Get, Put]:
        row = self._chosen_row

        def get(job: Job) -> Any:
            return getattr(string_entries.block(job).list[row()], name) if row() >= 0 else None

        def put(job: Job, value: Any) -> Job:
            return string_entries.put_string(job, row(), **{name: value}) if row() >= 0 else job

        return get, put

    def _compensation(self) -> None:
        def how(job: Job) -> str:
            return "typed" if isinstance(string_entries.block(job).compensation, tuple) else WORKED_OUT

        def put(job: Job, value: str) -> Job:
            if value == "typed":
                return string_entries.typed_compensation(job)
            return string_entries.put(job, compensation=WORKED_OUT)

        options = [(WORKED_OUT, "worked out"), ("typed", "typed for each string")]
        self.form.choice("Compensation", options, how, put)
        self.source = label("", "label", self)
        self.form.explain(self.source)

    def refresh(self) -> None:
        layout, strung = self.document.layout, bool(string_entries.block(self.document.job).list)
        self.form.refresh()
        self.one.refresh()
        for widget in (self.one.parent, self.ear_heading, self.by_ear):
            widget.setVisible(strung)
        self.table.refresh()
        self.picture.show_plot(self._cents)
        self.fits.show_plot(self._fits)
        self.fits_heading.setVisible(self.fits.plot is not None)
        self.cents_heading.setVisible(self.picture.plot is not None)
        self.by_ear.refresh()
        self._say_chosen()
        about = [f for f in (layout.findings if layout else ()) if f.where.startswith(ABOUT)]
        self.findings.show_found([f for f in about if sign_of(f) in CALLING])
        self.told.show_found([f for f in about if sign_of(f) not in CALLING])
        self.remove_button.setVisible(strung)
        self.turn_button.setVisible(any(f.code == "strings.order" for f in layout.findings) if layout else False)
        self.heights.refresh(self.document.job, self.document.layout)
        self.pairs.refresh(self.document.job)
        self.frets.refresh(self.document.job, layout)
        self.start.refresh(self.document.job)
        for part in self.solids:
            part.refresh(layout)
        sources = {s.compensation_from for s in layout.strings} if layout else set()
        said = {
            "typed": "What is typed counts as known, without a ± of its own: type what was heard or measured.",
            "worked out": "Worked out of the strings, their heights and the frets: from the nominal place to where the "
            "string breaks. The ± is for a light touch: who presses hard goes by ear."
            f"{IN_SLOT if self.document.job.held == 'glue' else ''}",
            "drone": "A drone’s is where the bridge lies by the others.",
            "common practice": "Start values by common practice: the strings’ make is not known yet.",
        }
        self.others.refresh()
        self.source.setVisible(bool(sources))
        self.table.setVisible(strung)
        given = string_entries.block(self.document.job).compensation
        may = (
            "Type what was heard or measured; the rest stays worked out."
            if isinstance(given, tuple) and None in given
            else ""
        )
        self.source.setText(" ".join(filter(None, (may, *(said[source] for source in said if source in sources)))))

    def choose(self, name: str) -> None:
        """A string was chosen: show it everywhere."""
        self.string = name
        self._say_chosen()
        self.picture.show_plot(self._cents)
        self.form.refresh()
        self.one.refresh()
        self.start.refresh(self.document.job)
        self.chosen.emit(f"string:{name}")

    def _say_chosen(self) -> None:
        """Which string is told of, far below the table in which it is chosen."""
        at = self._chosen_row()
        said = words.string(string_entries.block(self.document.job).list[at].name) if at >= 0 else "the chosen string"
        self.one_said.setText(f"The chosen string: {said.removeprefix('string ')}" if at >= 0 else "The chosen string")
        self.cents_said.setText(CENTS.format(words.first_large(said)))

    def touched(self, of: str) -> None:
        kind, _, name = of.partition(":")
        if kind == "string":
            self.table.go_to(name)

    def _cents(self, size: XY) -> Plot | None:
        layout = self.document.layout
        return cents_of_strings(layout.strings, self.string, size) if layout is not None else None

    def _fits(self, size: XY) -> Plot | None:
        layout = self.document.layout
        return fret_fits(self.document.job, layout, size) if layout is not None else None

    def _pressed(self, of: str) -> None:
        """A string's line chooses the string; a reading is shown where it stands."""
        kind, _, name = of.partition(":")
        if kind == "string":
            self.table.go_to(name)
        else:
            self.went_to.emit(of)

    def opened(self) -> None:
        if self.table.currentIndex().row() < 0:
            self.table.go(0, 0)
        self.table.setFocus()

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.table.show_look(look)
        self.picture.show_look(look)
        self.fits.show_look(look)
        for part in self.solids:
            part.show_look(look)
        for found in (self.findings, self.told):
            found.show_look(look)

    def _say(self, sentence: str) -> None:
        self.wrong.setText(plain_words.sentence(sentence))
        self.wrong.setVisible(bool(sentence))
