"""The sheets laid over the plan as they will be taped, kept in step while the Sheets card is open."""

from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, QTimer

from app.desk.cards.sheets.sheets_card import SheetsCard, say_count
from app.say import plain_words

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk
    from export.paper.lay_sheets import Sheet


class Preview(QObject):
    """Works the pages out when the hands are idle, for it takes longer than a picture may; so with the tools."""

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

    def want(self, name: str, on: bool) -> None:
        """Whether a sheet is to be printed."""
        (self.desk.unwanted.discard if on else self.desk.unwanted.add)(name)
        self.show()

    def show(self) -> None:
        """Lay the pages over the plan, or take them away."""
        board = self.desk.board
        open_now = self.desk.card is self.card
        self._look_at_tools()
        pages = self._pages() if open_now and self.desk.document.layout is not None else ()
        shown = pages if self.card.show_pages.isChecked() else ()
        overlays = board.wish.overlays - {"sheets"} | ({"sheets"} if shown else set())
        board.show_wish(msgspec.structs.replace(board.wish, overlays=frozenset(overlays), sheets=tuple(shown)))

    def _look_at_tools(self) -> None:
        from app.desk.document import output

        found = output.tools(self.desk)
        if found != self.card.tools:
            self.card.show_tools(found)
        self.desk.header.show_tools(found)

    def _pages(self) -> "tuple[Sheet, ...]":
        from app.desk.document import output
        from export.errors import ExportError

        left_out: list[str] = []
        try:
            pages = output.all_pages(self.desk, left_out=left_out.append)
        except ExportError as error:
            self.card.say_pages(plain_words.sentence(str(error)))
            return ()
        wanted = output.wanted(self.desk, pages)
        counted = say_count(len(wanted), len(pages), self.desk.document.job.sheets.paper)
        names = [page.name for page in pages]
        sentence = " ".join((counted if pages or not left_out else "", output.say_left_out(left_out))).strip()
        self.card.say_pages(sentence, names, [page.name for page in wanted])
        return wanted
