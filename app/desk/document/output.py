"""What leaves the desk: files for a folder, and sheets for a printer, each with its cautions said first."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QProgressDialog

from app.file import job_file
from app.say import plain_words
from geometry.findings import Finding

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk
    from export.paper.lay_sheets import Sheet, Stamp
    from export.templates import LeftOut
    from geometry.job import Job

CHECK_SHEET = "check-sheet"


NOT_WORKED_OUT = "This job could not be worked out, so nothing leaves the desk: undo the last change, then try again."


class Stopped(Exception):
    """The person pressed Cancel."""


def stops(desk: "Desk") -> tuple[Finding, ...]:
    """What would spoil the work, the tools' part of it included."""
    layout = desk.document.layout
    return tuple(f for f in (*layout.findings, *tools(desk)) if f.grade == "stop") if layout else ()


def tools(desk: "Desk") -> tuple[Finding, ...]:
    """What there is to say of the job's cutter or kerf."""
    job, layout = desk.document.job, desk.document.layout
    if layout is None or not job.sheets.names_tool:
        return ()
    from app.file.export_job import tool_findings

    return tool_findings(job, layout, stamp(desk), desk.bench.kept.files)


def stamp(desk: "Desk", printer: str = "") -> "Stamp":
    """What the sheets carry: date, fingerprint, the printer's correction."""
    from app.file.export_job import stamp as make

    job = desk.document.job
    if printer:
        desk.bench.freshen()
    found = desk.bench.kept.correction(printer) if printer else None
    return make(job, job_file.fingerprint(job), printer, found)


def named(desk: "Desk") -> "Job":
    """The job as paper calls it: by its title, else by its file."""
    return job_file.titled(desk.document.job, desk.document.path)


def all_pages(desk: "Desk", printer: str = "", left_out: "LeftOut | None" = None) -> "tuple[Sheet, ...]":
    """All pages of the templates that were chosen, wanted or not; `left_out` as in `export.templates`.

    Raises `ExportError`.
    """
    from export.templates import all_sheets

    layout = desk.document.layout
    return all_sheets(named(desk), layout, stamp(desk, printer), left_out) if layout else ()


def wanted(desk: "Desk", pages: "tuple[Sheet, ...]") -> "tuple[Sheet, ...]":
    """Those of the pages that are to be printed this time."""
    return tuple(page for page in pages if page.name not in desk.unwanted)


def say_left_out(reasons: Sequence[str]) -> str:
    """What could not be made, in a sentence for each; nothing where all could."""
    return " ".join(f"Left out: {reason}." for reason in reasons)


def export(desk: "Desk", folder: Path, *, despite_stops: bool = False, replace: bool = False) -> None:
    """Write the files of the chosen templates into a folder; those of the same names are `replace`d when asked to."""
    if _refused(desk):
        return
    found = stops(desk)
    if found and not despite_stops:
        sentence = f"This would spoil the work: {found[0].text} Nothing was written."
        anyway = ("Write them all the same, marked STOP", lambda: export(desk, folder, despite_stops=True))
        desk.notice.say(sentence, anyway, wrong=True)
        return
    from app.file.export_job import AlreadyThere, NotExported
    from export.errors import ExportError

    left_out: list[str] = []
    try:
        written = _write(desk, folder, left_out, replace=replace)
    except AlreadyThere as error:
        again = ("Replace them", lambda: export(desk, folder, despite_stops=despite_stops, replace=True))
        desk.notice.say(f"{plain_words.sentence(str(error))} Nothing was written yet.", again)
    except (NotExported, ExportError) as error:
        desk.say_wrong(plain_words.sentence(str(error)))
    except Stopped:
        desk.notice.say("The export was cancelled; nothing was written.")
    else:
        _say_written(desk, folder, written, left_out)


def _refused(desk: "Desk") -> bool:
    """Whether there is no layout of this very job; that is said."""
    if desk.document.layout is None:
        desk.say_wrong(NOT_WORKED_OUT)
    return desk.document.layout is None


def _say_written(desk: "Desk", folder: Path, written: Sequence[Path], left_out: Sequence[str]) -> None:
    from export import cautions
    from export.templates import doubt_of

    layout = desk.document.layout
    doubt = doubt_of(desk.document.job, layout) if layout else ""
    hand = cautions.MACHINE if any(path.suffix in (".dxf", ".svg") for path in written) else ""
    said = (f"Written to {folder}: {', '.join(path.name for path in written)}.", doubt, hand, say_left_out(left_out))
    desk.notice.say(" ".join(part for part in said if part), wrong=bool(left_out or doubt))


