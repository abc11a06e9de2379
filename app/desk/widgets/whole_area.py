"""An area that is as high as what is in it, as long as there is room."""

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QScrollArea


class WholeArea(QScrollArea):
    """As high as what is in it and a `spare` where there is room, and scrolled where there is none."""

    spare = 0

    def sizeHint(self) -> QSize:
        inside = self.widget()
        if inside is None:
            return super().sizeHint()
        return QSize(inside.sizeHint().width(), inside.heightForWidth(self.width()) + self.spare)
