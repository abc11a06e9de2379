"""The Sheets card: templates, paper, machine files, the printer's correction; the pages lie over the plan as taped."""

from collections.abc import Sequence

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from app.desk.cards.card import Card, scrolled
from app.desk.cards.card import words as label
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.form import Form
from app.desk.cards.sheets.folder_part import FolderPart
from app.desk.cards.sheets.printer_part import PrinterPart
from app.desk.cards.sheets.stock_part import StockPart, cutter_for, sheets_field
from app.desk.cards.sheets.templates_part import TemplatesPart
from app.desk.cards.sheets.tick_grid import TickGrid
from app.desk.document.document import Document
from app.desk.document.preferences import Preferences
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.inputs.choice import Tick
from app.desk.widgets.look import Look
from app.edit.sheet_entries import PAPERS, own_paper, put_own_paper
from app.say.figures.progress import for_sheets
from app.say.figures.verdicts_now import waiting_now
from export import FILE_KINDS, cautions
from export.records import called
from geometry.findings import Finding
from geometry.job import Job, NotAJob
from geometry.job.sheets import Operation, Work
from geometry.words import first_large

PURPOSES: dict[Work, str] = {
    "cut": "Edges to cut",
    "route": "Slots to rout",
    "drill": "Holes to drill",
    "mark": "Lines to mark",
    "lay": "Lines to lay on",
    "centre": "Centre lines",
    "hidden": "Hidden, inside",
    "before": "As it was before",
    "metal": "Metal",
    "dimension": "Sizes",
    "note": "Words",
}
CUTTERS: dict[Operation, tuple[str, str]] = {
    "slot": ("Cutter for slots", "In place of that cutter, in slots. Empty: the same."),
    "holes": ("Cutter for holes", "Holes are milled with it. Empty: they are drilled, and stay their true size."),
}
"""The operations that most often have a cutter of their own; the others stand with what is seldom needed."""
FILES = {
    "pdf": "Sheets for paper",
    "dxf": "Lines for a CNC or CAD",
    "svg": "Lines for a laser or a drawing program",
    "png": "A picture of each sheet, full size: for a letter or a screen",
}


