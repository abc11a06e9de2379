"""Work that a crash left behind is offered in the notice, one job after the other."""

from collections.abc import Callable, Sequence

from app.desk.document.document import Document
from app.desk.document.open_and_save import JobFiles
from app.desk.document.recovery import LeftBehind, Recovery
from app.desk.widgets.notice import Notice


class OfferLeftBehind:
    """`brought` is called when a job was brought back."""

    def __init__(
        self, document: Document, job_files: JobFiles, recovery: Recovery, notice: Notice, brought: Callable[[], None]
    ) -> None:
        self.document, self.job_files, self.recovery, self.notice = document, job_files, recovery, notice
        self._brought = brought

    def offer(self, found: tuple[LeftBehind, ...], unread: Sequence[str] = ()) -> None:
        """Offer the newest; tell of what can't be read."""
        if not found:
            if unread:
                self.notice.say(" ".join(unread), wrong=True)
            return
        newest, rest = found[0], found[1:]

        def throw() -> None:
            newest.drop()
            self.offer(rest)

        sentence = " ".join((newest.says(), "Bring it back?", *unread))
        bring = ("Bring it back", lambda: self._bring(newest, rest))
        self.notice.say(sentence, bring, ("Throw it away", throw), lasting=True)

    def _bring(self, newest: LeftBehind, rest: tuple[LeftBehind, ...]) -> None:
        if self.job_files.may_leave():
            self.document.start(newest.job, newest.path, seen=newest.seen, changed_since=True)
            if self.recovery.keep():
                newest.drop()
            self._brought()
            if rest:
                more = "Another job was" if len(rest) == 1 else f"{len(rest)} more jobs were"
                sentence = f"{more} left unsaved as well; they are offered when the program is started next."
                self.notice.say(sentence, lasting=True)
