"""Help in few words: the keys, and what to look at before a bridge is moved."""

from collections.abc import Mapping, Sequence
from typing import get_args

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from app.desk.cards.card import close_row, words
from app.desk.widgets.kept_dialog import kept_dialog
from app.desk.widgets.look import Look
from app.say.figures.progress import Step
from geometry.job import Held

KEYS = (
    ("Type a number", "puts it in for the reading in hand"),
    ("Enter", "the next reading, the next field"),
    ("Up and Down", "in the table: the reading before or after; in a field: one step of what was typed"),
    ("Alt with Up or Down", "in a table: one step of what was typed"),
    ("Page Up and Down", "in a field: ten steps"),
    ("Escape", "takes back what was typed, lets go of a point, ends pointing"),
    (". and ,", "on the plan: the next point, the point before"),
    ("Arrow keys", "on the plan: move it, or nudge the point in hand by 0.1 mm; with Shift by 1 mm"),
    ("+ and −, or the wheel", "on the plan: larger, smaller"),
    ("Space with the mouse", "on the plan: push it about"),
)
"""What is done without the menus."""
KEYS_TITLE, CAUTIONS_TITLE = "Keys", "Before a bridge is moved"
INSIDE = (10, 8, 16, 8)
"""Room round what scrolls in a dialog, so that the ring of the focus touches no word."""
TRUST = (
    "The layout is as good as the readings. What it says of itself, ± and cents, is for you to weigh.",
    "Print at 100 %, lay a rule on the scales both ways, and check the distances before {before}.",
)
"""What is said of the layout itself."""


def shortcuts(actions: Mapping[str, QAction]) -> list[tuple[str, str]]:
    """The menus' own keys as this platform writes them, and what each does."""
    native = QKeySequence.SequenceFormat.NativeText
    named = ((name, action.shortcut()) for name, action in actions.items())
    return [(key.toString(native), name.rstrip("…?")) for name, key in named if not key.isEmpty()]


Keys = Sequence[tuple[str, str]]
"""Keys, and what each does."""


def two_sides(of_menus: Keys) -> tuple[Keys, Keys]:
    """At the left the keys of the mouse, the fields and the plan, at the right the menus' own down to the last step;
    behind it they have little but the plan's.
    """
    last_step = get_args(Step)[-1]
    of_plan = 1 + [does for _, does in of_menus].index(last_step)
    return (*KEYS, *of_menus[of_plan:]), of_menus[:of_plan]


def show_keys(actions: Mapping[str, QAction], look: Look, window: QWidget) -> None:
    """Show the keys on two sides."""
    _open(kept_dialog(QDialog, KEYS_TITLE, window, lambda: _keys(actions, window)), 960, 720, look, window)


def _keys(actions: Mapping[str, QAction], window: QWidget) -> QDialog:
    dialog, inside = _dialog(KEYS_TITLE, window)
    sides = QHBoxLayout(inside)
    sides.setContentsMargins(*INSIDE)
    sides.setSpacing(40)
    for rows, share in zip(two_sides(shortcuts(actions)), (3, 2), strict=True):
        grid = QGridLayout()
        sides.addLayout(grid, share)  # first, so that what is put in belongs to the dialog from the start
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(6)
        for row, (key, does) in enumerate(rows):
            grid.addWidget(words(key, "strong", inside, wrap=False), row, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(words(does, "text", inside), row, 1)
        grid.setColumnStretch(1, 1)
        grid.setRowStretch(len(rows), 1)
    return dialog


def show_cautions(look: Look, window: QWidget, held: Held) -> None:
    """Show what to look at before a bridge held so is moved, and every caution that it needs."""
    name = f"{CAUTIONS_TITLE}: {held}"
    _open(kept_dialog(QDialog, name, window, lambda: _cautions(window, held)), 620, 640, look, window)


def _cautions(window: QWidget, held: Held) -> QDialog:
    from export import cautions
    from geometry.job.bridges.how_held import HOW_HELD

    dialog, inside = _dialog(CAUTIONS_TITLE, window)
    column = QVBoxLayout(inside)
    column.setContentsMargins(*INSIDE)
    column.setSpacing(10)
    trust = (said.format(before=HOW_HELD[held].before) for said in TRUST)
    numbered = QGridLayout()
    column.addLayout(numbered)
    numbered.setHorizontalSpacing(8)
    numbered.setVerticalSpacing(10)
    for at, said in enumerate((*cautions.before(held), *trust)):
        numbered.addWidget(words(f"{at + 1}.", "text", inside, wrap=False), at, 0, Qt.AlignmentFlag.AlignTop)
        numbered.addWidget(words(said, "text", inside), at, 1)
    numbered.setColumnStretch(1, 1)
    column.addSpacing(8)
    column.addWidget(words("Where the hand is", "heading", inside))
    for caution in cautions.every(held):
        column.addWidget(words(caution.text, "text", inside))
    column.addStretch(1)
    return dialog


def _dialog(title: str, window: QWidget) -> tuple[QDialog, QWidget]:
    """A dialog, and what scrolls in it."""
    dialog, inside = QDialog(window), QWidget()
    dialog.setWindowTitle(title)
    dialog.setAccessibleName(title)
    column = QVBoxLayout(dialog)
    column.setContentsMargins(24, 20, 24, 20)
    column.setSpacing(10)
    column.addWidget(words(title, "title", dialog))
    inside.setObjectName("inside")
    area = QScrollArea(dialog)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setProperty("role", "read")
    area.setAccessibleName(title)
    area.setAccessibleDescription("Up and Down scroll")
    area.setWidget(inside)
    column.addWidget(area, 1)
    column.addLayout(close_row(dialog))
    return dialog, inside


def _open(dialog: QDialog, wide: int, high: int, look: Look, window: QWidget) -> None:
    """Open a dialog so large (pixels at text scale 1), but never larger than its window, at its beginning."""
    room, scale = window.window().size(), look.text_scale
    dialog.resize(min(round(wide * scale), room.width()), min(round(high * scale), room.height()))
    for area in dialog.findChildren(QScrollArea):
        area.verticalScrollBar().setValue(0)
    dialog.open()
