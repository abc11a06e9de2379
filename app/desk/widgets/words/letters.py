"""How wide words are, asked many times of the same ones."""

from functools import lru_cache

from PySide6.QtGui import QFontMetricsF

from app.desk.widgets.look import Look, Size


@lru_cache(maxsize=4096)
def letters_wide(look: Look, size: Size, bold: bool, text: str) -> float:
    """How wide words are on one line, pixels."""
    return QFontMetricsF(look.font(size, bold=bold)).horizontalAdvance(text)
