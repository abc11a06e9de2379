"""Prints the chosen templates at 100 %, or the check sheet, with the cautions said first."""

import platform
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from app.desk.output.job_pages import CHECK_SHEET, JobPages
from app.desk.output.output_told import refused, say_left_out, to_look_at, while_the_same
from app.desk.widgets.notice import Notice
from app.say import plain_words

if TYPE_CHECKING:
    from export.paper.lay_sheets import Sheet


class SheetPrinter:
    """Says in the notice what came of it. `window`: over which the printer is chosen."""

    def __init__(self, pages: JobPages, notice: Notice, window: QWidget) -> None:
        self.pages, self.notice, self.window = pages, notice, window

    def print_sheets(self) -> None:
        """Print the chosen templates at 100 %, with the printer's own correction."""
        left_out: list[str] = []

        def made(printer: str | None) -> "tuple[Sheet, ...]":
            left_out.clear()
            return self.pages.wanted(self.pages.all_pages(printer, left_out.append))

        self._print(made, left_out=left_out)

    def print_check_sheet(self, printer: str = "") -> None:
        """Print the check sheet without any correction."""
        self._print(self.pages.check_sheet, printer, corrected=False)

    def _print(
        self,
        made: "Callable[[str | None], tuple[Sheet, ...]]",
        named: str = "",
        left_out: Sequence[str] = (),
        *,
        corrected: bool = True,
    ) -> None:
        """Print what `made` makes for a printer, or into a file; `left_out` then holds what it could not make."""
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo

        from app.desk.output.print_pages import print_pages, set_page
        from app.desk.widgets.qts_dialogs import dress
        from export.errors import ExportError

        if refused(self.pages.document, self.notice):
            return
        known = QPrinterInfo.availablePrinterNames()
        if not known and platform.system() == "Windows":  # whose dialog offers no file of its own
            self._say_wrong("No printer is known here. Export a PDF and print it at 100 %, with no fit to page.")
            return
        try:
            first = made(named or None)
        except ExportError as error:
            self._say_wrong(plain_words.sentence(str(error)))
            return
        if not first:
            self._say_wrong(say_left_out(left_out) or self._nothing())
            return
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setDocName(self.pages.job.title)
        wish = named or self.pages.preferences.settings.printer
        if wish in known:
            printer.setPrinterName(wish)
        if not known:
            printer.setOutputFileName(str(self._beside_the_job("" if corrected else CHECK_SHEET)))
        set_page(printer, first[0])
        dialog = QPrintDialog(printer, self.window)
        dialog.setWindowTitle("Print at 100 %")
        dress(dialog)
        if dialog.exec() != QPrintDialog.DialogCode.Accepted:
            return
        name, file = printer.printerName(), printer.outputFileName()
        whose = (
            (self._of_card() if file else self.pages.whose_correction(name, known))
            if corrected
            else (named if file else name)
        )
        if print_pages(printer, made(whose)):
            written = f"Written to {file}: print it at 100 %, with no fit to page."
            sent = written if file else f"Sent to {name} at 100 %."
            told = (sent, self._carried(name, whose) if corrected else "", say_left_out(left_out))
            look = to_look_at(self.notice, Path(file).parent, (Path(file),)) if file else ()
            older = f"The sheets {f'in {file}' if file else f'sent to {name}'} are"
            same = while_the_same(self.pages.document, older, "Print them again") if corrected else None
            self.notice.say(" ".join(filter(None, told)), *look, wrong=bool(left_out), holds=same)
        elif file:
            self._say_wrong(f"{file} could not be written; choose another place.")
        else:
            self._say_wrong(f"The printer {name} did not take the sheets; see whether it is switched on.")

    def _of_card(self) -> str:
        """The printer whose correction files carry."""
        return self.pages.preferences.settings.printer

    def _beside_the_job(self, called: str) -> Path:
        """The file that is proposed where no printer is known: `called` so, or by the job's name."""
        from export import files

        document = self.pages.document
        folder = document.path.parent if document.path is not None else Path.home()
        return folder / f"{called or files.safe_name(document.name)}.pdf"

    def _carried(self, name: str, whose: str) -> str:
        """Which correction went with the sheets, and what to do."""
        said = self.pages.preferences.settings.correction(whose).says()
        if whose not in self.pages.preferences.settings.printers:
            return "No correction is known for it: lay a rule on both scales before you use a sheet."
        of = "" if whose == name else f" of “{whose}”"
        return f"With the correction{of} ({said or 'none needed'}); lay a rule on both scales."

    def _nothing(self) -> str:
        chosen = self.pages.unwanted
        return "No sheet is chosen; tick one at least." if chosen else "There is nothing to print yet."

    def _say_wrong(self, sentence: str) -> None:
        self.notice.say(sentence, wrong=True)
