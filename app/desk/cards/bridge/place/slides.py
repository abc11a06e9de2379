"""The bridge moved by dragging: a slider each for along, across and turn, within the range of the choice."""

from itertools import count

from PySide6.QtCore import Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QSlider, QWidget

from app.desk.document.document import Document
from app.edit.bridge import choice_entries
from geometry.job import Job
from geometry.units import MM_PER, Length, mm

STEPS = 100
"""Steps from the middle of a slider to either end; in inches it goes by 64ths."""
NAMES = {"along": "To nut or tail", "across": "Across", "turn": "Turned"}
_VISITS = count()


class Slide(QSlider):
    """A slider that the wheel goes past: it scrolls the card, and moves no bridge."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class Slides(QWidget):
    """Each drag is one step for Undo; every number follows while it lasts."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.document = document
        self.sliders: dict[str, Slide] = {}
        self._visit = ""
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(12)
        for row, (key, name) in enumerate(NAMES.items()):
            slider = Slide(Qt.Orientation.Horizontal, self)
            slider.setAccessibleName(f"{name}, slid")
            slider.setAccessibleDescription("Moves the bridge within the range; every number follows")
            slider.sliderPressed.connect(self._begin)
            slider.actionTriggered.connect(self._begin_by_key)
            slider.valueChanged.connect(self._mover(key))
            label = QLabel(name, self)
            label.setBuddy(slider)
            grid.addWidget(label, row, 0)
            grid.addWidget(slider, row, 1)
            self.sliders[key] = slider
        grid.setColumnStretch(1, 1)

    def refresh(self) -> None:
        """Show where the bridge is moved to."""
        for key, slider in self.sliders.items():
            most, at = _range(self.document.job, key), mm(choice_entries.moved_of(key)(self.document.job))
            slider.blockSignals(True)
            slider.setEnabled(most > 0 and self.document.job.bridge is not None)
            step = _step(self.document.job, key)
            steps = int(most / step + 1e-9) if most > 0 else 0
            slider.setRange(-steps, steps)
            slider.setPageStep(max(steps // 10, 1))
            slider.setValue(round(at / step) if most > 0 else 0)
            slider.blockSignals(False)

    def _begin(self) -> None:
        self._visit = f"slide {next(_VISITS)}"

    def _begin_by_key(self) -> None:
        slider = self.sender()
        if isinstance(slider, Slide) and not slider.isSliderDown():
            self._begin()

    def _mover(self, key: str) -> object:
        def move(step: int) -> None:
            job = self.document.job
            to: Length = round(step * _step(job, key), 3)
            if _in_64ths(job, key):
                to = choice_entries.ruled(mm(to), job.unit)
            made = choice_entries.moved_put(key)(job, to)
            self.document.edit(f"sliding the bridge {key if key != 'turn' else 'round'}", made, self._visit)

        return move


def _range(job: Job, key: str) -> float:
    """How far it may go either way, mm or degrees."""
    return mm(choice_entries.choice_of(key)(job))


def _step(job: Job, key: str) -> float:
    """How far a step goes, mm or degrees."""
    return MM_PER["in"] / 64 if _in_64ths(job, key) else _range(job, key) / STEPS


def _in_64ths(job: Job, key: str) -> bool:
    return job.unit == "in" and key != "turn"
