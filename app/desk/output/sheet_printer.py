"""Prints the chosen templates at 100 %, or the check sheet, with the cautions said first."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from app.desk.output.job_pages import JobPages
from app.desk.output.output_told import refused, say_left_out
from app.desk.widgets.choice import Corners
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
        """Print what `made` makes for a printer; `left_out` then holds what it could not make."""
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo

        from app.desk.output.print_pages import print_pages, set_page
        from export.errors import ExportError

        if refused(self.pages.document, self.notice):
            return
        if not QPrinterInfo.availablePrinterNames():
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
        wish = named or self.pages.preferences.settings.printer
        if wish in QPrinterInfo.availablePrinterNames():
            printer.setPrinterName(wish)
        set_page(printer, first[0])
        dialog = QPrintDialog(printer, self.window)
        dialog.setWindowTitle("Print at 100 %")
        Corners(dialog)
        if dialog.exec() != QPrintDialog.DialogCode.Accepted:
            return
        name = printer.printerName()
        whose = self.pages.whose_correction(name, QPrinterInfo.availablePrinterNames()) if corrected else name
        if print_pages(printer, made(whose)):
            sent = f"Sent to {name} at 100 %. {self._carried(name, whose) if corrected else ''}".strip()
            self.notice.say(f"{sent} {say_left_out(left_out)}".strip(), wrong=bool(left_out))
        else:
            self._say_wrong(f"The printer {name} did not take the sheets; see whether it is switched on.")

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
