"""What happens when the program itself is at fault: the work is kept, and the person sees one sentence."""

import sys
from collections.abc import Callable
from types import TracebackType
from typing import Protocol

from app.file import fault_report


class AtWork(Protocol):
    """Who keeps the work and speaks to the person; the window does."""

    def keep_work(self) -> bool: ...
    def say_wrong(self, sentence: str) -> None: ...


class CrashGuard:
    """While open, every exception that nothing caught is kept for whoever mends the program, and said in a sentence.

    `at_work` gives the window once there is one; before that the program cannot go on, and Python's own way is taken.
    """

    def __init__(self, at_work: Callable[[], AtWork | None]) -> None:
        self._at_work = at_work
        self._before = sys.excepthook

    def __enter__(self) -> "CrashGuard":
        sys.excepthook = self.caught
        return self

    def __exit__(self, *_: object) -> None:
        sys.excepthook = self._before

    def caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        window = self._at_work()
        if window is None or issubclass(kind, KeyboardInterrupt):
            self._before(kind, error, trace)
            return
        work = "Your work is kept" if window.keep_work() else "No copy of your work can be kept, so save it now"
        path = fault_report.keep(error)
        kept = f"what happened stands in {path}" if path else "undo the last change if it comes again"
        window.say_wrong(f"A fault of the program, not of your job ({error}). {work}; {kept}.")
