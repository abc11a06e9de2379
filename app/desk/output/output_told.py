"""What is said of an export or a print in any case: that there is nothing to give out, or what could not be made."""

from collections.abc import Sequence

from app.desk.document.document import Document
from app.desk.widgets.notice import Notice

NOT_WORKED_OUT = "This job could not be worked out, so nothing leaves the desk: undo the last change, then try again."


def refused(document: Document, notice: Notice) -> bool:
    """Whether there is no layout of this very job; that is said."""
    if document.layout is None:
        notice.say(NOT_WORKED_OUT, wrong=True)
    return document.layout is None


def say_left_out(reasons: Sequence[str]) -> str:
    """What could not be made, in a sentence for each; nothing where all could."""
    return " ".join(f"Left out: {reason}." for reason in reasons)
