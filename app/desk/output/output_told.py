"""What is said of an export or a print in any case: that there is nothing to give out, what could not be made, and how
to look at what was written.
"""

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices

from app.desk.document.document import Document
from app.desk.widgets.notice import Answer, Holds, Notice
from app.file import job_file

NOT_WORKED_OUT = "This job could not be worked out, so nothing leaves the desk: undo the last change, then try again."


def refused(document: Document, notice: Notice) -> bool:
    """Whether there is no layout of this very job; that is said."""
    if document.layout is None:
        notice.say(NOT_WORKED_OUT, wrong=True)
    return document.layout is None


def say_left_out(reasons: Sequence[str]) -> str:
    """What could not be made, in a sentence for each; nothing where all could."""
    return " ".join(f"Left out: {reason}." for reason in reasons)


def to_look_at(notice: Notice, folder: Path, written: Sequence[Path]) -> Iterator[Answer]:
    """What opens the first PDF that was written, where there is one, and the folder."""
    pdf = next((path for path in written if path.suffix == ".pdf"), None)
    for words, path in (("Open the PDF", pdf), ("Open the folder", folder)):
        if path is not None:
            yield words, partial(_open, notice, path)


def while_the_same(document: Document, sheets: str, again: str) -> Holds:
    """What is said of sheets holds while the job has the fingerprint that they carry; then that they (`sheets`, with
    their verb) are older, and what to do `again`: nobody is to cut by old numbers.
    """
    carried = job_file.fingerprint(document.job)
    say = f"{sheets} older than the job now. {again} before you use them."
    return Holds(lambda: job_file.fingerprint(document.job) == carried, say)


def _open(notice: Notice, path: Path) -> None:
    """Let the platform open what was written."""
    if not QDesktopServices.openUrl(QUrl.fromLocalFile(str(path))):
        notice.say(f"No program here opens it; look for it yourself: {path}")
