"""One window that the tests of the cards take one after the other, for opening one costs more than most of them do.

It is **as new** where all that it says and offers is what it said and offered when it was opened on that job and that
card. Whoever asks for a window is lent the kept one if it is as new, else one that is.
"""

from typing import Any

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QScrollArea,
    QScrollBar,
    QTableView,
    QWidget,
)
from shiboken6 import isValid

from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.desk.widgets.fold import FoldHead
from app.file import settings
from geometry.job import Job
from tests.app.desk.conftest import USUAL, Answers, opened

Said = list[Any]


class KeptWindow:
    """The window, where there is one; what it said when it was new, by job and card."""

    def __init__(self) -> None:
        self.desk: Desk | None = None
        self.is_lent = False
        self._new: dict[tuple[int, str], Said] = {}

    def lend(self, job: Job, card: str, answers: Answers) -> Desk:
        """The desk on a sample, which stays what it is as long as the tests run, on that card."""
        key, desk, self.is_lent = (id(job), card), self.desk, True
        if desk is not None and isValid(desk.frame) and key in self._new:
            begin_again(desk, job, card, answers)
            if said(desk) == self._new[key]:
                return desk
        self.put_away()
        self.desk = desk = opened(job, card, answers)
        self._new[key] = said(desk)
        return desk

    def put_away(self) -> None:
        """Close the window, if there is one."""
        if self.desk is not None and isValid(self.desk.frame):
            self.desk.frame.deleteLater()
            QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        self.desk = None


def begin_again(desk: Desk, job: Job, card: str, answers: Answers) -> None:
    """Bring a desk back to where it began. What was typed goes with its job; the rest is done as by hand."""
    desk.frame.setUpdatesEnabled(False)  # it is painted once, when all is done
    for dialog in desk.frame.findChildren(QDialog):
        dialog.reject()
    if (had := desk.frame.focusWidget()) is not None:
        had.clearFocus()
    for head in desk.frame.findChildren(FoldHead):
        head.setChecked(False)
    desk.job_files.asks = answers
    desk.preferences.settings = settings.load()
    desk.frame.resize(*USUAL)
    begin(desk, job, card)
    desk.frame.setUpdatesEnabled(True)
    desk.frame.activateWindow()  # another may have had the keys meanwhile


def begin(desk: Desk, job: Job, card: str) -> None:
    """Begin with a job on a card, as a window that is opened does."""
    desk.cards.open("Measure")  # another card takes the job over when it comes to the front
    desk.document.start(job)
    desk.measure.table.reset()
    desk.measure.refresh()
    desk.measure.table.scrollToTop()
    desk.measure.start()
    desk.cards.open(card)
    if isinstance(desk.card, StringsCard) and job.strings is not None:
        desk.card.table.go(1, 0)
        desk.card.table.go(0, 0)
    desk.board.fit()
    desk.board.refresh()


def said(desk: Desk) -> Said:
    """All that a desk says and offers; not where it stands, for words that wrap find their height only later."""
    board, focus, every = desk.board, desk.frame.focusWidget(), desk.frame.findChildren(QWidget)
    parts = [_part(one) for one in every if one.isVisible() and type(one) is not QWidget]
    areas = [one.verticalScrollBar() for one in every if isinstance(one, QScrollArea) and one.isVisible()]
    actions = [(name, one.isEnabled(), one.isChecked(), one.text()) for name, one in desk.menu_actions.items()]
    plan = [board.plan.view.turn, board.plan.view.inside, board.pictures.options, board.pictures.strong]
    about = [desk.preferences.settings, desk.look, desk.document.job, desk.document.from_inside, desk.document.path]
    about += [board.pointer.over, focus and focus.accessibleName(), *(bar.value() for bar in areas)]
    return [*about, *plan, *actions, *filter(None, parts)]


def _part(one: QWidget) -> Said:
    """What a part of the window says; nothing of a scroll bar."""
    found: Said = [type(one).__name__, one.accessibleName(), one.isEnabled()]
    match one:
        case QScrollBar():
            return []
        case QLabel() | QLineEdit():
            found += [one.text()]
        case QAbstractButton():
            found += [one.text(), one.isChecked()]
        case QComboBox():
            found += [one.currentText(), one.count()]
        case QTableView():
            model, at = one.model(), one.currentIndex()
            cells = [(row, column) for row in range(model.rowCount()) for column in range(model.columnCount())]
            selected = sorted((index.row(), index.column()) for index in one.selectedIndexes())
            found += [at.row(), at.column(), selected, *(model.index(*cell).data() for cell in cells)]
    return found
