"""Where one looks: the **view** turns instrument millimetres into pixels of a widget, and back.

Headstock at the left by default. The view can be turned by quarters, and it can be the view from inside the instrument,
which is mirrored (bass and treble change sides on the screen).
"""

import math

import msgspec
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

from geometry.layout import XY

LEAST, MOST = 0.05, 400.0
Box = tuple[float, float, float, float]
"""x least, y least, x most, y most, in mm."""


class View(msgspec.Struct, frozen=True, kw_only=True):
    """`scale` in pixels per mm; `centre` is the instrument's point in the widget's middle; `turn` counts quarters."""

    scale: float = 1.0
    centre: XY = (320.0, 0.0)
    turn: int = 0
    inside: bool = False

    def transform(self, width: float, height: float) -> QTransform:
        """Instrument mm to widget pixels."""
        made = QTransform()
        made.translate(width / 2, height / 2)
        made.rotate(90.0 * self.turn)
        made.scale(self.scale, self.scale if self.inside else -self.scale)
        made.translate(-self.centre[0], -self.centre[1])
        return made

    def zoomed(self, factor: float, about: XY) -> "View":
        """Larger by `factor` with the instrument's point `about` staying where it is on the screen."""
        scale = min(max(self.scale * factor, LEAST), MOST)
        part = self.scale / scale
        (cx, cy), (x, y) = self.centre, about
        return msgspec.structs.replace(self, scale=scale, centre=(x + (cx - x) * part, y + (cy - y) * part))

    def panned(self, dx: float, dy: float) -> "View":
        """Moved by pixels, as a hand pushes paper."""
        turned = QTransform().rotate(-90.0 * self.turn).map(QPointF(dx, dy))
        up = 1.0 if self.inside else -1.0
        centre = self.centre[0] - turned.x() / self.scale, self.centre[1] - up * turned.y() / self.scale
        return msgspec.structs.replace(self, centre=centre)

    def kept_over(self, box: Box) -> "View":
        """The same with the middle of the picture over the box: what lies in it is not pushed out of sight."""
        (x, y), (x0, y0, x1, y1) = self.centre, box
        return msgspec.structs.replace(self, centre=(min(max(x, x0), x1), min(max(y, y0), y1)))

    def fitted(self, box: Box, width: float, height: float, margin: float = 0.0) -> "View":
        """The whole of `box` in a widget of this size with `margin` pixels round it."""
        wide, high = max(box[2] - box[0], 1.0), max(box[3] - box[1], 1.0)
        if self.turn % 2:
            wide, high = high, wide
        room_x, room_y = max(width - 2 * margin, 16.0), max(height - 2 * margin, 16.0)
        scale = min(max(min(room_x / wide, room_y / high), LEAST), MOST)
        return msgspec.structs.replace(self, scale=scale, centre=((box[0] + box[2]) / 2, (box[1] + box[3]) / 2))

    def seen(self, width: float, height: float) -> Box:
        """The instrument's box that the widget shows."""
        back, _ = self.transform(width, height).inverted()
        r = back.mapRect(QRectF(0, 0, width, height))
        return (r.left(), r.top(), r.right(), r.bottom())


def join(boxes: list[Box]) -> Box | None:
    """The least box round all boxes; None for none."""
    if not boxes:
        return None
    lows, highs = list(zip(*boxes, strict=True))[:2], list(zip(*boxes, strict=True))[2:]
    return (min(lows[0]), min(lows[1]), max(highs[0]), max(highs[1]))


def tick_step(pixels_per_unit: float, least_pixels: float, steps: tuple[float, ...]) -> float:
    """The smallest of `steps` (ascending, in units) whose marks stand at least `least_pixels` apart."""
    return next((step for step in steps if step * pixels_per_unit >= least_pixels), steps[-1])


def metric_steps() -> tuple[float, ...]:
    return tuple(base * 10.0**power for power in range(-2, 4) for base in (1.0, 2.0, 5.0))


def inch_steps() -> tuple[float, ...]:
    """Inch rulers halve: 64ths to whole inches, then 2, 4, 8 ..."""
    return tuple(2.0**power for power in range(-6, 7))


def length_of(a: XY, b: XY) -> float:
    return math.hypot(b[0] - a[0], b[1] - a[1])
