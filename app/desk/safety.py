"""What happens when the program itself is at fault: the work is kept, and the person sees one sentence."""

import sys
import tempfile
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

Say = Callable[[str], None]


class Safety:
    """While open, every exception that nothing caught is kept for whoever mends the program, and said in a sentence."""

    def __init__(self, keep_work: Callable[[], None], say: Say) -> None:
        self._keep_work, self._say = keep_work, say
        self._before = sys.excepthook

    def __enter__(self) -> "Safety":
        sys.excepthook = self.caught
        return self

    def __exit__(self, *_: object) -> None:
        sys.excepthook = self._before

    def caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            self._before(kind, error, trace)
            return
        self._keep_work()
        self._say(f"A fault of the program, not of your job ({error}). Your work is kept; {_kept(error)}.")


def _kept(error: BaseException) -> str:
    path = Path(tempfile.gettempdir()) / "offsquare-fault.txt"
    try:
        path.write_text("".join(traceback.format_exception(error)), encoding="utf-8")
    except OSError:
        return "undo the last change if it comes again"
    return f"what happened stands in {path}"
