"""The sheets laid over the plan as they will be taped, kept in step while the Sheets card is open."""

from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, QTimer

from app.desk.cards.sheets import SheetsCard, say_count

if TYPE_CHECKING:
    from app.desk.desk import Desk


class Preview(QObject):
    """Works the pages out when the hands are idle, for it takes longer than a picture may."""

    def __init__(self, desk: "Desk", card: SheetsCard) -> None:
        super().__init__(desk)
        self.desk, self.card = desk, card
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(250)
        self._timer.timeout.connect(self.show)
        desk.document.changed.connect(self._timer.start)
        desk.cards.currentChanged.connect(self.show)
        card.preview.connect(self.show)

    def show(self) -> None:
        """Lay the pages over the plan, or take them away."""
        board = self.desk.board
        open_now = self.desk.card is self.card
        pages = self._pages() if open_now and self.desk.document.layout is not None else ()
        shown = pages if self.card.show_pages.isChecked() else ()
        overlays = board.wish.overlays - {"sheets"} | ({"sheets"} if shown else set())
        board.show_wish(msgspec.structs.replace(board.wish, overlays=frozenset(overlays), sheets=tuple(shown)))

    def _pages(self) -> tuple[object, ...]:
        from app.desk import output
        from export.errors import ExportError

        job = self.desk.document.job
        try:
            pages = output.pages(self.desk)
        except ExportError as error:
            self.card.say_pages(f"{error}.")
            return ()
        self.card.say_pages(say_count(len(pages), job.sheets.paper))
        return pages
