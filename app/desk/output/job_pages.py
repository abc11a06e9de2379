"""The job's sheets as they are now: the pages of the chosen templates, what they carry, which of them are wanted."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from app.desk.document.document import Document
from app.desk.document.preferences import Preferences
from app.file import job_file
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import Layout

if TYPE_CHECKING:
    from export.paper.lay_sheets import Sheet, Stamp
    from export.templates import LeftOut

CHECK_SHEET = "check-sheet"


class Drawn(NamedTuple):
    """Pages, what they were drawn of, and what was left out of them."""

    job: Job
    layout: Layout
    stamp: "Stamp"
    pages: "tuple[Sheet, ...]"
    left_out: tuple[str, ...]


class JobPages:
    """`unwanted`: the sheets, by name, that are not to be printed this time; another job wants all of its own. Pages
    that were drawn serve again while nothing has changed that they stand on.
    """

    def __init__(self, document: Document, preferences: Preferences) -> None:
        self.document, self.preferences = document, preferences
        self.unwanted: set[str] = set()
        self._drawn: Drawn | None = None
        document.started.connect(self.unwanted.clear)

    @property
    def job(self) -> Job:
        """The job as paper calls it: by its title, else by its file."""
        return job_file.titled(self.document.job, self.document.path)

    def stamp(self, printer: str | None = None) -> "Stamp":
        """What the sheets carry: date, fingerprint, the printer's correction; None: the printer chosen on the card."""
        from app.file.export_job import stamp as make

        job = self.document.job
        self.preferences.freshen()
        kept = self.preferences.settings
        name = kept.printer if printer is None else printer
        return make(job, job_file.fingerprint(job), name, kept.correction(name))

    def whose_correction(self, printer: str, known: Sequence[str]) -> str:
        """Whose correction is meant for sheets that go to one of the printers `known` to the system: its own; else
        that of the card, where a name stands that only the person uses.
        """
        kept = self.preferences.settings
        by_name = kept.printer and kept.printer in kept.printers and kept.printer not in known
        return kept.printer if by_name and printer not in kept.printers else printer

    def all_pages(self, printer: str | None, left_out: "LeftOut") -> "tuple[Sheet, ...]":
        """All pages of the templates that were chosen, wanted or not; `left_out` is told what cannot be made.

        Raises `ExportError`.
        """
        from export.templates import all_sheets

        job, layout, stamp = self.job, self.document.layout, self.stamp(printer)
        if layout is None:
            return ()
        last = self._drawn
        if last is None or last.layout is not layout or (last.job, last.stamp) != (job, stamp):
            told: list[str] = []
            pages = all_sheets(job, layout, stamp, told.append)
            self._drawn = last = Drawn(job, layout, stamp, pages, tuple(told))
        for sentence in last.left_out:
            left_out(sentence)
        return last.pages

    def wanted(self, pages: "tuple[Sheet, ...]") -> "tuple[Sheet, ...]":
        """Those of the pages that are to be printed this time."""
        return tuple(page for page in pages if page.name not in self.unwanted)

    def want(self, name: str, on: bool) -> None:
        """Whether a sheet is to be printed."""
        (self.unwanted.discard if on else self.unwanted.add)(name)

    def check_sheet(self, printer: str | None = None) -> "tuple[Sheet, ...]":
        """The check sheet without any correction, so that the rule shows the printer's own error."""
        from export.templates import sheets

        layout = self.document.layout
        plain = msgspec.structs.replace(self.stamp(printer), templates=(CHECK_SHEET,))
        return sheets(self.job, layout, plain) if layout else ()

    def files_wanted(self) -> "tuple[Stamp, tuple[str, ...]]":
        """The stamp with the names of the sheets to print, and the kinds of files: no PDF where no sheet is wanted."""
        carried, kinds = self.stamp(), self.preferences.settings.files
        if not self.unwanted:
            return carried, kinds
        pages = self.all_pages(None, lambda _: None)
        names = tuple(page.name for page in self.wanted(pages))
        if pages and not names:
            return carried, tuple(kind for kind in kinds if kind not in ("pdf", "png"))
        return msgspec.structs.replace(carried, only=names), kinds

    def tool_findings(self) -> tuple[Finding, ...]:
        """What there is to say of the job's cutter or kerf."""
        job, layout = self.document.job, self.document.layout
        if layout is None or not job.sheets.names_tool:
            return ()
        from app.file.export_job import tool_findings

        return tool_findings(job, layout, self.stamp(), self.preferences.settings.files)

    def stops(self) -> tuple[Finding, ...]:
        """What would spoil the work, the tools' part of it included."""
        layout = self.document.layout
        return tuple(f for f in (*layout.findings, *self.tool_findings()) if f.grade == "stop") if layout else ()
