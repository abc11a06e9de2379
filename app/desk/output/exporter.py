"""Files of the chosen templates, written into a folder with the cautions said first."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QProgressDialog, QWidget

from app.desk.output.job_pages import JobPages
from app.desk.output.output_told import refused, say_left_out, to_look_at, while_the_same
from app.desk.widgets.notice import Notice
from app.say import plain_words
from geometry.findings import Finding


class Stopped(Exception):
    """The person pressed Cancel."""


class Exporter:
    """Says in the notice what came of it. `window`: over which the progress is shown."""

    def __init__(self, pages: JobPages, notice: Notice, window: QWidget) -> None:
        self.pages, self.document, self.notice, self.window = pages, pages.document, notice, window

    def export(self, folder: Path, *, despite_stops: bool = False, replace: bool = False) -> None:
        """Write the files into a folder; those of the same names are `replace`d when asked to."""
        if refused(self.document, self.notice):
            return
        found = self.pages.stops()
        if found and not despite_stops:
            sentence = f"This would spoil the work: {found[0].text} Nothing was written."
            anyway = ("Write them all the same, marked STOP", lambda: self._despite(found, folder))
            self.notice.say(sentence, anyway, wrong=True)
            return
        from app.file.export_job import AlreadyThere, NotExported
        from export.errors import ExportError

        left_out: list[str] = []
        try:
            written = self._write(folder, left_out, replace=replace)
        except AlreadyThere as error:
            again = ("Replace them", lambda: self._despite(found, folder, replace=True))
            self.notice.say(f"{plain_words.sentence(str(error))} Nothing was written yet.", again)
        except (NotExported, ExportError) as error:
            self.notice.say(plain_words.sentence(str(error)), wrong=True)
        except Stopped:
            self.notice.say("The export was cancelled; nothing was written.")
        else:
            self._say_written(folder, written, left_out)

    def _despite(self, read: Sequence[Finding], folder: Path, *, replace: bool = False) -> None:
        """Export in spite of the stops that the person has `read`; of one that came since it is told first."""
        same = all(stop in read for stop in self.pages.stops())
        self.export(folder, despite_stops=same, replace=replace)

    def _say_written(self, folder: Path, written: Sequence[Path], left_out: Sequence[str]) -> None:
        from export import cautions
        from export.templates.to_be_read_first import doubt_of

        layout = self.document.layout
        doubt = doubt_of(self.document.job, layout) if layout else ""
        machine = [path.name for path in written if path.suffix in (".dxf", ".svg")]
        hand = cautions.of_machine_files(layout, machine) if layout else ""
        said = (
            f"Written to {folder}: {', '.join(path.name for path in written)}.",
            doubt,
            hand,
            say_left_out(left_out),
        )
        self.notice.say(
            " ".join(part for part in said if part),
            *to_look_at(self.notice, folder, written),
            wrong=bool(left_out or doubt),
            holds=while_the_same(self.document, f"The files in {folder} are", "Export them again"),
        )

    def _write(self, folder: Path, left_out: list[str], *, replace: bool) -> tuple[Path, ...]:
        """Write the files while a bar tells how far it has come; raises `Stopped` where the person stops it."""
        from app.file.export_job import export as write
        from app.file.export_job import owner_of

        job, layout = self.pages.job, self.document.layout
        if layout is None:
            return ()
        bar = _bar(self.window)

        def progress(done: int, total: int, what: str) -> None:
            bar.setMaximum(max(total, 1))
            bar.setLabelText(f"Writing {what}" if what else "Done")
            bar.setValue(done)
            if bar.wasCanceled():
                raise Stopped

        try:
            carried, kinds = self.pages.files_wanted()
            return write(
                job,
                layout,
                carried,
                folder,
                kinds,
                progress=progress,
                left_out=left_out.append,
                replace="all" if replace else "none",
                owner=owner_of(job, self.document.path),
            )
        finally:
            bar.close()
            bar.deleteLater()


def _bar(window: QWidget) -> QProgressDialog:
    bar = QProgressDialog("Writing the files…", "Cancel", 0, 1, window)
    bar.setWindowTitle("Export")
    bar.setAccessibleName("Writing the files")
    bar.setWindowModality(Qt.WindowModality.WindowModal)
    bar.setMinimumDuration(1000)
    return bar
