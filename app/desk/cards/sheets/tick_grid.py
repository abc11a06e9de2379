"""Many small things to tick, in columns: what the lines are for, which sheets are wanted."""

from collections.abc import Collection, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from app.desk.widgets.inputs.choice import Tick


class TickGrid(QWidget):
    """Signals: `picked` with a thing's name and whether it is now ticked. `show_things` says which there are."""

    picked = Signal(str, bool)

    def __init__(self, name: str, parent: QWidget | None = None, columns: int = 2) -> None:
        super().__init__(parent)
        self.columns = columns
        self.setAccessibleName(name)
        self.ticks: dict[str, Tick] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(16)
        self._grid.setVerticalSpacing(6)

    def show_things(self, things: Sequence[tuple[str, str, str]]) -> None:
        """The things, each as its name, the words beside its box and what is said of it; made anew if others come."""
        if [name for name, _, _ in things] == list(self.ticks):
            return
        for tick in self.ticks.values():
            self._grid.removeWidget(tick)
            tick.hide()
            tick.deleteLater()
        self.ticks = {name: self._made(name, text, says) for name, text, says in things}
        for at, tick in enumerate(self.ticks.values()):
            self._grid.addWidget(tick, at // self.columns, at % self.columns)

    def _made(self, name: str, text: str, says: str) -> Tick:
        tick = Tick(text, says, self)
        tick.clicked.connect(lambda on: self.picked.emit(name, on))
        return tick

    def show_ticked(self, names: Collection[str]) -> None:
        for name, tick in self.ticks.items():
            tick.setChecked(name in names)