class SheetsCard(Card):
    """Signals: `asked_export`, `asked_print`, `asked_check_sheet` with a printer's name; `preview` on or off;
    `wanted` with a sheet's name and whether it is to be printed.
    """

    title = "Sheets"
    line = "Full size, at 100 %. Every template carries scales in mm and inches: lay a rule on them, both ways, first."
    asked_export = Signal()
    asked_print = Signal()
    asked_check_sheet = Signal(str)
    preview = Signal(bool)
    wanted = Signal(str, bool)

    def __init__(self, document: Document, look: Look, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.inside, column = scrolled(self, self.column)
        self.form = Form(document, column, self.inside)
        self.tools: tuple[Finding, ...] = ()
        self.preferences = preferences
        self.templates = TemplatesPart(document, look, preferences, self.inside)
        column.addWidget(self.templates)
        self._export_and_print(column)
        self._paper()
        self._machine(column)
        self._printer(column, preferences)
        column.addStretch(1)
        self.refresh()

    def _export_and_print(self, column: QVBoxLayout) -> None:
        self.findings = FindingsList(self.look, self.inside)
        self.findings.went_to.connect(self.follow)
        self.pages = label("", "text", self.inside)
        for widget in (self.findings, self.pages):
            column.addWidget(widget)
        row = QHBoxLayout()
        says = "Files of the templates ticked above, of the kinds ticked below"
        export = make_button("Export files", says, self.inside, "main")
        printing = make_button("Print…", "The templates ticked above, at 100 %", self.inside)
        for button, asked in ((export, self.asked_export), (printing, self.asked_print)):
            button.clicked.connect(asked)
            row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        self.which = label("Sheets to print", "text", self.inside)
        self.choice = TickGrid("Sheets to print", self.inside)
        self.choice.picked.connect(self.wanted)
        says = "The pages lie over the instrument as they will be taped"
        self.show_pages = Tick("Show the sheets on the plan", says, self.inside)
        self.show_pages.setChecked(True)
        self.show_pages.clicked.connect(self.preview)
        self.kinds = TickGrid("Kinds of files", self.inside, columns=4)
        self.kinds.show_things([(kind, kind.upper(), says) for kind, says in FILES.items()])
        self.kinds.show_ticked(self.preferences.settings.files)
        self.kinds.picked.connect(self._pick_kind)
        self.into = FolderPart(self.document, self.inside)
        for below in (self.kinds, self.into, self.which, self.choice, self.show_pages):
            column.addWidget(below)

    def _pick_kind(self, name: str, on: bool) -> None:
        """One kind at least stays; the choice holds for all jobs of this bench."""
        kept = self.preferences.settings
        files = tuple(kind for kind in FILE_KINDS if (on if kind == name else kind in kept.files))
        if files:
            self.preferences.keep(msgspec.structs.replace(kept, files=files))
        self.kinds.show_ticked(self.preferences.settings.files)
        self.preview.emit(self.show_pages.isChecked())

    def _paper(self) -> None:
        form = self.form
        form.section("Paper")
        size = form.choice("Size", [(name, name) for name in PAPERS], *sheets_field("paper"))
        says = "Its sides, as in 320x450 mm or 13x19 in, or a roll’s width, as in roll 610 mm."
        own = form.text("Another size", own_paper, put_own_paper, wide=112, says=says)
        size.activated.connect(self._keep_paper)
        own.line.settled.connect(self._keep_paper)
        turns = [("either", "as it fits"), ("portrait", "portrait"), ("landscape", "landscape")]
        form.choice("Turn", turns, *sheets_field("turn"), says="As it fits: the way that needs the fewest sheets.")
        form.length(
            "Margin",
            *sheets_field("margin"),
            says="What stays blank round the page, 5 mm (0.2 in) or more.",
        )

    def _keep_paper(self) -> None:
        """The next job begins with the paper chosen last."""
        paper, kept = self.document.job.sheets.paper, self.preferences.settings
        if paper != kept.paper:
            self.preferences.keep(msgspec.structs.replace(kept, paper=paper))

    def _machine(self, column: QVBoxLayout) -> None:
        form = self.form
        form.section(
            "For a CNC or a laser", f"DXF and SVG only; paper always shows the edge itself. {cautions.MACHINE}"
        )
        says = "What a beam takes away. 0: lines are the edges themselves."
        form.length("Kerf", *sheets_field("kerf"), says=says, key="sheets.kerf")
        says = "A tool’s diameter; it goes before the kerf. Empty: none. It never changes holes to drill."
        form.length("Cutter", *sheets_field("cutter"), optional=True, says=says, key="sheets.cutter")
        for operation, (name, says) in CUTTERS.items():
            form.length(name, *cutter_for(operation), optional=True, says=says, key=f"sheets.cutters.{operation}")
        says = "Of a placement template cut from sheet stock. Empty: the machine works on the instrument itself."
        form.length("Edge round a template", *sheets_field("edge"), optional=True, says=says, key="sheets.edge")
        says = "In that template, one in the middle of each pin hole, to prick or drill through."
        form.length("Pilot holes", *sheets_field("pilot"), says=says, key="sheets.pilot")
        says = "In bridge and plate. Undersize: a shop drills what it finds, and full holes spoil a tapered pin’s seat."
        pins = [("to ream", "undersize, to ream"), ("finished", "finished size")]
        form.choice("Pin holes drilled", pins, *sheets_field("pin_holes"), says=says, key="sheets.pin_holes")
        datums = [
            ("own", "each its own"),
            ("board end", "board’s end"),
            ("saddle centre", "saddle’s middle"),
            ("lower left", "lower left corner"),
        ]
        says = "Where the machine’s zero can be set; a cross marks it. Each its own: board’s end, or a part’s corner."
        form.choice("Datum", datums, *sheets_field("datum"), says=says)
        outlines = "Outlines are for machines that know no letters."
        form.choice("Words as", [("text", "text"), ("outlines", "outlines")], *sheets_field("text"), says=outlines)
        releases = [("R2010", "R2010"), ("R12", "R12, older")]
        says = "R12 is for old readers. It knows no units, so its files are named -mm."
        form.choice("Release of DXF", releases, *sheets_field("dxf"), says=says)
        arcs = [("bulges", "true arcs"), ("chords", "short straight lines")]
        says = "In DXF. Straight lines are for readers that drop the arcs of an outline; circles stay circles."
        form.choice("Arcs as", arcs, *sheets_field("arcs"), says=says)
        self.stock = StockPart(self.document, self.look, self.inside)
        column.addWidget(self.stock)
        form.section(
            "Lines in these files", "Each sort is on its own layer. Notes on units and datum are always written."
        )
        self.purposes = TickGrid("Lines in these files", self.inside)
        layer = "Written to DXF and SVG, on the layer"
        self.purposes.show_things([(name, text, f"{layer} {_layer(name)}") for name, text in PURPOSES.items()])
        self.purposes.picked.connect(self._pick_purpose)
        self.wrong = label("", "wrong", self.inside)
        column.addWidget(self.purposes)
        column.addWidget(self.wrong)

    def _pick_purpose(self, name: str, on: bool) -> None:
        job = self.document.job
        kept = tuple(work for work in PURPOSES if (on if work == name else work in _purposes(job)))
        try:
            sheets = msgspec.structs.replace(job.sheets, purposes=None if len(kept) == len(PURPOSES) else kept)
        except NotAJob:
            self.wrong.setText("One sort of line must stay, or the files would be empty.")
        else:
            self.wrong.setText("")
            text = f"{PURPOSES[name].lower()}: {'yes' if on else 'no'}"  # type: ignore[index]  # it names one of them
            self.document.edit(text, msgspec.structs.replace(job, sheets=sheets))
        self.refresh()

    def _printer(self, column: QVBoxLayout, preferences: Preferences) -> None:
        self.form.section(
            "The printer’s own error",
            "Print the check sheet, lay a rule on one of its squares and type what it says. It is kept for this "
            "printer, not in the job.",
        )
        self.printer = PrinterPart(preferences, self.inside)
        self.printer.asked_check_sheet.connect(self.asked_check_sheet)
        column.addWidget(self.printer)

    def refresh(self) -> None:
        job, layout = self.document.job, self.document.layout
        self.templates.refresh()
        self.form.refresh()
        self.stock.refresh()
        self.printer.show_unit(job.unit)
        self.purposes.show_ticked(_purposes(job))
        self.wrong.setVisible(bool(self.wrong.text()))
        self.findings.show_found([*for_sheets(layout), *self.tools, *waiting_now(job, layout)])

    def show_tools(self, found: tuple[Finding, ...]) -> None:
        """What there is to say of the cutter or the kerf."""
        self.tools = found
        self.refresh()

    def say_pages(self, sentence: str, names: Sequence[str] = (), wanted: Sequence[str] = ()) -> None:
        """Which templates on how many sheets, or why it can't be; of several sheets one can choose."""
        self.pages.setText(sentence)
        several = names if len(names) > 1 else ()
        said = {name: called(name) for name in several}
        self.choice.show_things([(name, first_large(text), f"Print the sheet {text}") for name, text in said.items()])
        self.choice.show_ticked(wanted)
        for widget in (self.which, self.choice):
            widget.setVisible(bool(several))

    def go_to(self, where: str) -> bool:
        return self.form.go_to(where) or self.stock.go_to(where)

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        for part in (self.templates, self.stock, self.findings):
            part.show_look(look)


def _layer(name: Work) -> str:
    from export.machine.layers import layers_of_purpose

    return layers_of_purpose(name)


def _purposes(job: Job) -> tuple[str, ...]:
    return job.sheets.purposes if job.sheets.purposes is not None else tuple(PURPOSES)
