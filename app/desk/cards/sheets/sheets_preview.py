"""The sheets laid over the plan as they will be taped, kept in step while the Sheets card is open."""

from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, QTimer

from app.desk.cards.card_stack import CardStack
from app.desk.cards.sheets.sheets_card import SheetsCard
from app.desk.output.job_pages import JobPages
from app.desk.output.output_told import say_left_out
from app.desk.plan.painting.two_pictures import TwoPictures
from app.edit import sheet_entries
from app.say import plain_words
from geometry.findings import Finding

if TYPE_CHECKING:
    from export.paper.lay_sheets import Sheet


class SheetsPreview(QObject):
    """Works the pages out a moment after the last change, for it takes longer than a picture may; so with the tools,
    of which `show_tools` hears. `stack`: the cards, the open one in front.
    """

    def __init__(
        self,
        card: SheetsCard,
        pages: JobPages,
        pictures: TwoPictures,
        stack: CardStack,
        show_tools: Callable[[tuple[Finding, ...]], None],
    ) -> None:
        super().__init__(card)
        self.card, self.pages, self.pictures, self.stack, self._show_tools = card, pages, pictures, stack, show_tools
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(250)
        self._timer.timeout.connect(self.show)
        pages.document.changed.connect(self._timer.start)
        stack.currentChanged.connect(self.show)
        card.preview.connect(self.show)
        card.wanted.connect(self._want)

    def _want(self, name: str, on: bool) -> None:
        self.pages.want(name, on)
        self.show()

    def show(self) -> None:
        """Lay the pages over the plan, or take them away."""
        open_now = self.stack.currentWidget() is self.card
        self._look_at_tools()
        pages = self._pages() if open_now and self.pages.document.layout is not None else ()
        shown = pages if self.card.show_pages.isChecked() else ()
        options = self.pictures.options
        overlays = options.overlays - {"sheets"} | ({"sheets"} if shown else set())
        made = msgspec.structs.replace(options, overlays=frozenset(overlays), sheets=tuple(shown))
        self.pictures.show_options(made)

    def _look_at_tools(self) -> None:
        found = self.pages.tool_findings()
        if found != self.card.tools:
            self.card.show_tools(found)
        self._show_tools(found)

    def _pages(self) -> "tuple[Sheet, ...]":
        from export.errors import ExportError

        left_out: list[str] = []
        try:
            pages = self.pages.all_pages(None, left_out.append)
        except ExportError as error:
            self.card.say_pages(plain_words.sentence(str(error)))
            return ()
        wanted = self.pages.wanted(pages)
        told = sheet_entries.pages_told(pages, wanted, self.pages.document.job.sheets.paper)
        names = [page.name for page in pages]
        sentence = " ".join((told if pages or not left_out else "", say_left_out(left_out))).strip()
        self.card.say_pages(sentence, names, [page.name for page in wanted])
        return wanted