def _write(desk: "Desk", folder: Path, left_out: list[str], *, replace: bool) -> tuple[Path, ...]:
    """Write the files while a bar tells how far it has come; raises `Stopped` where the person stops it."""
    from app.file.export_job import export as write
    from app.file.export_job import owner_of

    job, layout = named(desk), desk.document.layout
    if layout is None:
        return ()
    bar = QProgressDialog("Writing the files…", "Cancel", 0, 1, desk)
    bar.setWindowTitle("Export")
    bar.setAccessibleName("Writing the files")
    bar.setWindowModality(Qt.WindowModality.WindowModal)
    bar.setMinimumDuration(1000)

    def progress(done: int, total: int, what: str) -> None:
        bar.setMaximum(max(total, 1))
        bar.setLabelText(f"Writing {what}" if what else "Done")
        bar.setValue(done)
        if bar.wasCanceled():
            raise Stopped

    try:
        carried, kinds = _with_choice(desk)
        return write(
            job,
            layout,
            carried,
            folder,
            kinds,
            progress=progress,
            left_out=left_out.append,
            replace="all" if replace else "none",
            owner=owner_of(job, desk.document.path),
        )
    finally:
        bar.close()
        bar.deleteLater()


def _with_choice(desk: "Desk") -> "tuple[Stamp, tuple[str, ...]]":
    """The stamp with the names of the sheets to print, and the kinds of files: no PDF where no sheet is wanted."""
    import msgspec

    carried, kinds = stamp(desk), desk.bench.kept.files
    if not desk.unwanted:
        return carried, kinds
    pages = all_pages(desk, left_out=lambda _: None)
    names = tuple(page.name for page in wanted(desk, pages))
    if pages and not names:
        return carried, tuple(kind for kind in kinds if kind != "pdf")
    return msgspec.structs.replace(carried, only=names), kinds


def print_sheets(desk: "Desk") -> None:
    """Print the chosen templates at 100 %, with the printer's own correction."""
    left_out: list[str] = []

    def made(printer: str) -> "tuple[Sheet, ...]":
        left_out.clear()
        return wanted(desk, all_pages(desk, printer, left_out.append))

    _print(desk, made, left_out=left_out)


def print_check_sheet(desk: "Desk", printer: str = "") -> None:
    """Print the check sheet without any correction, so that the rule shows the printer's own error."""
    import msgspec

    from export.templates import sheets

    def check(_printer: str) -> "tuple[Sheet, ...]":
        layout = desk.document.layout
        plain = msgspec.structs.replace(stamp(desk), templates=(CHECK_SHEET,), correction=(1.0, 1.0))
        return sheets(named(desk), layout, plain) if layout else ()

    _print(desk, check, printer)


def _nothing(desk: "Desk") -> str:
    return "No sheet is chosen; tick one at least." if desk.unwanted else "There is nothing to print yet."


def _print(
    desk: "Desk", made: "Callable[[str], tuple[Sheet, ...]]", named: str = "", left_out: Sequence[str] = ()
) -> None:
    """Print what `made` makes for a printer; `left_out` then holds what it could not make."""
    from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo

    from app.desk.document.printing import print_pages, set_page
    from export.errors import ExportError

    if _refused(desk):
        return
    if not QPrinterInfo.availablePrinterNames():
        desk.say_wrong("No printer is known here. Export a PDF and print it at 100 %, with no fit to page.")
        return
    try:
        first = made(named)
    except ExportError as error:
        desk.say_wrong(plain_words.sentence(str(error)))
        return
    if not first:
        desk.say_wrong(say_left_out(left_out) or _nothing(desk))
        return
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    if named in QPrinterInfo.availablePrinterNames():
        printer.setPrinterName(named)
    set_page(printer, first[0])
    dialog = QPrintDialog(printer, desk)
    dialog.setWindowTitle("Print at 100 %")
    if dialog.exec() != QPrintDialog.DialogCode.Accepted:
        return
    name = printer.printerName()
    if print_pages(printer, made(name)):
        sent = f"Sent to {name} at 100 %. Lay a rule on the scales or the square first, both ways."
        desk.notice.say(f"{sent} {say_left_out(left_out)}".strip(), wrong=bool(left_out))
    else:
        desk.say_wrong(f"The printer {name} did not take the sheets; see whether it is switched on.")
