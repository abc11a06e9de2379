"""What happens when the program itself is at fault: the work is kept, and the person sees one sentence."""

import sys
import tempfile
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from export import files

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk


class Safety:
    """While open, every exception that nothing caught is kept for whoever mends the program, and said in a sentence.

    `desk` gives the desk once there is one; before that the program cannot go on, and Python's own way is taken.
    """

    def __init__(self, desk: "Callable[[], Desk | None]") -> None:
        self._desk = desk
        self._before = sys.excepthook

    def __enter__(self) -> "Safety":
        sys.excepthook = self.caught
        return self

    def __exit__(self, *_: object) -> None:
        sys.excepthook = self._before

    def caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        desk = self._desk()
        if desk is None or issubclass(kind, KeyboardInterrupt):
            self._before(kind, error, trace)
            return
        work = "Your work is kept" if desk.recovery.keep() else "No copy of your work can be kept, so save it now"
        desk.say_wrong(f"A fault of the program, not of your job ({error}). {work}; {_kept(error)}.")


def _kept(error: BaseException) -> str:
    path = Path(tempfile.gettempdir()) / "offsquare-fault.txt"
    try:
        files.replace(path, "".join(traceback.format_exception(error)).encode(errors="replace"))
    except OSError:
        return "undo the last change if it comes again"
    return f"what happened stands in {path}"
